/**
 * Device equations against published examples and physics. Each check names its source. Unless it says otherwise a textbook
 * figure was read in a transcription of the book, not in the book itself.
 */
import { describe, expect, test } from 'vitest'
import { thermalVoltage } from '../../engine/devices/physics.ts'
import type { BjtModel, DiodeModel } from '../../engine/devices/elements.ts'
import { publishedCase, targetOf } from '../fixtures/published/index.ts'
import { currentsOf, reaches } from './own/currents.ts'

/** Exact by definition of the SI (2019). */
const BOLTZMANN = 1.380649e-23
const CHARGE = 1.602176634e-19
/** The temperature at which kT/q is the 25 mV that Sedra and Smith round to: 16.96 °C. */
const AT_25_MV = (0.025 * CHARGE) / BOLTZMANN - 273.15

const diode = (more: Partial<DiodeModel>): DiodeModel => ({
  IS: 1e-14,
  N: 1,
  RS: 0,
  BV: 100,
  IBV: 1e-3,
  NBV: 1,
  EG: 1.11,
  XTI: 3,
  TNOM: 25,
  tc: 0,
  ...more,
})
const forward = (model: DiodeModel, volts: number, celsius: number) =>
  currentsOf('diode', model, [volts, 0], celsius)[0]!

describe('thermal voltage', () => {
  // computed from the exact constants
  test.each([
    [25, 0.025692579],
    [27, 0.025864926],
    [26.85, 0.025852],
    [100, 0.032155579],
    [125, 0.034309912],
  ])('kT/q at %d °C is %d V', (celsius, volts) => {
    expect(Math.abs(thermalVoltage(celsius) - volts)).toBeLessThan(
      volts < 0.0258521 && volts > 0.025851 ? 5.1e-7 : 5.1e-10,
    )
  })

  test.each([
    ['Lessons In Electric Circuits III (read)', 26e-3],
    ['Sedra and Smith', 25e-3],
    ['Malvino', 25e-3],
    ['Neamen', 26e-3],
    ['Franco', 25.7e-3],
  ])('the rounding in %s is that of a temperature between 16 and 30 °C', (_, rounded) => {
    expect(thermalVoltage(16)).toBeLessThan(rounded)
    expect(thermalVoltage(30)).toBeGreaterThan(rounded)
  })
})

describe('junction law', () => {
  test.each([
    [25, 59.15935],
    [27, 59.556193],
  ])('a decade of current at %d °C takes %d mV', (celsius, millivolts) => {
    // computed from the exact constants: (kT/q)·ln 10
    const ratio = forward(diode({}), 0.6 + millivolts / 1e3, celsius) / forward(diode({}), 0.6, celsius)
    expect(Math.abs(ratio - 10)).toBeLessThan(2e-6)
  })

  test.each([
    [1, 6.9e-16, 0.0051e-14],
    [2, 8.3e-10, 0.051e-10],
  ])(
    'Sedra and Smith, Example 3.3: 1 mA at 0.7 V with n = %d is a saturation current of %d A',
    (N, printed, allowed) => {
      const unit = forward(diode({ IS: 1e-16, N, TNOM: AT_25_MV }), 0.7, AT_25_MV)
      expect(Math.abs((1e-3 / unit) * 1e-16 - printed)).toBeLessThan(allowed)
    },
  )

  test('the slope is I/(n·VT), the small-signal rule of every textbook', () => {
    for (const N of [1, 1.7, 2]) {
      const model = diode({ IS: 1e-12, N })
      const [low, high] = [0.6 - 1e-5, 0.6 + 1e-5].map((v) => forward(model, v, 25))
      const current = forward(model, 0.6, 25) + 1e-12
      expect((high! - low!) / 2e-5 / (current / (N * 0.025692579))).toBeCloseTo(1, 6)
    }
  })
})

/** Kelvin in which the reverse current doubles, from its slope at `celsius`. */
const doubling = (model: DiodeModel, celsius: number): number => {
  const [low, high] = [-0.05, 0.05].map((dt) => -forward(model, -2, celsius + dt))
  return (0.1 * Math.LN2) / Math.log(high! / low!)
}

describe('saturation current and temperature', () => {
  test('IS doubles every 4.489 K at 300 K for a gap of 1.12 eV (computed: T³·exp(-Eg/kT))', () => {
    expect(Math.abs(doubling(diode({ EG: 1.12 }), 26.85) - 4.489)).toBeLessThan(5.1e-4)
  })

  test('a generation current, which goes as the square root, doubles every 8.98 K (computed)', () => {
    expect(Math.abs(doubling(diode({ EG: 1.12, N: 2 }), 26.85) - 8.98)).toBeLessThan(5.1e-3)
  })

  test('Sedra and Smith: about every 5 K (text; from memory, not confirmed)', () => {
    expect(doubling(diode({}), 25)).toBeGreaterThan(4)
    expect(doubling(diode({}), 25)).toBeLessThan(5)
  })

  test('Bhattacharya and De, Example 5.21: a leakage source doubles every 10 K', () => {
    const leak = { value: 1e-7, doublesEvery: 10, tnom: 25 }
    const at = (celsius: number) => currentsOf('current-source', leak, [5, 0], celsius)[0]!
    expect(at(25)).toBeCloseTo(1e-7, 16)
    expect(at(35) / at(25)).toBeCloseTo(2, 12)
    expect(at(75) / at(25)).toBeCloseTo(32, 10)
  })
})

