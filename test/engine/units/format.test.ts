import { describe, expect, test } from 'vitest'
import {
  entryText,
  formatQuantity,
  formatValueCode,
  parseQuantity,
  preferredValues,
} from '../../../engine/units/index.ts'
import { randomOf } from '../../../engine/random/index.ts'

const UNITS = ['V', 'A', 'Ω', 'W', 'F', 'H', 'Hz', 's', 'K', '°C', 'K/W', 'V/K', '1/K', 'm²', 'fraction', 'dB', '1']

/** Any size from 1e-16 to 1e14 with any sign, some with few digits as people write them. */
function anyValue(k: number): number {
  const random = randomOf(2, k)
  const sign = random() < 0.5 ? -1 : 1
  const value = sign * 10 ** (30 * random() - 16)
  return random() < 0.5 ? value : Number(value.toPrecision(1 + Math.floor(6 * random())))
}

describe('formatQuantity', () => {
  // U+202F is the narrow no-break space, U+2212 the minus sign
  test.each([
    [0.0123456, 'A', '12.3\u202FmA'],
    [5, 'V', '5.00\u202FV'],
    [-5, 'V', '\u22125.00\u202FV'],
    [4700, 'Ω', '4.70\u202FkΩ'],
    [999.4, 'V', '999\u202FV'],
    [999.96, 'V', '1.00\u202FkV'],
    [0.00099996, 'A', '1.00\u202FmA'],
    [0.08, 'fraction', '8.00\u202F%'],
    [0.08, '%', '8.00\u202F%'],
    [25.04, '°C', '25.0\u202F°C'],
    [-40, '°C', '\u221240.0\u202F°C'],
    [1234, '°C', '1230\u202F°C'],
    [0.0021, 'V/K', '2.10\u202FmV/K'],
    [25e-6, '1/K', '25.0\u202Fppm/K'],
    [28, 'K/W', '28.0\u202FK/W'],
    [0.5, 'K/W', '0.500\u202FK/W'],
    [400e-6, 'm²', '4.00\u202Fcm²'],
    [150, '1', '150'],
    [-62.5, 'dB', '\u221262.5\u202FdB'],
    [47.3, '°', '47.3°'],
    [0, 'V', '0\u202FV'],
    [-0, 'A', '0\u202FA'],
    [7, 'furlong', '7.00\u202Ffurlong'],
  ])('prints %d %s as %s', (value, unit, text) => {
    expect(formatQuantity(value, unit)).toBe(text)
  })

  test('never prints NaN as a number', () => {
    for (const unit of UNITS) expect(formatQuantity(NaN, unit)).toBe('\u2014')
    expect(formatQuantity(Infinity, 'V')).not.toMatch(/\d/u)
  })

  test('keeps the number from 1 up to 1000 where the unit takes prefixes', () => {
    for (let k = 0; k < 3000; k++) {
      const value = anyValue(k)
      if (Math.abs(value) < 1e-15) continue
      const text = formatQuantity(value, 'V', 3).replace('\u2212', '')
      const number = Number(text.split('\u202F')[0])
      expect(number, `printed ${text}`).toBeGreaterThanOrEqual(1)
      expect(number, `printed ${text}`).toBeLessThan(1000)
    }
  })

  test('rounds to the digits asked for: within half a unit of the last one', () => {
    for (let k = 0; k < 3000; k++) {
      const value = anyValue(k)
      for (const digits of [2, 3, 5]) {
        const parsed = parseQuantity(formatQuantity(value, 'A', digits), 'A')
        expect(parsed.ok && parsed.value).toBe(Number(value.toPrecision(digits)))
      }
    }
  })

  test('is stable: what was printed and read prints the same again', () => {
    for (const unit of UNITS) {
      for (let k = 0; k < 1000; k++) {
        const text = formatQuantity(anyValue(k), unit, 4)
        const parsed = parseQuantity(text, unit)
        expect(parsed.ok && formatQuantity(parsed.value, unit, 4), `${text} in ${unit}`).toBe(text)
      }
    }
  })
})

describe('entryText', () => {
  test.each([
    [0.002, 'A', '2 mA'],
    [0.08, 'fraction', '8 %'],
    [8.5, 'V', '8.5 V'],
    [-20, '°C', '-20 °C'],
    [4700, 'Ω', '4.7 kΩ'],
    [0, 'A', '0 A'],
    [14.600000000000001, 'V', '14.600000000000001 V'],
    [NaN, 'V', ''],
  ])('writes %d %s as "%s"', (value, unit, text) => {
    expect(entryText(value, unit)).toBe(text)
  })

  test('reads back as exactly the same number, in every unit', () => {
    for (const unit of UNITS) {
      for (let k = 0; k < 1500; k++) {
        const value = anyValue(k)
        expect(parseQuantity(entryText(value, unit), unit), `${value} ${unit}`).toEqual({ ok: true, value })
      }
    }
  })

  test('reads back exactly at the ends of the number range', () => {
    for (const value of [Number.MAX_VALUE, Number.MIN_VALUE, Number.EPSILON, 2 ** 53, 1e21, 1e-7]) {
      expect(parseQuantity(entryText(value, 'V'), 'V')).toEqual({ ok: true, value })
    }
  })
})

describe('formatValueCode', () => {
  // IEC 60062, from memory: the letter stands for the decimal point
  test.each([
    [4700, 'R', '4k7'],
    [3.9, 'R', '3R9'],
    [100e3, 'R', '100k'],
    [0.47, 'R', 'R47'],
    [1000, 'R', '1k0'],
    [1e6, 'R', '1M0'],
    [10, 'R', '10R'],
    [16.9, 'R', '16R9'],
    [3320, 'R', '3k32'],
    [59040, 'R', '59k04'],
    [0, 'R', '0R'],
    [220e-9, 'F', '220n'],
    [4.7e-6, 'F', '4µ7'],
    [5.1, 'V', '5V1'],
    [4700.0000001, 'R', '4k7'],
    [-1, 'R', '\u2014'],
    [NaN, 'R', '\u2014'],
  ])('writes %d as a code with %s: %s', (value, letter, code) => {
    expect(formatValueCode(value, letter)).toBe(code)
  })

  test('every preferred resistor from 10 mΩ to 10 MΩ reads back exactly', () => {
    for (const series of ['E24', 'E192'] as const) {
      const values = preferredValues(series, 0.01, 10e6)
      expect(values.length).toBeGreaterThan(200)
      for (const value of values) expect(parseQuantity(formatValueCode(value), 'Ω')).toEqual({ ok: true, value })
    }
  })

  test('every preferred capacitor from 1 pF to 10 mF reads back exactly', () => {
    for (const value of preferredValues('E24', 1e-12, 10e-3)) {
      expect(parseQuantity(formatValueCode(value, 'F'), 'F')).toEqual({ ok: true, value })
    }
  })
})
