/**
 * Published worked examples of heat: the thermal chain through our solver with settled temperatures, derating through the
 * part families. Data and sources in `test/fixtures/published`.
 */
import { describe, expect, test } from 'vitest'
import { DIODES, diodePowerAt } from '../../engine/parts/reference-diode/index.ts'
import { RESISTORS, resistorPowerAt } from '../../engine/parts/resistor/index.ts'
import { TRANSISTORS } from '../../engine/parts/transistor/index.ts'
import { powerShare } from '../../engine/parts/transistor/ratings.ts'
import { worksOut } from './worked/formulas.ts'
import { SETTLED, solveOurs } from './own/solver.ts'
import { feed, referenceDiode, source } from './worked/ideal.ts'
import { given, misses } from './worked/published.ts'

/** Junction of a part that takes `power` watts behind `theta` kelvin per watt, settled. */
function settledJunction(power: number, resistance: number, ambient: number): number {
  const netlist = {
    ground: '0',
    elements: [
      source('input', 'in', 10),
      { id: 'Q1', kind: 'resistor' as const, nodes: ['in', '0'] as const, ohms: 100 / power, part: 'Q1' },
    ],
  }
  const situation = { condition: { input: 10, load: 0, ambient } }
  return solveOurs(netlist, situation, { mode: SETTLED, thermalResistance: { Q1: resistance } }).junction['Q1'] ?? NaN
}

/** Largest thermal resistance by the topologies' formula. */
const theta = (Tj_lim: number, Ta_max: number, P_pass: number) =>
  worksOut('series-pass', 'theta_max', { Tj_lim, Ta_max, P_pass })

describe('thermal chain', () => {
  test('TH-01: thermal resistance from a rating, and the junction that it gives', () => {
    const g = given('TH-01')
    const theta_JA = theta(g('Tj'), g('T0'), g('P0'))
    // the printed junction is that at the rating's own ambient
    const T_J = settledJunction(g('P'), theta_JA, g('T0'))
    expect(misses('TH-01', { theta_JA, T_J })).toEqual([])
    // the power allowed at 50 °C is the one that heats the junction to its limit
    expect(settledJunction((g('Tj') - g('TA')) / theta_JA, theta_JA, g('TA'))).toBeCloseTo(g('Tj'), 9)
    expect(misses('TH-01', { P_50: (g('Tj') - g('TA')) / theta_JA })).toEqual([])
  })

  test('TH-05: 1.67 W heat the junction to its limit', () => {
    const g = given('TH-05')
    const power = (g('Tj') - g('TA')) / g('theta_JA')
    expect(
      misses('TH-05', { P_D: power, T_C: settledJunction(power, g('theta_JA'), g('TA')) - g('theta_JC') * power }),
    ).toEqual([])
    expect(
      worksOut('feedback', 'P_pass', { Vin_max: g('VI'), Vout: g('VO'), Iout_max: power / (g('VI') - g('VO')) }),
    ).toBeCloseTo(power, 12)
  })

  test('TH-07: the heatsink is what junction, case and interface leave', () => {
    const g = given('TH-07')
    const theta_SA = theta(g('Tj'), g('TA'), g('P')) - g('theta_JC') - g('theta_CS')
    expect(misses('TH-07', { theta_SA })).toEqual([])
    expect(settledJunction(g('P'), theta_SA + g('theta_JC') + g('theta_CS'), g('TA'))).toBeCloseTo(g('Tj'), 9)
  })

  test('TH-09: junction to case from a rating, then the power through the whole chain', () => {
    const g = given('TH-09')
    const theta_JC = theta(g('Tj'), g('Tc0'), g('P0'))
    const all = theta_JC + g('theta_CS') + g('theta_SA')
    const P = (g('Tj') - g('TA')) / all
    expect(misses('TH-09', { theta_JC, P })).toEqual([])
    expect(settledJunction(P, all, g('TA'))).toBeCloseTo(g('Tj'), 9)
  })

  test('TH-11: ambient that 4 W allow, and 200 mW without a heatsink against 1 W with one', () => {
    const g = given('TH-11')
    const T_A = g('Tj') - (settledJunction(g('P'), g('theta'), 25) - 25)
    expect(misses('TH-11', { T_A })).toEqual([])
    const allowed = (th: string) => (g('Tj') - g('TA')) / g(th)
    expect(misses('TH-11', { P_no: allowed('theta_no'), P_sink: allowed('theta_sink') })).toEqual([])
    expect(settledJunction(allowed('theta_sink'), g('theta_sink'), g('TA'))).toBeCloseTo(g('Tj'), 9)
  })

  test('TH-13: a transistor with and without its heatsink', () => {
    const g = given('TH-13')
    const bare = g('theta_JC') + g('theta_CA')
    const cooled = g('theta_JC') + g('theta_CS') + g('theta_SA')
    const [P_no, P_sink] = [bare, cooled].map((th) => (g('Tj') - g('TA')) / th)
    expect(misses('TH-13', { P_no: P_no!, P_sink: P_sink! })).toEqual([])
    expect(theta(g('Tj'), g('TA'), P_sink!)).toBeCloseTo(cooled, 9)
    expect(settledJunction(P_no!, bare, g('TA'))).toBeCloseTo(g('Tj'), 9)
  })

  test('TH-31: 2 W through 10 K/W at 25 °C settle at 45 °C', () => {
    const g = given('TH-31')
    expect(misses('TH-31', { T_j: settledJunction(g('P'), g('theta'), g('TA')) })).toEqual([])
  })
})

