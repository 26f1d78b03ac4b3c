/** Each device against numbers worked by hand from its own equations, or from the book named beside the test. */
import { describe, expect, test } from 'vitest'
import { thermalVoltage } from '../../../engine/devices/physics.ts'
import {
  deviceAt,
  OP_AMP,
  POWER_TRANSISTOR,
  REFERENCE_DIODE,
  SHUNT_REFERENCE,
  TWO_TERMINAL_REFERENCE,
} from './samples.ts'

describe('resistor', () => {
  test('of 1 kΩ and 100 ppm/K is 1006 Ω at 85 degC', () => {
    const { at } = deviceAt('resistor', { ohms: 1000, tc1: 1e-4 }, 85)
    expect(at(10.06, 0)[0]).toBeCloseTo(0.01, 12)
  })

  test('never conducts more than a microohm does, and never the wrong way', () => {
    expect(deviceAt('resistor', { ohms: -5 }, 25).at(1, 0)[0]).toBeCloseTo(1e6, 3)
  })
})

describe('current source', () => {
  // reverse current doubles every 10 degC: Bhattacharya and De, example 5.21, as read in a transcription
  test('of 1 µA at 25 degC that doubles every 10 K gives 4 µA at 45 degC', () => {
    expect(deviceAt('current-source', { value: 1e-6, doublesEvery: 10 }, 45).at(3, 0)[0]).toBeCloseTo(4e-6, 15)
  })

  test('without a doubling is the same at every temperature', () => {
    expect(deviceAt('current-source', { value: 2e-3 }, 150).at(3, 0)[0]).toBe(2e-3)
  })
})

describe('diode', () => {
  test('carries IBV at BV less the negligible rest, and IS more', () => {
    const { at } = deviceAt('diode', REFERENCE_DIODE, 25)
    expect(at(-11.7, 0)[0]).toBeCloseTo(-5e-3 - 2e-14, 16)
  })

  test('moves its breakdown by tc: 60 K at 9 mV/K', () => {
    const { at } = deviceAt('diode', REFERENCE_DIODE, 85)
    expect(at(-11.7 - 0.54, 0)[0]).toBeCloseTo(-5e-3, 9)
  })

  test('changes its breakdown voltage by NBV·VT·ln 10 for a tenth of the current', () => {
    const { at } = deviceAt('diode', REFERENCE_DIODE, 25)
    expect(at(-11.7 + 1.8 * thermalVoltage(25) * Math.LN10, 0)[0]).toBeCloseTo(-5e-4, 12)
  })

  test('is exactly without current at no voltage, soft breakdown or not', () => {
    expect(deviceAt('diode', REFERENCE_DIODE, 60).at(0, 0)[0]).toBe(0)
    expect(deviceAt('diode', { ...REFERENCE_DIODE, BV: 2.7, NBV: 9 }, 60).at(1, 1)[0]).toBe(0)
  })
})

describe('transistor', () => {
  test('of IS and BF alone is the ideal one', () => {
    const { at } = deviceAt('npn', { IS: 1e-14, BF: 100 }, 27)
    const ic = 1e-14 * (Math.exp(0.65 / thermalVoltage(27)) - 1) + 1e-14 * (1 + 1)
    const out = at(5, 0.65, 0)
    expect(out[0]! / ic).toBeCloseTo(1, 12)
    expect(out[0]! / out[1]!).toBeCloseTo(100, 6)
  })

  test('of VAF 100 V, 1 mA at VCE 1 V, carries 1.10 mA at 11 V', () => {
    // Kumar and Jain, example 4.1, as read in a transcription
    const { at } = deviceAt('npn', { IS: 1e-14, BF: 100, VAF: 100 }, 27)
    expect((1e-3 * at(11, 0.65, 0)[0]!) / at(1, 0.65, 0)[0]!).toBeCloseTo(1.1e-3, 5)
  })

  test('at IKF carries 0.618 of the current that it would without a knee', () => {
    // qb = (1 + sqrt(1 + 4·1))/2 = 1.618 where If = IKF, by the published equations
    const { at } = deviceAt('npn', { IS: 1e-14, BF: 100, IKF: 1e-14 * (Math.exp(0.7 / thermalVoltage(27)) - 1) }, 27)
    const ideal = deviceAt('npn', { IS: 1e-14, BF: 100 }, 27)
    expect(at(5, 0.7, 0)[0]! / ideal.at(5, 0.7, 0)[0]!).toBeCloseTo((Math.sqrt(5) - 1) / 2, 10)
  })

  test('as a pnp is the npn seen in a mirror, to the last bit', () => {
    const npn = deviceAt('npn', POWER_TRANSISTOR, 70).at(7, 0.68, 0)
    const pnp = deviceAt('pnp', POWER_TRANSISTOR, 70).at(-7, -0.68, 0)
    for (let t = 0; t < 3; t += 1) expect(pnp[t]).toBe(-npn[t]!)
    expect([...pnp.subarray(3)]).toEqual([...npn.subarray(3)])
  })

  test('loses 1.7 to 2.3 mV of VBE a kelvin at constant current', () => {
    // Franco, example 11.11 and text: -2 mV/K, -1.7 to -2.3 with current density, as read in a transcription
    const vbe = (celsius: number): number => {
      const { at } = deviceAt('npn', POWER_TRANSISTOR, celsius)
      let low = 0.2
      let high = 1
      for (let k = 0; k < 60; k += 1) {
        const middle = (low + high) / 2
        if (at(5, middle, 0)[0]! > 5e-3) high = middle
        else low = middle
      }
      return low
    }
    const slope = (vbe(75) - vbe(25)) / 50
    expect(slope).toBeLessThan(-1.7e-3)
    expect(slope).toBeGreaterThan(-2.3e-3)
  })

  test('gains beta by (T/TNOM)^XTB where the leaky diodes do not matter', () => {
    const model = { IS: 1e-14, BF: 100, XTB: 1.5 }
    const out = deviceAt('npn', model, 127).at(0.8, 0.8, 0)
    expect(out[0]! / out[1]!).toBeCloseTo(100 * (400.15 / 300.15) ** 1.5, 4)
  })

  test('raises ISE by r^-XTB·s^(1/NE), s being the ratio of IS', () => {
    const model = { IS: 1e-14, BF: 1e9, ISE: 1e-13, NE: 2, XTB: 1.5 }
    const u = 0.2 / (2 * thermalVoltage(127))
    const ib = deviceAt('npn', model, 127).at(0.2, 0.2, 0)[1]!
    const r = 400.15 / 300.15
    const s = r ** 3 * Math.exp(((r - 1) * 1.11) / thermalVoltage(127))
    expect(ib / (1e-13 * r ** -1.5 * s ** 0.5 * (Math.exp(u) - 1))).toBeCloseTo(1, 4)
  })
})

