import { describe, expect, it } from 'vitest'
import { parseQuantity } from '../../../engine/units/index.ts'
import { lastDigit, quantityField, shown } from '../../../web/store/fields.ts'

const volts = quantityField('input.max')
const amperes = quantityField('load.max')
const band = quantityField('output.tolerance')
const degrees = quantityField('ambient.min')
const plainSpaces = (text: string) => text.replaceAll('\u202F', ' ')

describe('shown', () => {
  it('writes three significant figures', () => {
    expect(plainSpaces(shown(volts, 8.6))).toBe('8.60 V')
    expect(plainSpaces(shown(volts, 24))).toBe('24.0 V')
    expect(plainSpaces(shown(amperes, 0.0028))).toBe('2.80 mA')
  })

  it('writes every figure of a value that has more than three', () => {
    expect(plainSpaces(shown(volts, 12.345))).toBe('12.345 V')
    expect(plainSpaces(shown(amperes, 0.18055))).toBe('180.55 mA')
  })

  it('spares bands and temperatures the zeros behind the point', () => {
    expect(plainSpaces(shown(band, 0.07))).toBe('±7 %')
    expect(plainSpaces(shown(band, 0.125))).toBe('±12.5 %')
    expect(plainSpaces(shown(degrees, -20))).toBe('−20 °C')
    expect(plainSpaces(shown(degrees, 100))).toBe('100 °C')
  })

  it('loses nothing: what it writes is read back as the same value', () => {
    for (const value of [8.6, 12.345, 0.0999, 47.11, 1.00001, 33.333333]) {
      expect(parseQuantity(shown(volts, value), 'V')).toEqual({ ok: true, value })
    }
  })
})

describe('lastDigit', () => {
  it('is one step in the last digit on screen', () => {
    expect(lastDigit(volts, 8.6, 1)).toBe(0.01)
    expect(lastDigit(volts, 24, 1)).toBe(0.1)
    expect(lastDigit(amperes, 0.18, 1)).toBe(0.001)
    expect(lastDigit(amperes, 0.0028, 1)).toBe(0.00001)
    expect(lastDigit(volts, 12.345, 1)).toBe(0.001)
    expect(lastDigit(degrees, -20, 1)).toBe(1)
    expect(lastDigit(degrees, 22.5, 1)).toBe(0.1)
    expect(lastDigit(degrees, 0, 1)).toBe(1)
  })
})
