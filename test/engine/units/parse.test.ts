/** Value codes are those of IEC 60062 (from memory); the other spellings are common practice, no source. */
import { describe, expect, test } from 'vitest'
import { parseQuantity } from '../../../engine/units/index.ts'

describe('parseQuantity reads', () => {
  test.each([
    ['4k7', 'Ω', 4700],
    ['4K7', 'Ω', 4700],
    ['4k7 Ω', 'Ω', 4700],
    ['4k7Ω', 'Ω', 4700],
    ['4.7k', 'Ω', 4700],
    ['4.7 kΩ', 'Ω', 4700],
    ['4,7 kohm', 'Ω', 4700],
    ['4700', 'Ω', 4700],
    ['10K', 'Ω', 10_000],
    ['4R7', 'Ω', 4.7],
    ['4Ω7', 'Ω', 4.7],
    ['4\u21267', 'Ω', 4.7],
    ['R47', 'Ω', 0.47],
    ['k47', 'Ω', 470],
    ['390R', 'Ω', 390],
    ['2M2', 'Ω', 2.2e6],
    ['2m2', 'Ω', 2.2e-3],
    ['100k', 'Ω', 100e3],
    ['250 mA', 'A', 0.25],
    ['0.25A', 'A', 0.25],
    ['.25', 'A', 0.25],
    ['0,25', 'A', 0.25],
    ['0,250', 'A', 0.25],
    ['250 ma', 'A', 0.25],
    ['1\u00B55', 'F', 1.5e-6],
    ['1\u03BC5', 'F', 1.5e-6],
    ['1u5', 'F', 1.5e-6],
    ['47n', 'F', 47e-9],
    ['100 nF', 'F', 100e-9],
    ['5 V', 'V', 5],
    ['5V', 'V', 5],
    ['5V0', 'V', 5],
    ['3V3', 'V', 3.3],
    ['5.', 'V', 5],
    ['5\u00A0V', 'V', 5],
    ['5\u202FV', 'V', 5],
    ['  5  V ', 'V', 5],
    ['+5 V', 'V', 5],
    ['1 000 V', 'V', 1000],
    ['1e3', 'V', 1000],
    ['1E-3 V', 'V', 0.001],
    ['-20 °C', '°C', -20],
    ['\u221220 °C', '°C', -20],
    ['\u2212 20', '°C', -20],
    ['50 ℃', '°C', 50],
    ['50C', '°C', 50],
    ['8 %', 'fraction', 0.08],
    ['8%', '%', 0.08],
    ['±8 %', 'fraction', 0.08],
    ['+/-8 %', 'fraction', 0.08],
    ['0.08', 'fraction', 0.08],
    ['100 ppm', 'fraction', 1e-4],
    ['2.1 mV/K', 'V/K', 2.1e-3],
    ['-2 mV/°C', 'V/K', -2e-3],
    ['25 ppm/K', '1/K', 25e-6],
    ['28 K/W', 'K/W', 28],
    ['28 °C/W', 'K/W', 28],
    ['12 cm²', 'm²', 12e-4],
    ['12 mm2', 'm²', 12e-6],
    ['120', '1', 120],
  ])('"%s" in %s as %d', (text, unit, value) => {
    expect(parseQuantity(text, unit)).toEqual({ ok: true, value })
  })

  test('minus zero is zero', () => {
    expect(parseQuantity('-0', 'V')).toEqual({ ok: true, value: 0 })
  })
})

describe('parseQuantity refuses', () => {
  test.each([
    ['', 'V', /missing.*5 V or 250 mV/u],
    ['   ', 'V', /missing/u],
    ['abc', 'V', /"abc" is not a number/u],
    ['.', 'V', /not a number/u],
    ['--5', 'V', /not a number/u],
    ['1.2.3', 'V', /not a number/u],
    ['Infinity', 'V', /not a number/u],
    ['NaN', 'V', /not a number/u],
    ['5 A', 'V', /"5 A" is a current \(A\), but a voltage is wanted here/u],
    ['5 mA', 'V', /is a current \(mA\), but a voltage/u],
    ['4k7 V', 'Ω', /is a voltage \(V\), but a resistance/u],
    ['3 K', '°C', /is a temperature difference \(K\), but a temperature/u],
    ['5 parsec', 'V', /"parsec", which is not known/u],
    ['4k7', '°C', /"k7", which is not known/u],
    ['4k7k', 'Ω', /not known/u],
    ['1,000', 'Ω', /thousands or a decimal comma/u],
    ['1.000,5', 'V', /thousands or a decimal comma/u],
    ['1,234,567', 'V', /thousands or a decimal comma/u],
    ['8', 'fraction', /no per cent sign; write 8 %/u],
    ['±5', 'V', /± sign, which only a tolerance/u],
    ['1e999', 'V', /larger than any number/u],
    ['9'.repeat(81), 'V', /too long/u],
  ])('"%s" in %s', (text, unit, message) => {
    const parsed = parseQuantity(text, unit)
    expect(parsed.ok).toBe(false)
    expect(!parsed.ok && parsed.message).toMatch(message)
    expect(!parsed.ok && parsed.message.length).toBeLessThan(300)
  })

  test('a text of a million digits at once', () => {
    expect(parseQuantity('9'.repeat(1e6), 'V').ok).toBe(false)
    expect(parseQuantity(' '.repeat(1e6), 'V').ok).toBe(false)
  })

  test('nothing with an exception, whatever characters it is given', () => {
    const odd = [
      '\0',
      '€',
      '𝟜k7',
      '4k7\n',
      'ﬀ',
      '4\u0301',
      '%',
      '±',
      '/K',
      '²',
      'e',
      'e5',
      '5e',
      '5e+',
      '٤',
      '{}',
      '-',
      '+/-',
    ]
    for (const text of odd) {
      for (const unit of ['V', 'Ω', 'fraction', '°C', 'K/W', '1/K', 'm²', '', 'furlong', 'constructor', '__proto__']) {
        const parsed = parseQuantity(text, unit)
        expect(parsed.ok ? Number.isFinite(parsed.value) : parsed.message.length > 0).toBe(true)
      }
    }
  })
})
