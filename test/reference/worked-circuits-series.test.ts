/**
 * Published worked examples of series-pass and feedback stages that describe a whole circuit, solved as circuits by our solver with the
 * textbooks' devices. The data, each with its source and how it was read, are in `test/fixtures/published`.
 */
import { describe, expect, test } from 'vitest'
import { publishedCase } from '../fixtures/published/index.ts'
import { given, misses } from './worked/published.ts'
import {
  amplifier,
  feed,
  referenceDiode,
  resistor,
  slopeOf,
  solve,
  source,
  supply,
  transistor,
} from './worked/ideal.ts'

/** The ideal diode's knee is 0.06 mV a decade wide, the solver's answer good to far less. */
const KNEE = 2e-4

const follower = (g: (name: string) => number, vin: number, rs: number, rl: number, beta: number) => {
  const amperes = ((g('Vz') - g('Vbe')) / rl) * (beta / (beta + 1))
  return solve([
    supply(vin),
    resistor('Rs', 'in', 'base', rs),
    referenceDiode('D1', 'base', g('Vz')),
    transistor('Q1', ['in', 'base', 'out'], beta, g('Vbe'), amperes),
    resistor('RL', 'out', '0', rl),
  ])
}

/** A follower of gain 300 behind 600 Ω, as a current is drawn from its emitter. */
const fed = (amperes: number) =>
  solve([
    supply(20),
    source('VBB', 'vbb', 10.6),
    resistor('Rb', 'vbb', 'base', 600),
    transistor('Q1', ['in', 'base', 'out'], 300, 0.7, 0.1),
    feed('out', -amperes),
  ]).v('out')

describe('series-pass', () => {
  test('SP-01: output and diode current', () => {
    const g = given('SP-01')
    const s = follower(g, g('Vi'), g('R'), g('RL'), g('beta'))
    expect(
      misses('SP-01', { V_o: s.v('out'), V_CE: s.v('in') - s.v('out'), I_Z: -s.i('D1'), I_L: s.i('RL') }, KNEE),
    ).toEqual([])
    // our transistor's base carries IE/(beta + 1), as this figure counts it
    expect(misses('SP-01', { I_Z_beta_plus_1: -s.i('D1') }, KNEE)).toEqual([])
  })

  test('SP-04: output, voltage across the transistor, diode current', () => {
    const g = given('SP-04')
    const s = follower(g, g('Vs'), g('R'), g('RL'), g('beta'))
    const currents = { I_R: s.i('Rs'), I_L: s.i('RL'), I_Z: -s.i('D1') }
    expect(misses('SP-04', { V_L: s.v('out'), V_CE: s.v('in') - s.v('out'), ...currents })).toEqual([])
  })

  test('SP-07: output of a follower (input and series resistor are ours: the example gives none)', () => {
    const g = given('SP-07')
    const s = follower(g, 16, 470, g('RL'), g('beta'))
    expect(misses('SP-07', { V_out: s.v('out'), I_L: s.i('RL') })).toEqual([])
  })

  test('SP-10: output and drop of a follower (series resistor, gain and load are ours)', () => {
    const g = given('SP-10')
    const s = follower(g, g('Vin'), 330, 150, 60)
    expect(misses('SP-10', { V_out: s.v('out'), V_Q1: s.v('in') - s.v('out') })).toEqual([])
  })

  test('SP-12: base current of a Darlington (the source takes IE/beta at each transistor)', () => {
    const g = given('SP-12')
    const base = (g('VCC') * g('R2')) / (g('R1') + g('R2'))
    const [b1, b2] = [g('beta1') - 1, g('beta2') - 1]
    const full = (base - 2 * g('Vbe')) / g('RE')
    const s = solve([
      supply(g('VCC')),
      source('VBB', 'base', base),
      transistor('Q1', ['in', 'base', 'mid'], b1, g('Vbe'), full / g('beta2')),
      transistor('Q2', ['in', 'mid', 'out'], b2, g('Vbe'), full),
      resistor('RE', 'out', '0', g('RE')),
    ])
    const [, baseCurrent = NaN] = s.currents['Q1'] ?? []
    expect(misses('SP-12', { I_B1: baseCurrent })).toEqual([])
  })

  test('Malvino, Example 11-4: 600 Ω at the base of a gain of 300 are 2.0 Ω at the emitter, beside re = VT/IE', () => {
    const seen = -slopeOf(fed, 0.1, 1e-4)
    expect(Math.abs(seen - 0.025692579 / 0.1 - 2.0)).toBeLessThan(0.051)
    expect(seen).toBeCloseTo(0.025692579 / 0.1 + 600 / 301, 4)
  })
})

/** An amplifier drives a follower and compares a share of the output with a diode fed from the output. */
const regulator = (vin: number, vz: number, upper: number, lower: number, feedR: number, rl: number) =>
  solve(
    [
      supply(vin),
      resistor('R1', 'out', 'vz', feedR),
      referenceDiode('D1', 'vz', vz),
      resistor('R2', 'out', 'fb', upper),
      resistor('R3', 'fb', '0', lower),
      amplifier('U1', ['vz', 'fb', 'base', 'in', '0']),
      transistor('Q1', ['in', 'base', 'out'], 1e6, 0.7, (vz * (1 + upper / lower)) / rl),
      resistor('RL', 'out', '0', rl),
    ],
    { out: vz * (1 + upper / lower), vz, fb: vz, base: vz * (1 + upper / lower) + 0.7 },
  )

