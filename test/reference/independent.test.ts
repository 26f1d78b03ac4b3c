/**
 * Every operating point and every worst corner of every design, rebuilt by the independent solver from the printed circuit,
 * the printed condition, the printed temperatures and the printed overrides, and from nothing else.
 *
 * A feedback circuit can rest in more than one state; there the printed voltages say where the independent search begins.
 * They select the branch only: the solver lets go of them before it accepts an answer. All other circuits start from nothing,
 * and from the printed voltages only where that leads nowhere.
 *
 * `INVENTED=60 npx vitest run --project engine test/reference/independent.test.ts` is the full run of about three minutes, which
 * also asserts that every variant and both verdicts occur often enough.
 */
import { afterAll, describe, expect, test } from 'vitest'
import { designOf } from '../../engine/compare/design.ts'
import type { Comparison, Design, Study } from '../../engine/index.ts'
import { needOf, sizeVariant } from '../../engine/sizing/size.ts'
import { TOPOLOGIES } from '../../engine/topologies/index.ts'
import { feedback } from '../../engine/topologies/feedback/index.ts'
import { exampleStudies } from '../fixtures/studies/examples.ts'
import { generateStudies, generateStudy } from '../fixtures/studies/generate.ts'
import { disagreements } from './independent/agreement.ts'
import { printedComparisons } from './independent/headless.ts'
import { printedPoints } from './independent/points.ts'
import { solveIndependently } from './independent/solver.ts'

const SEED = 20
const COUNT = Number(process.env['INVENTED'] ?? 24)
const FULL = 60
/** Studies in which the two once differed: always solved. */
const HARD = [26, 28, 51]
/** A study may have to wait for those before it. */
const PATIENCE = 300_000

const seen = { points: 0, verdicts: new Map<string, number>(), variants: new Map<string, number>() }
const count = (map: Map<string, number>, key: string): void => void map.set(key, (map.get(key) ?? 0) + 1)

/** One sentence for each printed number that is not confirmed. */
async function unconfirmed(design: Design): Promise<string[]> {
  const { circuit, topology } = design
  if (circuit === undefined) return []
  const found: string[] = []
  for (const { name, point, overrides } of printedPoints(design)) {
    const { condition, junction } = point
    const situation = { condition, junction, overrides }
    const hinted = { ...situation, near: point.nodeVoltages }
    seen.points++
    try {
      const theirs =
        topology === 'feedback'
          ? await solveIndependently(circuit, hinted)
          : await solveIndependently(circuit, situation).catch(() => solveIndependently(circuit, hinted))
      found.push(...disagreements(point, theirs).map((one) => `${topology}, ${name}: ${one}`))
    } catch (problem) {
      const [first] = String(problem).split('\n')
      found.push(`${topology}, ${name} at ${JSON.stringify(condition)}: ${first}`)
    }
  }
  return found
}

/** The same over all designs, counting what occurs. */
async function check({ designs }: Comparison): Promise<string[]> {
  const found: string[] = []
  for (const design of designs) {
    count(seen.verdicts, design.verdict)
    if (design.circuit !== undefined) count(seen.variants, `${design.topology}, ${design.variant}`)
    found.push(...(await unconfirmed(design)))
  }
  return found
}

const EXAMPLES = exampleStudies()
const STUDIES = [
  ...EXAMPLES,
  ...generateStudies(SEED, COUNT),
  ...HARD.filter((k) => k >= COUNT).map((k) => generateStudy(SEED, k)),
]
const ANSWERS = printedComparisons(STUDIES)

describe(`three examples and invented studies of seed ${SEED}`, () => {
  test.each(STUDIES.map(({ title }, k) => ({ title, k })))(
    '$title: every printed point is confirmed',
    { timeout: PATIENCE },
    async ({ k }) => {
      expect(await check(await ANSWERS[k]!)).toEqual([])
    },
  )
})

/** Invented: a rail whose short no transistor of the list bears with a constant limiter. Drawn studies hardly ever ask for it. */
const folding = (amperes: number): Study => {
  const [{ requirements, ...rest }] = EXAMPLES as [Study]
  return {
    ...rest,
    requirements: {
      ...requirements,
      input: { ...requirements.input, min: 22.5, nominal: 23.25, max: 24 },
      output: { voltage: 15, tolerance: 0.08 },
      load: { ...requirements.load, min: 0.01, nominal: amperes, max: amperes },
      ambient: { min: 10, nominal: 25, max: 40 },
      limits: { survivesShort: true },
      parts: { ...requirements.parts, resistorSeries: 'E96' },
    },
  }
}

describe('a foldback limiter', () => {
  test.each(
    feedback.variants
      .filter(({ name }) => name.includes('foldback'))
      .flatMap((variant) => [1.3, 1.4, 1.7].map((amperes) => ({ variant, amperes }))),
  )(
    '$variant.name at $amperes A: every printed point is confirmed',
    { timeout: PATIENCE },
    async ({ variant, amperes }) => {
      const study = folding(amperes)
      expect(variant.suits(needOf(study.requirements))).toBe(true)
      const printed = JSON.stringify(
        designOf('feedback', sizeVariant(variant, needOf(study.requirements)), study.assumptions),
      )
      const design = JSON.parse(printed) as Design
      expect(design.circuit).toBeDefined()
      count(seen.variants, `feedback, ${design.variant}`)
      expect(await unconfirmed(design)).toEqual([])
    },
  )
})

describe.runIf(COUNT >= FULL)('the studies reach everything:', () => {
  test('each verdict is that of at least a third of the designs', () => {
    const all = 3 * STUDIES.length
    expect(seen.verdicts.get('meets') ?? 0).toBeGreaterThanOrEqual(all / 3)
    expect(seen.verdicts.get('falls-short') ?? 0).toBeGreaterThanOrEqual(all / 3)
  })

  test.each(TOPOLOGIES.flatMap(({ name, variants }) => variants.map((variant) => `${name}, ${variant.name}`)))(
    '%s occurs at least three times',
    (variant) => {
      expect(seen.variants.get(variant) ?? 0).toBeGreaterThanOrEqual(3)
    },
  )
})

afterAll(() => {
  if (process.env['COUNTS'] !== undefined) console.log(seen)
})
