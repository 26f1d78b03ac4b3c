/**
 * Published worked examples of shunt stages that describe a whole circuit, solved as circuits by our solver with the
 * textbooks' devices. The data, each with its source and how it was read, are in `test/fixtures/published`.
 */
import { describe, expect, test } from 'vitest'
import { given, misses } from './worked/published.ts'
import { feed, referenceDiode, resistor, slopeOf, solve, supply } from './worked/ideal.ts'

/** The ideal diode's knee is 0.06 mV a decade wide, the solver's answer good to far less. */
const KNEE = 2e-4

const stage = (vin: number, rs: number, vz: number, rz = 0, load?: number) =>
  solve([
    supply(vin),
    resistor('Rs', 'in', 'out', rs),
    referenceDiode('D1', 'out', vz, rz),
    ...(load === undefined ? [] : [resistor('RL', 'out', '0', load)]),
  ])
/** The same stage with a current drawn instead of a resistor. */
const drawn = (vin: number, rs: number, vz: number, rz: number, amperes: number) =>
  solve([supply(vin), resistor('Rs', 'in', 'out', rs), referenceDiode('D1', 'out', vz, rz), feed('out', -amperes)]).v(
    'out',
  )

describe('shunt', () => {
  test('SH-01: no load', () => {
    const g = given('SH-01')
    const s = stage(g('Vin'), g('Rs'), g('Vz'))
    expect(misses('SH-01', { I: s.i('Rs'), P_Rs: s.p('Rs'), P_Z: s.p('D1') }, KNEE)).toEqual([])
  })

  test('SH-02: with a load', () => {
    const g = given('SH-02')
    const s = stage(g('Vin'), g('Rs'), g('Vz'), 0, g('RL'))
    expect(misses('SH-02', { I_L: s.i('RL'), I_S: s.i('Rs'), I_Z: -s.i('D1') }, KNEE)).toEqual([])
  })

  test('SH-04: slope resistance, line and load, and a load so heavy that the diode stops', () => {
    const g = given('SH-04')
    const vz0 = g('Vz') - g('rz') * g('Izt')
    const out = (load?: number) => stage(g('V'), g('R'), vz0, g('rz'), load).v('out')
    const line = slopeOf((v) => stage(v, g('R'), vz0, g('rz')).v('out'), g('V'), g('dV') / 10)
    const load = slopeOf((i) => drawn(g('V'), g('R'), vz0, g('rz'), i), 1e-3, 1e-4)
    const heavier = drawn(g('V'), g('R'), vz0, g('rz'), g('Vz') / g('RL_d')) - out()
    expect(misses('SH-04', { V_O: out(), V_RL500_off: out(g('RL_e')) })).toEqual([])
    // slopes are small differences: the knee adds VT/1000 over the current, 4 mΩ, to 20 Ω
    expect(misses('SH-04', { line_mV_per_V: line, load_approx: load / 1e3 }, 1e-3)).toEqual([])
    expect(heavier).toBeCloseTo(-(g('Vz') / g('RL_d')) * ((g('rz') * g('R')) / (g('rz') + g('R'))), 4)
  })

  test('SH-06: the input at the least and the greatest diode current', () => {
    const g = given('SH-06')
    const at = (iz: number) => {
      const vz0 = g('Vz') - g('Izt') * g('Zz')
      const s = solve([feed('in', iz), resistor('R', 'in', 'out', g('R')), referenceDiode('D1', 'out', vz0, g('Zz'))])
      return { in: s.v('in'), out: s.v('out') }
    }
    const [least, most] = [at(g('Izk')), at(g('Pd') / g('Vz'))]
    expect(
      misses('SH-06', { V_in_min: least.in, V_in_max: most.in, V_out_zk: least.out, V_out_zm: most.out }, KNEE),
    ).toEqual([])
  })

  test('SH-09: current at both ends of the input', () => {
    const g = given('SH-09')
    const at = (vin: number) => -stage(vin, g('R'), g('Vz')).i('D1')
    expect(misses('SH-09', { I_min: at(g('Vin_min')), I_max: at(g('Vin_max')) })).toEqual([])
  })

  test('SH-12: change of the output by the slope, and the ripple that passes', () => {
    const g = given('SH-12')
    const out = solve([feed('out', g('Iz')), referenceDiode('D1', 'out', g('Vz'), g('Rz'))]).v('out')
    const vin = g('Vz') + g('Iz') * (g('Rz') + g('Rs'))
    const passed = slopeOf((v) => stage(v, g('Rs'), g('Vz'), g('Rz')).v('out'), vin, 0.2)
    expect(misses('SH-12', { V_L: out, dV_L: out - g('Vz') })).toEqual([])
    expect(misses('SH-12', { V_R_out_source: passed * g('V_R_in') }, KNEE)).toEqual([])
  })

  test('SH-16: the resistor for 20 mA, and the current at a lower input', () => {
    const g = given('SH-16')
    const ohms = (g('Es') - g('Vz')) / g('Izt')
    const full = stage(g('Es'), ohms, g('Vz'))
    expect(full.i('Rs')).toBeCloseTo(g('Izt'), 6)
    expect(misses('SH-16', { P_R1: full.p('Rs'), I_Z2: -stage(g('Es2'), ohms, g('Vz')).i('D1') }, KNEE)).toEqual([])
  })

  test('SH-18: line and load regulation in per cent (approximate: the source is inconsistent)', () => {
    const g = given('SH-18')
    const [vz0, mid] = [g('VO_nom'), (g('VI_min') + g('VI_max')) / 2]
    const line = slopeOf((v) => stage(v, g('Rs'), vz0, g('rz')).v('out'), mid, 0.1)
    const load = slopeOf((i) => drawn(mid, g('Rs'), vz0, g('rz'), i), g('IO_max') / 2, 1e-4)
    const percent = 100 / g('VO_nom')
    expect(
      misses('SH-18', {
        line_pct_per_V: line * percent,
        load_pct_per_mA: (load * percent) / 1e3,
        dVo_line_pct: line * percent * (g('VI_max') - g('VI_min')),
        dVo_load_pct: load * percent * g('IO_max'),
      }),
    ).toEqual([])
  })

  test('SH-20: slope resistance at both ends of the input', () => {
    const g = given('SH-20')
    const [low, high] = [g('V_min'), g('V_max')].map((v) => stage(v, g('R'), g('Vz0'), g('rz')))
    expect(
      misses('SH-20', { I_min: -low!.i('D1'), V_o_min: low!.v('out'), I_max: -high!.i('D1'), V_o_max: high!.v('out') }),
    ).toEqual([])
  })

  test('SH-24: the range of the input between two diode currents', () => {
    const g = given('SH-24')
    const at = (iz: number) =>
      solve([feed('in', iz), resistor('Rs', 'in', 'out', g('Rs')), referenceDiode('D1', 'out', g('Vz'), g('rz'))])
    expect(misses('SH-24', { V_S_min: at(g('Izmin')).v('in'), V_S_max: at(g('Izmax')).v('in') })).toEqual([])
  })

  test('SH-29: currents with and without the heaviest load', () => {
    const g = given('SH-29')
    const [loaded, free] = [stage(g('Vin'), g('Rs'), g('Vz'), 0, g('RL_min')), stage(g('Vin'), g('Rs'), g('Vz'))]
    const currents = { I_S: loaded.i('Rs'), I_L_max: loaded.i('RL'), I_Z_min: -loaded.i('D1'), I_Z_max: -free.i('D1') }
    expect(misses('SH-29', currents)).toEqual([])
  })

  test('SH-37: heat of diode and resistor at the highest input, output resistance', () => {
    const g = given('SH-37')
    const high = stage(g('VI_max'), g('RD'), g('Vz0'), g('Rz'))
    const Ro = -slopeOf((i) => drawn(g('VI'), g('RD'), g('Vz0'), g('Rz'), i), 1e-3, 1e-4)
    const rise = high.v('out') - stage(g('VI'), g('RD'), g('Vz0'), g('Rz')).v('out')
    expect(
      misses(
        'SH-37',
        {
          I_Zmax: -high.i('D1'),
          P_Z_source: high.p('D1'),
          P_RD: high.p('Rs'),
          R_o: Ro,
          load_pct: (100 * Ro) / g('RL'),
          // the source relates the change to the 10 V of the input
          dVL_pct: (100 * rise) / g('VI'),
        },
        KNEE,
      ),
    ).toEqual([])
  })

  test('SH-39: every watt of a loaded stage', () => {
    const g = given('SH-39')
    const s = stage(g('V'), g('Rs'), g('Vz'), 0, g('RL'))
    const efficiency = s.p('RL') / (g('V') * s.i('Rs'))
    expect(misses('SH-39', { I_S: s.i('Rs'), I_L: s.i('RL'), I_Z: -s.i('D1') })).toEqual([])
    expect(misses('SH-39', { P_Rs: s.p('Rs'), P_Z: s.p('D1'), P_L: s.p('RL'), efficiency }, KNEE)).toEqual([])
  })

  test('Sedra and Smith, Example 3.5: 0.65 V and 20 Ω behind 1 kΩ at 5 V carry 4.26 mA at 0.735 V', () => {
    // a fixed voltage and a slope are the same element whichever way the diode stands
    const s = solve([supply(5), resistor('R', 'in', 'a', 1000), referenceDiode('D1', 'a', 0.65, 20)])
    expect(Math.abs(s.i('R') * 1e3 - 4.26471)).toBeLessThan(5e-3)
    expect(Math.abs(s.v('a') - 0.735)).toBeLessThan(5.1e-4)
  })
})