describe('amplifier', () => {
  const ideal = { ...OP_AMP, VOS: 0, DVOS: 0, PSRR: Infinity, CMRR: Infinity }

  test('without drive and load stands in the middle of its swing', () => {
    const middle = (10 - 1.4 + 0.02) / 2
    expect(deviceAt('amplifier', ideal, 25).at(2, 2, middle, 10, 0)[2]).toBeCloseTo(0, 15)
  })

  test('amplifies by A0 through RO: 1 µV makes 0.1 V, that is 333 µA into the same output voltage', () => {
    const middle = (10 - 1.4 + 0.02) / 2
    expect(deviceAt('amplifier', ideal, 25).at(2 + 1e-6, 2, middle, 10, 0)[2]).toBeCloseTo(-0.1 / 300, 6)
  })

  test('drives no more than ISRC and sinks no more than ISNK', () => {
    const { at } = deviceAt('amplifier', ideal, 25)
    expect(at(3, 2, -30, 30, 0)[2]).toBeCloseTo(-0.03, 4)
    expect(at(1, 2, 30, 30, 0)[2]).toBeCloseTo(0.018, 4)
  })

  test('balances its offset with its drift: 2 mV and 7 µV/K at 75 degC', () => {
    const { at } = deviceAt('amplifier', { ...ideal, VOS: 2e-3, DVOS: 7e-6 }, 75)
    const middle = (10 - 1.4 + 0.02) / 2
    expect(at(2, 2 + 2.35e-3, middle, 10, 0)[2]).toBeCloseTo(0, 9)
  })

  test('takes from its rails what it gives, and dissipates, wherever its output stands between them', () => {
    const { at } = deviceAt('amplifier', OP_AMP, 25)
    for (const out of [0, 1, 4, 8, 10]) {
      for (const x of [-1, -2e-3, 1]) {
        const v = [2 + x, 2, out, 10, 0]
        const i = at(...v)
        const power = v.reduce((sum, volts, k) => sum + volts * i[k]!, 0)
        // held by a stiff source beyond what it can swing to, it may pass that source's power on, not make any
        expect(power).toBeGreaterThan(0)
      }
    }
  })

  test('unpowered takes no quiescent current', () => {
    expect(Math.abs(deviceAt('amplifier', { ...OP_AMP, IB: 0 }, 25).at(0, 0, 0, 0, 0)[3]!)).toBeLessThan(2e-4)
  })
})

describe('reference', () => {
  test('carries ITEST at VREF', () => {
    expect(deviceAt('reference', TWO_TERMINAL_REFERENCE, 25).at(2.5, 0, 2.5)[0]).toBeCloseTo(1e-3, 7)
    expect(deviceAt('reference', SHUNT_REFERENCE, 25).at(2.495, 0, 2.495)[0]).toBeCloseTo(10e-3, 5)
  })

  test('has the slope ZD beyond its knee', () => {
    const { at } = deviceAt('reference', TWO_TERMINAL_REFERENCE, 25)
    expect(5e-3 / (at(2.51, 0, 2.51)[0]! - at(2.505, 0, 2.505)[0]!)).toBeCloseTo(0.3, 3)
  })

  test('starved below its voltage takes IKMIN', () => {
    expect(deviceAt('reference', TWO_TERMINAL_REFERENCE, 25).at(2.4, 0, 2.4)[0]).toBeCloseTo(2e-4, 7)
  })

  test('moves with temperature by tc', () => {
    expect(deviceAt('reference', TWO_TERMINAL_REFERENCE, 85).at(2.503, 0, 2.503)[0]).toBeCloseTo(1e-3, 7)
  })

  test('falls by KD with its cathode: 1.4 mV a volt', () => {
    const { at } = deviceAt('reference', SHUNT_REFERENCE, 25)
    const near = at(2.495, 0, 2.495)[0]!
    expect(at(12.495, 0, 2.495 - 14e-3)[0]! / near).toBeCloseTo(1, 3)
  })
})
