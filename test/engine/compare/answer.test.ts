/** The job behind the page: a first answer, then the proven one; what is known is not worked out again. */
import { expect, test } from 'vitest'
import {
  type Answer,
  answer,
  compare,
  createSizer,
  DETAIL_NAMES,
  inspect,
  report,
  type Study,
} from '../../../engine/index.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'

const PATIENCE = 60_000

interface Told {
  firsts: Answer[]
  progress: { done: number; total: number }[]
  proven: Answer
}

function run(study: Study, sizer = createSizer()): Told {
  const told = { firsts: [] as Answer[], progress: [] as Told['progress'] }
  const job = answer(study, sizer)
  for (;;) {
    const step = job.next()
    if (step.done) return { ...told, proven: step.value }
    if ('stage' in step.value) told.firsts.push(step.value)
    else told.progress.push(step.value)
  }
}

const [study] = exampleStudies() as [Study]

test('the first answer comes before any proof, whole and ranked', { timeout: PATIENCE }, () => {
  const { firsts, progress, proven } = run(study)
  expect(firsts.map(({ stage }) => stage)).toEqual(['first'])
  expect(progress.map(({ done, total }) => `${done}/${total}`)).toEqual(['1/3', '2/3', '3/3'])
  const first = firsts[0]!.comparison
  expect(first.designs.map(({ topology }) => topology)).toEqual(['shunt', 'series-pass', 'feedback'])
  expect(first.ranking).toHaveLength(3)
  expect(JSON.parse(JSON.stringify(first))).toEqual(first)
  expect(proven.stage).toBe('proven')
})

test('nominal parts alone never show a wider band than all boards do', { timeout: PATIENCE }, () => {
  const { firsts, proven } = run(study)
  let compared = 0
  firsts[0]!.comparison.designs.forEach((design, k) => {
    const whole = proven.comparison.designs[k]!
    if (design.variant !== whole.variant || !design.figures || !whole.figures) return
    if (JSON.stringify(design.circuit) !== JSON.stringify(whole.circuit)) return
    compared++
    expect(design.figures.output.lowest).toBeGreaterThanOrEqual(whole.figures.output.lowest)
    expect(design.figures.output.highest).toBeLessThanOrEqual(whole.figures.output.highest)
    expect(design.figures.output.highest - design.figures.output.lowest).toBeLessThan(
      whole.figures.output.highest - whole.figures.output.lowest,
    )
  })
  expect(compared).toBeGreaterThan(0)
})

test('the proven answer is the comparison of the headless run', { timeout: PATIENCE }, () => {
  const { proven } = run(study)
  expect(proven.comparison).toEqual(compare(study))
  const { designs, ...rest } = report(study)
  expect({ ...rest, designs: designs.map((design) => without(design, DETAIL_NAMES)) }).toEqual(compare(study))
})

const without = (whole: object, names: readonly string[]) =>
  Object.fromEntries(Object.entries(whole).filter(([name]) => !names.includes(name)))

test('other weights rank the same designs anew, without sizing them again', { timeout: PATIENCE }, () => {
  const sizer = createSizer()
  const before = run(study, sizer)
  const after = run({ ...study, weights: { partCount: 10 } }, sizer)
  expect(after.firsts).toEqual([])
  expect(after.progress).toEqual([])
  expect(after.proven.comparison.designs).toEqual(before.proven.comparison.designs)
  expect(after.proven.comparison.ranking).not.toEqual(before.proven.comparison.ranking)
})

test('details are of the designs that were sized, whoever asked first', { timeout: PATIENCE }, () => {
  const sizer = createSizer()
  run(study, sizer)
  const job = inspect(study, ['ratings'], sizer)
  let step = job.next()
  while (!step.done) step = job.next()
  const designs = report(study).designs
  step.value.forEach((details, k) => expect(details.ratings).toEqual(designs[k]!.ratings))
})
