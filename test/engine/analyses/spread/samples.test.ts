import { beforeAll, describe, expect, test } from 'vitest'
import type { Proof } from '../../../../engine/analyses/prove.ts'
import { entryOf } from '../../../../engine/analyses/spread/draw.ts'
import {
  DISTRIBUTIONS,
  METHODS,
  type SpreadProblem,
  spreadProblemOf,
} from '../../../../engine/analyses/spread/problem.ts'
import { type Samples, samplerOf } from '../../../../engine/analyses/spread/samples.ts'
import { worstCaseOf } from '../../../../engine/analyses/spread/worstCase.ts'
import { sizeAll, type Study } from '../../../../engine/index.ts'
import { isUnbuilt } from '../../../../engine/sizing/size.ts'
import { exampleStudies } from '../../../fixtures/studies/examples.ts'
import { generateStudy } from '../../../fixtures/studies/generate.ts'

const PATIENCE = 240_000
const proofsOf = (study: Study): Proof[] => sizeAll(study).flatMap((one) => (isUnbuilt(one) ? [] : [one.proof]))

describe('a tolerance drawn', () => {
  test('reaches its limits and no further, and half of the boards lie on either side', () => {
    for (const distribution of DISTRIBUTIONS) {
      expect(entryOf(0, distribution)).toBeCloseTo(-1, 9)
      expect(entryOf(0.5, distribution)).toBeCloseTo(0, 12)
      expect(entryOf(1 - 2 ** -32, distribution)).toBeLessThanOrEqual(1)
    }
  })

  test('that is normal has two thirds of its boards within a third of the way to the limits', () => {
    const inside = Array.from({ length: 9999 }, (_, k) => entryOf((k + 1) / 10_000, 'normal')).filter(
      (entry) => Math.abs(entry) < 1 / 3,
    )
    // 68.27 % within 1 sigma, over the 99.73 % that are left
    expect(inside.length / 9999).toBeCloseTo(0.6827 / 0.9973, 3)
  })
})

describe('a run', () => {
  let problem: SpreadProblem
  beforeAll(() => {
    const study = exampleStudies()[0]!
    problem = spreadProblemOf(proofsOf(study).at(-1)!.design, study.requirements)
  }, PATIENCE)

  test.each(METHODS)('of %s boards is the same in slices of any size and order, and in a fresh sampler', (method) => {
    const draw = { seed: 77, method, distribution: 'uniform' } as const
    const whole = samplerOf(problem, draw).take(0, 300)
    const other = samplerOf(structuredClone(problem), draw)
    const slices: [number, Samples][] = [
      [200, other.take(200, 100)],
      [0, other.take(0, 7)],
      [7, samplerOf(problem, draw).take(7, 193)],
    ]
    for (const [from, { values }] of slices) expect(values).toEqual(whole.values.subarray(from, from + values.length))
  })

  test('of another seed, method or distribution is another run', () => {
    const draw = { seed: 1, method: 'random', distribution: 'uniform' } as const
    const first = samplerOf(problem, draw).take(0, 20).values
    for (const other of [{ seed: 2 }, { method: 'even' }, { distribution: 'normal' }] as const)
      expect(samplerOf(problem, { ...draw, ...other }).take(0, 20).values).not.toEqual(first)
  })

  test('is asked for in plain data that survives a structured clone and JSON', () => {
    expect(structuredClone(problem)).toEqual(problem)
    expect(JSON.parse(JSON.stringify(problem))).toEqual(problem)
  })
})

const STUDIES: readonly Study[] = [...exampleStudies(), ...[3, 9].map((k) => generateStudy(20, k))]

describe.each(STUDIES)('$title', (study) => {
  const proofs = proofsOf(study)

  test.each(proofs)(
    '$design.topology: the corner extremes contain every one of 10,000 boards, however drawn',
    { timeout: PATIENCE },
    ({ design, output, unsolved }) => {
      for (const method of METHODS) {
        const { values, outcomes } = samplerOf(spreadProblemOf(design, study.requirements), {
          seed: 11,
          method,
          distribution: 'uniform',
        }).take(0, 10_000)
        const solved = values.filter((_, k) => outcomes[k] === 0)
        // where the proof solved every corner, every board between them has a solution too
        expect(unsolved.length > 0 || solved.length === 10_000).toBe(true)
        expect(values.every((v, k) => Number.isNaN(v) === (outcomes[k] !== 0))).toBe(true)
        expect(solved.reduce((a, b) => Math.min(a, b))).toBeGreaterThanOrEqual(output.lowest.value - 1e-6)
        expect(solved.reduce((a, b) => Math.max(a, b))).toBeLessThanOrEqual(output.highest.value + 1e-6)
      }
    },
  )

  test.each(proofs)('$design.topology: the root-sum-square interval lies within the corners', (proof) => {
    const job = worstCaseOf(proof)
    let step = job.next()
    while (!step.done) step = job.next()
    const { corners, rootSumSquare } = step.value
    expect(corners.lowest.value).toBe(proof.output.lowest.value)
    expect(corners.highest.value).toBe(proof.output.highest.value)
    if (proof.unsolved.length > 0 && !rootSumSquare) return
    const { lowest, highest } = rootSumSquare!
    expect(lowest.value).toBeGreaterThanOrEqual(corners.lowest.value)
    expect(highest.value).toBeLessThanOrEqual(corners.highest.value)
    expect(lowest.value).toBeCloseTo(lowest.nominal - lowest.reach, 12)
    expect(highest.value).toBeCloseTo(highest.nominal + highest.reach, 12)
    expect(lowest.value).toBeLessThan(highest.value)
  })
})