describe('feedback', () => {
  test('FB-11: a two-transistor regulator (recomputed: the source puts the pass base below the output)', () => {
    const g = given('FB-11')
    const r = publishedCase('FB-11').recomputed
    const pass = (r['I_B1'] ?? NaN) * g('beta')
    const vbe = r['V_BE'] ?? NaN
    const s = solve(
      [
        supply(g('V2')),
        resistor('R1', 'in', 'vz', g('R1')),
        referenceDiode('D1', 'vz', g('Vz')),
        resistor('R2', 'in', 'a', g('R2')),
        transistor('Q1', ['in', 'a', 'out'], g('beta'), vbe, pass),
        // the source gives the sensing transistor no base current
        transistor('Q2', ['a', 'b', 'vz'], 1e7, vbe, r['I_E2_corrected'] ?? NaN),
        resistor('R3', 'out', 'b', g('R3')),
        resistor('R4', 'b', '0', g('R4')),
        feed('out', -g('IL')),
      ],
      { out: 10, a: 10.8, b: 6.4, vz: 5.6 },
    )
    const [, base = NaN] = s.currents['Q1'] ?? []
    const sensed = -(s.currents['Q2']?.[2] ?? NaN)
    expect(s.v('out')).toBeCloseTo(g('V1'), 2)
    expect(
      misses(
        'FB-11',
        { V_B: s.v('b'), V_A: s.v('a'), I_B1: base, I_2: s.i('R2'), I_E2: sensed, I_Z: -s.i('D1') },
        1e-3,
      ),
    ).toEqual([])
    expect(misses('FB-11', { P_T1: (s.v('in') - s.v('out')) * s.i('Q1') }, 1e-3)).toEqual([])
  })

  test('FB-17: an amplifier, a follower and a diode fed from the output', () => {
    const g = given('FB-17')
    const s = regulator(g('Vin'), g('Vz'), g('R2'), g('R3'), g('R1'), g('RL'))
    const drop = s.v('in') - s.v('out')
    expect(
      misses('FB-17', {
        V_L: s.v('out'),
        I_Z: -s.i('D1'),
        I_L: s.i('RL'),
        V_CE: drop,
        P_D: drop * s.i('RL'),
        P_L: s.p('RL'),
        P_in: s.v('in') * s.i('RL'),
        eff: s.v('out') / s.v('in'),
        beta_min: s.i('RL') / g('Iop'),
      }),
    ).toEqual([])
  })

  test('FB-27: output of an amplifier regulator (input, diode feed and load are ours)', () => {
    const g = given('FB-27')
    expect(misses('FB-27', { V_out: regulator(22, g('Vref'), g('R2'), g('R3'), 4700, 200).v('out') })).toEqual([])
  })

  test('FB-29: both ends of an adjustable output', () => {
    const g = given('FB-29')
    const all = g('R2') + g('R3') + g('R4')
    const at = (lower: number) => regulator(24, g('Vz'), all - lower, lower, 3300, 1000).v('out')
    expect(misses('FB-29', { V_max: at(g('R3')), V_min: at(g('R3') + g('R4')) })).toEqual([])
  })

  test('FB-19: the loop divides the output resistance by 1 + T, and the supply rejection by the feedback factor', () => {
    const g = given('FB-19')
    const share = g('R1') / (g('R1') + g('R2'))
    // The source counts half of a supply change as common mode; our amplifier refers common mode to its lower rail. Its
    // output rests at mid-swing, so that its finite gain makes up for half of a supply change by itself.
    const rejection = 1 / (1 / g('PSRR') + 0.5 / 10 ** (g('CMRR_dB') / 20) - 0.5 / g('a'))
    const output = (vin: number, amperes: number) =>
      solve(
        [
          supply(vin),
          source('VREF', 'ref', g('Vo') * share),
          amplifier('U1', ['ref', 'fb', 'out', 'in', '0'], {
            A0: g('a'),
            RO: g('zo'),
            PSRR: rejection,
            VS0: 20,
            ISRC: 1e3,
            ISNK: 1e3,
          }),
          resistor('R2', 'out', 'fb', g('R2')),
          resistor('R1', 'fb', '0', g('R1')),
          feed('out', -amperes),
        ],
        { out: g('Vo'), fb: g('Vo') * share },
      ).v('out')
    const Zout = -slopeOf((i) => output(20, i), 5e-3, 2e-3)
    const line = slopeOf((v) => output(v, 5e-3), 20, 1)
    // tanh bends the gain by a few parts in ten thousand where the output is not in mid-swing
    expect(misses('FB-19', { Z_out: Zout }, 2e-3)).toEqual([])
    expect(
      misses('FB-19', { load_ppm_per_mA: (-Zout * 1e-3 * 1e6) / g('Vo'), line_ppm_per_V: (line * 1e6) / g('Vo') }),
    ).toEqual([])
  })
})
