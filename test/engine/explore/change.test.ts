/** What would have to change. No published case: each answer is put through the whole comparison, and so is a change one grain smaller. */
import { expect, test } from 'vitest'
import { type Study, changesFor, compare } from '../../../engine/index.ts'
import { type Edits, altered } from '../../../engine/explore/altered.ts'
import type { Change, ChangeAnswer, ChangeQuestion } from '../../../engine/explore/change.ts'
import { moversOf, valueAlong } from '../../../engine/explore/movers.ts'
import { checkStudy, studyFile } from '../../../engine/requirements/index.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'

const PATIENCE = 600_000

const [loom, mill, peat] = exampleStudies() as [Study, Study, Study]

function run(question: ChangeQuestion): ChangeAnswer {
  const job = changesFor(question)
  let told = 0
  for (;;) {
    const step = job.next()
    if (step.done) return step.value
    expect(step.value.done).toBeGreaterThanOrEqual(told)
    expect(step.value.done).toBeLessThanOrEqual(step.value.total)
    told = step.value.done
  }
}

function put(study: Study, edits: Edits): Study {
  const next = structuredClone(study)
  for (const [path, value] of Object.entries(edits)) {
    const [group, key] = path.split('.') as [string, string]
    const groups = next.requirements as unknown as Record<string, Record<string, unknown>>
    groups[group]![key] = value
  }
  expect(checkStudy(studyFile(next)).ok).toBe(true)
  return next
}

/** Whether a whole comparison of the changed study reaches the goal. */
function reaches(study: Study, { topology, goal }: Pick<ChangeAnswer, 'topology' | 'goal'>): boolean {
  const whole = compare(study)
  const meets = whole.designs.find((design) => design.topology === topology)!.verdict === 'meets'
  return goal === 'meet' ? meets : meets && whole.ranking[0]!.topology === topology
}

function verify(study: Study, answer: ChangeAnswer, changes: readonly Change[]): void {
  expect(reaches(study, answer)).toBe(false)
  for (const { path, from, to, edits, size, missedAt } of changes) {
    expect(from).not.toBe(to)
    expect(edits[path]).toBe(to)
    expect(reaches(put(study, edits), answer), `${path} to ${to}`).toBe(true)
    if (typeof missedAt !== 'number') continue
    expect(reaches(altered(study, path, missedAt)!.study, answer), `${path} at ${missedAt}`).toBe(false)
    const way = Math.sign((to as number) - (from as number))
    expect(way * ((to as number) - missedAt)).toBeGreaterThan(0)
    // the smaller change is smaller by one in the third figure of what it is measured by
    const { grain, scale } = moversOf(study, answer.goal).find((m) => m.path === path && m.direction === way)!
    expect(Math.abs((to as number) - missedAt)).toBeCloseTo(grain, 9)
    expect(size).toBeCloseTo(Math.abs((to as number) - (from as number)) / scale, 9)
  }
}

test('a design that falls short is told the smallest change with which it meets', { timeout: PATIENCE }, () => {
  const answer = run({ study: mill, topology: 'series-pass', goal: 'meet' })
  expect(answer.changes.length).toBeGreaterThan(0)
  const sizes = answer.changes.flatMap(({ size }) => (size === undefined ? [] : [size]))
  expect(sizes).toEqual(sizes.toSorted((a, b) => a - b))
  verify(mill, answer, answer.changes)
})

test('giving up the short is found where it is what stands in the way', { timeout: PATIENCE }, () => {
  const shorted = put(loom, { 'limits.survivesShort': true })
  const answer = run({ study: shorted, topology: 'series-pass', goal: 'meet' })
  expect(answer.changes).toContainEqual({
    path: 'limits.survivesShort',
    from: true,
    to: false,
    edits: { 'limits.survivesShort': false },
  })
  verify(shorted, answer, answer.changes)
})

test(
  'a design that misses several requirements at once may have no single change that helps',
  { timeout: PATIENCE },
  () => {
    const answer = run({ study: peat, topology: 'series-pass', goal: 'meet' })
    expect(answer.changes).toEqual([])
    expect(compare(peat).designs[1]!.shortfalls.length).toBeGreaterThan(2)
    // not one limit alone, however wide
    for (const limit of ['loadRegulation', 'lineRegulation'])
      expect(reaches(put(peat, { [`limits.${limit}`]: 0.15 }), answer)).toBe(false)
  },
)

test('a design that loses is told the smallest change with which it comes first', { timeout: PATIENCE }, () => {
  const answer = run({ study: loom, topology: 'feedback', goal: 'win' })
  expect(answer.changes.length).toBeGreaterThan(0)
  verify(loom, answer, answer.changes)
  for (const { edits, standings } of answer.changes) {
    const whole = compare(put(loom, edits))
    expect(standings!.map(({ topology, score }) => ({ topology, score }))).toEqual(
      whole.ranking.map(({ topology, score }) => ({ topology, score })),
    )
  }
})

test('a nominal value goes with the end that passes it, and stays otherwise', () => {
  expect(altered(loom, 'input.max', 20)!.edits).toEqual({ 'input.max': 20, 'input.nominal': 20 })
  expect(altered(loom, 'input.max', 25)!.edits).toEqual({ 'input.max': 25 })
  expect(altered(loom, 'load.max', 0.03)!.edits).toEqual({ 'load.max': 0.03, 'load.nominal': 0.03 })
  expect(altered(loom, 'ambient.min', 26)!.edits).toEqual({ 'ambient.min': 26, 'ambient.nominal': 26 })
  // the ripple must fit inside, the range must not turn round, the study in force stays as it was
  expect(altered(loom, 'input.max', 16.6)).toBeUndefined()
  expect(altered(loom, 'input.max', 9)).toBeUndefined()
  expect(loom.requirements.input.nominal).toBe(21)
})

test('a change is a whole number of steps in the third figure of its measure', () => {
  const movers = moversOf(loom, 'win')
  const top = movers.find(({ path, direction }) => path === 'input.max' && direction === -1)!
  expect(top).toMatchObject({ from: 27, scale: 27, grain: 0.1 })
  expect(valueAlong(top, 3)).toBe(26.7)
  expect(movers.find(({ path }) => path === 'load.min')).toMatchObject({ scale: 0.07, grain: 0.0001 })
  expect(movers.find(({ path }) => path === 'ambient.min')).toMatchObject({ scale: 100, grain: 1 })
  // a limit that is not judged has nothing to give, and to meet nothing is asked for that is harder
  expect(movers.some(({ path }) => path.startsWith('limits.'))).toBe(false)
  expect(
    moversOf(loom, 'meet').every(
      ({ path, direction }) => (path === 'input.max') === (direction === -1) || path !== 'input.max',
    ),
  ).toBe(true)
})
