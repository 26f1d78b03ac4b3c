import { expect, test } from 'vitest'
import { DERATING, deratedJunction } from '../../../engine/parts/derating/index.ts'

test('standard derating keeps junctions 25 K below their maximum and at 125 degC at most', () => {
  // Common practice, no source.
  const { standard, none } = DERATING
  expect(deratedJunction(150, standard)).toBe(125)
  expect(deratedJunction(200, standard)).toBe(125)
  expect(deratedJunction(100, standard)).toBe(75)
  expect(deratedJunction(200, none)).toBe(200)
  expect(standard).toMatchObject({
    resistorPower: 0.5,
    resistorVoltage: 0.8,
    transistorVoltage: 0.75,
    transistorCurrent: 0.75,
    soa: 0.75,
    electrolyticVoltage: 0.8,
    ceramicVoltage: 0.6,
    opAmpSupply: 0.9,
    referenceCurrent: 0.8,
    heatsinkFactor: 1.15,
  })
  expect(standard.source).toMatch(/no source/u)
})

test('no derating leaves every rating whole', () => {
  const { name, label, source, junctionMargin, junctionCeiling, ...shares } = DERATING.none
  expect(name).toBe('none')
  expect(label.length * source.length).toBeGreaterThan(0)
  expect(junctionMargin).toBe(0)
  expect(junctionCeiling).toBe(Infinity)
  expect(new Set(Object.values(shares))).toEqual(new Set([1]))
})