const collector = (model: BjtModel, vce: number, vbe: number, celsius: number): number =>
  currentsOf('npn', model, [vce, vbe, 0], celsius)[0]!

const baseVoltage = (model: BjtModel, current: number, vce: number, celsius: number): number =>
  reaches(current, 0.1, 1, (vbe) => collector(model, vce, vbe, celsius))

describe('transistor', () => {
  const transistor: BjtModel = { IS: 1e-14, BF: 100, TNOM: 25 }
  test('Franco, Example 11.11: the base-emitter voltage falls by 1.7 to 2.3 mV/K at usual current densities', () => {
    // the example takes -2 mV/K; the range is the one that texts give for the current density
    for (const volts of [0.55, 0.6, 0.65]) {
      const current = collector(transistor, 5, volts, 25)
      const slope = (baseVoltage(transistor, current, 5, 26) - baseVoltage(transistor, current, 5, 24)) / 2
      expect(slope).toBeLessThan(-1.7e-3)
      expect(slope).toBeGreaterThan(-2.3e-3)
    }
  })

  test('its tempco is (VBE - VG0 - 3·VT)/T: -2.1 mV/K for 0.65 V, 1.205 V and 300 K (derived from the band gap)', () => {
    const model = { ...transistor, EG: 1.205, XTI: 3, TNOM: 26.85 }
    const current = collector(model, 5, 0.65, 26.85)
    const slope = (baseVoltage(model, current, 5, 27.85) - baseVoltage(model, current, 5, 25.85)) / 2
    expect(Math.abs(slope - (0.65 - 1.205 - 3 * 0.025852) / 300)).toBeLessThan(1e-6)
    expect(slope).toBeCloseTo(-2.1e-3, 4)
  })

  test('Franco, Example 11.5: the difference of two base-emitter voltages at 4 : 1 is VT·ln 4', () => {
    const wide = { ...transistor, IS: 4e-14 }
    const difference = baseVoltage(transistor, 1e-3, 5, 25) - baseVoltage(wide, 1e-3, 5, 25)
    expect(difference).toBeCloseTo(0.025692579 * Math.log(4), 9)
  })

  test('Kumar and Jain, Example 4.1: with 100 V of Early voltage, 1 mA at 1 V becomes 1.10 mA at 11 V, ro = 100 kΩ', () => {
    const model = { ...transistor, VAF: 100 }
    const vbe = baseVoltage(model, 1e-3, 1, 25)
    expect(Math.abs(collector(model, 11, vbe, 25) * 1e3 - 1.1)).toBeLessThan(0.0051)
    const slope = (collector(model, 11, vbe, 25) - collector(model, 1, vbe, 25)) / 10
    expect(Math.abs(1 / slope / 1e3 - 100)).toBeLessThan(0.51)
  })

  test('every current of a PNP is that of the NPN with all voltages reversed (the convention of the model)', () => {
    const npn = currentsOf('npn', transistor, [5, 0.65, 0], 40)
    const pnp = currentsOf('pnp', transistor, [-5, -0.65, 0], 40)
    pnp.forEach((current, k) => expect(current + npn[k]!).toBe(0))
  })
})

describe('breakdown', () => {
  test('at BV the branch carries IBV, and the nominal voltage is that of the test current (Sedra and Smith, Floyd)', () => {
    const model = diode({ BV: 6.8, IBV: 5e-3, NBV: 2 })
    expect(-forward(model, -6.8, 25)).toBeCloseTo(5e-3, 12)
  })

  test('Boylestad and Nashelsky, Example 1.4: +0.072 %/K takes 10 V from 25 to 100 °C to 10.54 V', () => {
    const example = publishedCase('TH-27')
    const { Vz = NaN, TC = NaN, T1 = NaN, T2 = NaN } = example.given
    const model = diode({ BV: Vz, IBV: 20e-3, TNOM: T1, tc: TC * Vz })
    const volts = reaches(20e-3, 9, 12, (v) => -forward(model, -v, T2))
    for (const [quantity, ours] of [
      ['V', volts],
      ['dV', volts - Vz],
    ] as const) {
      const { value, tolerance } = targetOf(example, quantity)
      expect(Math.abs(ours - value)).toBeLessThan(tolerance + 1e-9)
    }
  })
})
