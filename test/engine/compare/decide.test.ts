/** The lean decision against the whole comparison, over invented studies and the examples. Ours alone: no source. */
import { describe, expect, it } from 'vitest'
import { compare, decide, newHint, type Comparison, type Decision, type Study } from '../../../engine/index.ts'
import { FIGURES, headlineOf } from '../../../engine/figures/index.ts'
import { RESISTORS } from '../../../engine/parts/resistor/index.ts'
import { movedTo } from '../../../engine/requirements/index.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'
import { generateStudies } from '../../fixtures/studies/generate.ts'

/** Relative, of scores and figures: both come from the same solver, which stops at 1e-7 V; a wiring shared changes the rounding. */
const SAME = 1e-6

function expectSame(decision: Decision, comparison: Comparison): void {
  const met = comparison.designs.filter(({ verdict }) => verdict === 'meets')
  expect(
    decision.designs.filter(({ meets }) => meets).map(({ topology, variant }) => `${topology}: ${variant}`),
  ).toEqual(met.map(({ topology, variant }) => `${topology}: ${variant}`))
  expect(decision.ranking).toEqual(comparison.ranking.slice(0, met.length).map(({ topology }) => topology))
  for (const { topology, figures } of met) {
    const mine = decision.designs.find((design) => design.topology === topology)!
    const { score } = comparison.ranking.find((entry) => entry.topology === topology)!
    expect(Math.abs(mine.score! - score), `${topology} score`).toBeLessThan(100 * SAME)
    for (const { name, resolution = 0 } of FIGURES) {
      const figure = mine.figures![name]
      if (figure === undefined) continue
      const whole = Math.max(headlineOf(name, figures!)!, resolution)
      expect(Math.abs(Math.max(figure, resolution) - whole), `${topology} ${name}`).toBeLessThan(SAME * whole)
    }
  }
}

const loom = exampleStudies().find(({ title }) => title.startsWith('Loom'))!

const withWeights = (study: Study, weights: Study['weights']): Study => ({ ...study, weights })

describe('the lean decision', () => {
  it.each(exampleStudies().map((study) => [study.title, study] as const))(
    'of %s is that of the comparison',
    (_, study) => {
      expectSame(decide(study), compare(study))
    },
    240_000,
  )

  it('is that of the comparison for invented studies, one after another with one hint', () => {
    const hint = newHint()
    for (const study of generateStudies(5, 24)) expectSame(decide(study, hint), compare(study))
  }, 240_000)

  it.each([191, 245])(
    "of invented study %i is that of the comparison, at the edge of an operational amplifier's headroom",
    (number) => {
      const study = generateStudies(5, number + 1)[number]!
      const comparison = compare(study)
      const { variant, verdict, unsolved } = comparison.designs[2]!
      expect(variant).toMatch(/^operational amplifier/)
      expect(verdict).toBe('meets')
      // without a limiter a shorted output does run away
      expect(unsolved.filter(({ outcome }) => outcome !== 'thermalRunaway')).toEqual([])
      expectSame(decide(study), comparison)
    },
    240_000,
  )

  it('is that of the comparison where only a search that a lean proof leaves out meets a corner without a solution', () => {
    const study = generateStudies(5, 91)[90]!
    const comparison = compare(study)
    expect(comparison.designs.flatMap(({ unsolved }) => unsolved.map(({ outcome }) => outcome))).toContain(
      'thermalRunaway',
    )
    expectSame(decide(study), comparison)
  }, 240_000)

  it('keeps to the parts that are pinned', () => {
    const [study] = exampleStudies()
    const free = compare(study!).designs[0]!
    const resistor = free.parts.find(({ id }) => id === 'R1')!
    const other = RESISTORS.find(
      ({ partNumber, mounting, max, min }) =>
        partNumber !== resistor.partNumber && mounting === 'through-hole' && min <= 100 && max >= 1e5,
    )!
    const pinned: Study = { ...study!, pins: { shunt: { R1: other.partNumber } } }
    const hint = newHint()
    decide(study!, hint)
    const held = compare(pinned)
    expect(held.ranking).not.toEqual(compare(study!).ranking)
    expectSame(decide(pinned, hint), held)
  }, 240_000)

  it('takes nothing from a study with other pins', () => {
    const mill = exampleStudies().find(({ title }) => title.startsWith('Mill'))!
    const hint = newHint()
    const pinned: Study = { ...mill, pins: { shunt: { R1: 22 } } }
    expectSame(decide(pinned, hint), compare(pinned))
    expectSame(decide(mill, hint), compare(mill))
  }, 240_000)

  it('knows every figure that is weighed', () => {
    const [study] = exampleStudies()
    const every = withWeights(
      study!,
      Object.fromEntries(
        ['efficiency', 'heat', 'loadRegulation', 'lineRegulation', 'minimumInput', 'standbyPower', 'cost'].map(
          (name) => [name, 1],
        ),
      ),
    )
    const decision = decide(every)
    expectSame(decision, compare(every))
    expect(Object.keys(decision.designs[2]!.figures!)).toEqual(
      expect.arrayContaining(['lineRegulation', 'minimumInput', 'standbyPower', 'cost']),
    )
  }, 240_000)

  it('is the same after a walk to it as from nothing', () => {
    const [study] = exampleStudies()
    const hint = newHint()
    for (const [max, limit] of [
      [0.2, 0.01],
      [0.19, 0.02],
      [0.19, 0.03],
      [0.18, 0.01],
      [0.18, 0.05],
    ] as const) {
      const { requirements } = study!
      const there: Study = {
        ...study!,
        requirements: {
          ...requirements,
          load: { ...requirements.load, max },
          limits: { ...requirements.limits, loadRegulation: limit },
        },
      }
      const walked = decide(there, hint)
      expectSame(walked, compare(there))
    }
  }, 240_000)

  it('is not led by what was found of a resistor with another rating', () => {
    const at = (highest: number): Study => movedTo(movedTo(loom, 'load.max', 0.032), 'input.max', highest)
    const hint = newHint()
    // a volt higher the next larger resistor is needed from the start
    decide(at(29.9), hint)
    expectSame(decide(at(28.9), hint), compare(at(28.9)))
  }, 240_000)

  it('follows to and fro over loads at which the single transistor fails to start and at which it does not', () => {
    const way = Array.from({ length: 8 }, (_, k) => movedTo(loom, 'load.max', 0.028 + 0.001 * k))
    const truth = way.map((study) => compare(study).designs[2]!).map(({ verdict, variant }) => [verdict, variant])
    expect(new Set(truth.map(String))).toEqual(
      new Set(['meets,operational amplifier', 'meets,single-transistor amplifier']),
    )
    const hint = newHint()
    for (const k of [...way.keys(), ...[...way.keys()].toReversed()]) {
      const { meets, variant } = decide(way[k]!, hint).designs[2]!
      expect([meets ? 'meets' : 'falls short', variant], `${way[k]!.requirements.load.max} A`).toEqual(truth[k])
    }
  }, 240_000)
})
