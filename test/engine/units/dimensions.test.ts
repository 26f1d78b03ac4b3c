/** The relations are the SI's definitions of its derived units (SI brochure, 9th edition, table 4), from memory. */
import { describe, expect, test } from 'vitest'
import {
  decibels,
  dimensionOf,
  DIMENSIONLESS,
  divide,
  fromDecibels,
  multiply,
  power,
  sameDimension,
  toCelsius,
  toKelvin,
  unitOf,
} from '../../../engine/units/index.ts'

const product = (a: string, b: string) => multiply(dimensionOf(a), dimensionOf(b))
const quotient = (a: string, b: string) => divide(dimensionOf(a), dimensionOf(b))

describe('dimensions', () => {
  test.each([
    ['Ω', quotient('V', 'A')],
    ['S', quotient('A', 'V')],
    ['W', product('V', 'A')],
    ['J', product('W', 's')],
    ['C', product('A', 's')],
    ['F', quotient('C', 'V')],
    ['H', product('Ω', 's')],
    ['Hz', quotient('1', 's')],
    ['K/W', quotient('K', 'W')],
    ['V/K', quotient('V', 'K')],
    ['1/K', quotient('1', '°C')],
    ['m²', product('m', 'm')],
    ['V^2', product('V', 'V')],
    ['A·s', dimensionOf('C')],
    ['V/A/s', quotient('Ω', 's')],
    ['%', DIMENSIONLESS],
    ['fraction', DIMENSIONLESS],
  ])('%s is its definition', (unit, definition) => {
    expect(dimensionOf(unit)).toEqual(definition)
  })

  test('an RC product is a time and its inverse a frequency', () => {
    expect(sameDimension(product('Ω', 'F'), dimensionOf('s'))).toBe(true)
    expect(sameDimension(power(product('Ω', 'F'), -1), dimensionOf('Hz'))).toBe(true)
    expect(sameDimension(product('Ω', 'F'), dimensionOf('V'))).toBe(false)
  })

  test.each(['mV', 'kΩ', 'furlong', 'V//A', 'V^', 'constructor', '__proto__'])('%s is refused', (unit) => {
    expect(() => dimensionOf(unit)).toThrow(/engine\/units: the unit/u)
  })

  test.each(['V', 'Ω', 'W', 'K/W', 'V/K', '1/K', 'F', 'Hz', 'm²', 'V²', '1'])(
    '%s is named again from its dimension',
    (unit) => {
      expect(sameDimension(dimensionOf(unitOf(dimensionOf(unit))), dimensionOf(unit))).toBe(true)
    },
  )
})

describe('scales', () => {
  test('kelvin and degrees Celsius are 273.15 apart', () => {
    expect(toKelvin(25)).toBe(298.15)
    expect(toCelsius(0)).toBe(-273.15)
    expect(toCelsius(toKelvin(-40))).toBeCloseTo(-40, 12)
  })

  // definition for field quantities: 20·log10 of the ratio (ISO 80000-1, from memory)
  test('decibels are those of voltages', () => {
    expect(decibels(10)).toBeCloseTo(20, 12)
    expect(decibels(-1000)).toBeCloseTo(60, 12)
    expect(decibels(2)).toBeCloseTo(6.0206, 4)
    expect(fromDecibels(decibels(0.0123))).toBeCloseTo(0.0123, 15)
    expect(decibels(0)).toBe(-Infinity)
  })
})
