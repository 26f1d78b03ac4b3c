/** The working of the foldback limiter against Franco's Example 11.10, and its circuit against the load line that the working promises. */
import { beforeAll, describe, expect, test } from 'vitest'
import { type Faults, faultsOf } from '../../engine/analyses/faults/index.ts'
import { checkStudy } from '../../engine/index.ts'
import { type Sized, isUnbuilt, needOf, sizeVariant } from '../../engine/sizing/size.ts'
import { REQUIRED } from '../../engine/topologies/common.ts'
import { feedback } from '../../engine/topologies/feedback/index.ts'
import { FOLDBACK_GIVENS, foldbackSteps } from '../../engine/topologies/place/foldback.ts'
import { type Chooser, defineWorking } from '../../engine/topologies/working.ts'
import { FEEDBACK } from '../fixtures/published/feedback.ts'

const EXACT: Chooser = {
  isPinned: () => false,
  preferred: (_id, _side, value) => value,
  divider: (_upper, _lower, ratio, aim) => ({ upper: ratio * aim, lower: aim }),
}

describe('S. Franco, Design with Operational Amplifiers, Example 11.10, read in a transcription', () => {
  const { given, expected, recomputed } = FEEDBACK.find(({ id }) => id === 'FB-21')!
  const { VI, P_max, Vbe, vO, IB3 } = given as Record<string, number>
  const working = defineWorking(
    'foldback alone',
    [...REQUIRED, ...FOLDBACK_GIVENS],
    foldbackSteps({ transistor: 'Q3', resistor: 'R5', fold: { upper: 'R6', lower: 'R7' } }),
  )
  /** Of what the transistor bears four fifths are used: the example uses all of it. */
  const borne = P_max! / 0.8
  const run = working.run(
    {
      ...Object.fromEntries(working.givens.map(({ is }) => [is, 0])),
      Vin_max: VI!,
      Vout_lo: vO!,
      Vout_hi: vO!,
      // the knee of the example: what heats the transistor as much in service as the short does
      Iout_max: P_max! / (VI! - vO!),
      V_on: Vbe!,
      V_full: Vbe!,
      I_b: IB3!,
      I_soa: Infinity,
      Ta_max: 25,
      Tj_top: 125,
      theta: 100 / borne,
    },
    EXACT,
  )

  test.each([
    ['I_sc', 'I_sc'],
    ['R_flat', 'R_sc'],
    ['I_fb', 'I_fb'],
    ['R_sc', 'R_fb'],
  ])('%s is the printed %s', (ours, printed) => {
    const { printed: value, tolerance } = expected[printed]!
    expect(Math.abs(run.value(ours) - value)).toBeLessThan(tolerance)
    expect(run.value(ours)).toBeCloseTo(recomputed[printed]!, 5)
  })

  test('the divider has the ratio of the exact R3 and R4, and the largest current is the knee again', () => {
    expect(run.value('fold')).toBeCloseTo(recomputed['R_3']! / recomputed['R_4']!, 5)
    expect(run.value('I_lim')).toBeCloseTo(recomputed['I_fb']!, 5)
  })
})

const study = (load: number, survivesShort = true) => {
  const checked = checkStudy({
    format: 'wattfork-study',
    version: 1,
    title: 'foldback',
    requirements: {
      input: { min: 22.5, max: 24 },
      output: { voltage: 15, tolerance: 0.08 },
      load: { min: 0.01, max: load },
      ambient: { min: 10, max: 40 },
      limits: { survivesShort },
      parts: { resistorSeries: 'E96' },
    },
  })
  if (!checked.ok) throw new Error(checked.issues[0]!.message)
  return needOf(checked.study.requirements)
}

describe('a rail whose short no transistor bears with a constant limiter: 22.5 to 24 V in, 15 V, 1.5 A', () => {
  let sized: Sized
  let faults: Faults
  const variant = feedback.variants.find(({ name }) => name === 'operational amplifier with foldback')!
  beforeAll(() => {
    const found = sizeVariant(variant, study(1.5))
    if (isUnbuilt(found)) throw new Error(found.refusal.because)
    sized = found
    const job = faultsOf(sized.proof)
    let step = job.next()
    while (!step.done) step = job.next()
    faults = step.value
  }, 120_000)

  test('foldback suits only there, and stands after every other variant', () => {
    expect(variant.suits(study(1.5))).toBe(true)
    expect(variant.suits(study(1.5, false))).toBe(false)
    expect(variant.suits(study(0.1))).toBe(false)
    const names = feedback.variants.map(({ name }) => name.includes('foldback'))
    expect(names).toEqual(names.toSorted((a, b) => Number(a) - Number(b)))
  })

  test('its current falls from the knee to the short as the working says, within 15 % at the nominal board', () => {
    const { volts, amperes } = faults.loadLine!.nominal
    const v = sized.proof.design.worked.value
    const k = v('R5') / v('R6')
    // the threshold of the solved limiter lies between its extremes
    const promised = (vbe: number, out: number) => (vbe * (1 + k) + k * out) / v('R_sc')
    for (const share of [0.2, 0.5, 0.8]) {
      const near = volts.findIndex((out) => out <= share * 15)
      expect(amperes[near]!).toBeGreaterThan(0.85 * promised(v('V_on'), volts[near]!))
      expect(amperes[near]!).toBeLessThan(1.15 * promised(v('V_full'), volts[near]!))
    }
    expect(amperes.at(-1)!).toBeLessThan(0.6 * Math.max(...amperes))
  })

  test('a load of constant current can keep it down, and the study says that it may not start', () => {
    const { latchUp } = faults.loadLine!
    expect(latchUp!.rests).toBeGreaterThan(0)
    expect(latchUp!.rests).toBeLessThan(1)
    expect(latchUp!.widest.delivered).toBeLessThan(latchUp!.widest.drawn)
    expect(sized.findings.some(({ shortfall }) => shortfall.requirement === 'start-up')).toBe(true)
  })
})
