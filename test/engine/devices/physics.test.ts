/**
 * Thermal voltage: computed from the exact SI constants k = 1.380649e-23 J/K, q = 1.602176634e-19 C (SI, 2019).
 * Doubling of IS: IS ~ T³·e^(-Eg/kT) with Eg = 1.12 eV gives 4.489 K at 300 K (computed from the physics; textbooks say
 * "about every 5 degC", from memory).
 */
import { describe, expect, test } from 'vitest'
import { guardedExp, guardedExpSlope, saturationLogRatio, thermalVoltage } from '../../../engine/devices/physics.ts'
import { deviceAt } from './samples.ts'

describe('thermal voltage', () => {
  test.each([
    [25, 0.025692579],
    [27, 0.025864926],
    [100, 0.032155579],
    [125, 0.034309912],
  ])('at %d degC is %d V', (celsius, volts) => {
    expect(thermalVoltage(celsius)).toBeCloseTo(volts, 9)
  })

  test('makes 59.15935 mV a decade at 25 degC and 59.556193 at 27', () => {
    expect(thermalVoltage(25) * Math.LN10).toBeCloseTo(0.05915935, 8)
    expect(thermalVoltage(27) * Math.LN10).toBeCloseTo(0.059556193, 9)
  })

  test('sets the voltage that a diode of N = 1 needs for ten times the current', () => {
    const model = { IS: 1e-14, N: 1, RS: 0, BV: 100, IBV: 1e-3, NBV: 1, EG: 1.11, XTI: 3, TNOM: 25, tc: 0 }
    const { at } = deviceAt('diode', model, 25)
    const v = thermalVoltage(25) * Math.log(1e-3 / 1e-14)
    expect(at(v + 0.05915935, 0)[0]! / at(v, 0)[0]!).toBeCloseTo(10, 5)
  })
})

describe('saturation current', () => {
  test('with EG 1.12 eV and XTI 3 doubles every 4.489 K about 300 K', () => {
    const h = 0.01
    const slope =
      (saturationLogRatio(26.85 + h, 26.85, 1.12, 3) - saturationLogRatio(26.85 - h, 26.85, 1.12, 3)) / (2 * h)
    expect(Math.LN2 / slope).toBeCloseTo(4.489, 3)
  })

  test('is the given one at TNOM', () => {
    expect(saturationLogRatio(27, 27, 1.11, 3)).toBe(0)
  })

  test('at 127 degC from 27, by hand: (4/3)^3 e^((1/3)·1.11/0.0344822)', () => {
    // 400.15 K/300.15 K = 1.3331667; VT(127 degC) = 0.03448226 V; 3 ln r = 0.862707; 0.3331667·1.11/0.03448226 = 10.72472
    expect(saturationLogRatio(127, 27, 1.11, 3)).toBeCloseTo(0.86267 + 10.72476, 3)
  })
})

describe('guarded exponential', () => {
  test('joins its tangent at 80 without a step in value or slope', () => {
    const below = guardedExp(80 - 1e-9)
    const above = guardedExp(80 + 1e-9)
    expect(above / below - 1).toBeLessThan(3e-9)
    expect(guardedExpSlope(80 - 1e-9, below) / guardedExpSlope(80 + 1e-9, above)).toBeCloseTo(1, 8)
  })

  test('never overflows', () => {
    expect(guardedExp(1e9)).toBeLessThan(1e45)
    expect(guardedExp(-1e9)).toBe(0)
  })
})