/** A row of the list with other figures, so that a part that is not in it can be asked. */
const diodeWith = (power: number, thermalResistance: number, junctionMax: number) => ({
  ...DIODES[0]!,
  power,
  thermalResistance,
  junctionMax,
})

/** Watts left of a resistor of `power` watts on a straight line. */
const resistorLine = (power: number, derateFrom: number, zeroPowerAt: number) => (ambient: number) =>
  resistorPowerAt({ ...RESISTORS[0]!, power, derateFrom, zeroPowerAt }, ambient)

describe('derating', () => {
  test('TH-03: a transistor that loses 0.5 W/K above 25 °C is left 30 W of 80 W at 125 °C', () => {
    const g = given('TH-03')
    const T_zero = g('T0') + g('PD25') / g('DF')
    const P = g('PD25') * powerShare({ ...TRANSISTORS[0]!, Tj_max: T_zero }, g('T'))
    expect(misses('TH-03', { P, T_zero })).toEqual([])
  })

  test('TH-15: a 0.4 W diode that loses 3.2 mW/K above 50 °C is left 272 mW at 90 °C', () => {
    const g = given('TH-15')
    const T_zero = g('T0') + g('P50') / g('DF')
    const P = diodePowerAt(diodeWith(g('P50'), 1 / g('DF'), T_zero), g('T'))
    expect(misses('TH-15', { P, T_zero })).toEqual([])
  })

  test('TH-17: a factor that would leave power at 232 °C is no silicon diode (negative example): none in the list is such', () => {
    const g = given('TH-17')
    const T_zero = g('T0') + g('P40') / g('DF')
    const P = diodePowerAt(diodeWith(g('P40'), 1 / g('DF'), T_zero), g('T'))
    expect(misses('TH-17', { T_zero, P, I_ZM40: g('P40') / g('Vz'), I_ZM100: P / g('Vz') })).toEqual([])
    const beyond = DIODES.filter((row) => row.junctionMax > 200 || row.derateFrom + row.power / row.slope > 200.5)
    expect(beyond.map((row) => row.partNumber)).toEqual([])
  })

  test('TH-19: a film resistor on the line from 70 to 155 °C keeps 35 % at 125 °C', () => {
    const g = given('TH-19')
    const at = resistorLine(g('P70'), g('T0'), g('T_zero'))
    const values = { frac_linear: at(g('TA')) / g('P70'), V_70: Math.sqrt(at(g('T0')) * g('R')) }
    expect(misses('TH-19', values)).toEqual([])
  })

  test('TH-21: the published steps of a table lie within five points of the same line (approximate)', () => {
    const g = given('TH-21')
    const at = resistorLine(100, g('T0'), g('Tz_b'))
    const values = Object.fromEntries([85, 100, 120, 140, 145].map((t) => [`l155_${t}`, at(t)]))
    expect(misses('TH-21', values)).toEqual([])
  })

  test('TH-23, TH-25: zero power of a 1 W and a 5 W diode series, and what the slope says of the cooling', () => {
    const [one, five] = [given('TH-23'), given('TH-25')]
    const small = diodeWith(one('P'), 1 / one('DF'), one('T0') + one('P') / one('DF'))
    expect(misses('TH-23', { T_zero: small.junctionMax, theta_implied: small.thermalResistance })).toEqual([])
    expect(diodePowerAt(small, one('T0'))).toBeCloseTo(one('P'), 12)
    expect(diodePowerAt(small, one('Tj'))).toBe(0)
    const theta_JL = theta(five('Tj'), five('T0'), five('P'))
    const P_100 = diodePowerAt(diodeWith(five('P'), theta_JL, five('Tj')), 100)
    expect(misses('TH-25', { theta_JL, P_100, slope_mW: 1e3 / theta_JL })).toEqual([])
  })
})

describe('temperature coefficients', () => {
  test('TH-29: a reference diode with a forward diode in series', () => {
    const g = given('TH-29')
    const base = referenceDiode('D1', 'mid', g('Vz'))
    if (base.kind !== 'diode') throw new Error('not a diode')
    // dV/dT of a junction at constant current is (V - EG - XTI·VT)/T: the gap that gives the stated coefficient
    const kelvin = g('T1') + 273.15
    const EG = g('VD') - 3 * 0.025692579 - g('TCd') * kelvin
    const IS = 5e-3 / Math.expm1(g('VD') / 0.025692579)
    const stack = [
      feed('out', 5e-3),
      { ...base, model: { ...base.model, tc: g('TCz') * g('Vz'), TNOM: g('T1') } },
      {
        ...base,
        id: 'D2',
        part: 'D2',
        nodes: ['out', 'mid'] as const,
        model: { ...base.model, IS, EG, BV: 100 },
      },
    ]
    const at = (ambient: number) =>
      solveOurs({ ground: '0', elements: stack }, { condition: { input: 0, load: 0, ambient } }).nodeVoltages['out'] ??
      NaN
    const [V_25, V_50] = [at(g('T1')), at(g('T2'))]
    const slope = (at(g('T1') + 1) - at(g('T1') - 1)) / 2
    expect(misses('TH-29', { V_25, V_50 })).toEqual([])
    // the coefficient is a small difference of two large ones: 1 % of it is 5 µV/K
    expect(misses('TH-29', { TC_mV: slope * 1e3, TC_pct: (100 * slope) / V_25 }, 0.01)).toEqual([])
  })
})
