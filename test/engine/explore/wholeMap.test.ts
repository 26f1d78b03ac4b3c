/**
 * Whole maps, worked out coarsely and refined, against the whole comparison at cells picked at random, those included that were
 * filled in from their neighbours. Ours alone: no source.
 */
import { describe, expect, it } from 'vitest'
import { compare, mapCells, refine, studyAt, type MapQuestion, type Refinement } from '../../../engine/index.ts'
import { newHint } from '../../../engine/compare/decide.ts'
import { SCORES, UNKNOWN, winnerOf } from '../../../engine/explore/cells.ts'
import { randomOf } from '../../../engine/random/index.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'

/** A map as the page makes it, by one worker instead of a pool. */
function wholeMap(question: MapQuestion): Refinement {
  const { x, y } = question
  const codes = new Uint8Array(x.count * y.count).fill(UNKNOWN)
  const scores = new Float64Array(SCORES * codes.length)
  const hint = newHint()
  for (;;) {
    const refinement = refine(x.count, y.count, codes, scores)
    const { wanted } = refinement
    if (wanted.length === 0) return refinement
    const steps = mapCells(question, wanted, hint)
    let step = steps.next()
    while (!step.done) step = steps.next()
    const worked = step.value
    wanted.forEach((cell, k) => {
      codes[cell] = worked.codes[k]!
      scores.set(worked.scores.subarray(SCORES * k, SCORES * (k + 1)), SCORES * cell)
    })
  }
}

/** The winner at a cell by the whole comparison, as `winnerOf` tells it. */
function winnerBy(question: MapQuestion, cell: number): number {
  const { designs, ranking } = compare(studyAt(question, cell)!)
  const first = designs.findIndex(({ topology }) => topology === ranking[0]!.topology)
  return designs[first]!.verdict === 'meets' ? first : -1
}

const TIMES = { timeout: 240_000 }

describe.each([
  // one cell in a hundred; of the smaller map more, or there would be too few
  { title: 'Peat', count: 100, checked: 100 },
  { title: 'Mill', count: 100, checked: 100 },
  { title: 'Loom', count: 40, checked: 80 },
])('the map of $title, input against load, $count x $count cells', ({ title, count, checked }) => {
  it('has the winners that the whole comparison has, worked out or filled in', TIMES, () => {
    const study = exampleStudies().find((each) => each.title.startsWith(title))!
    const { input, load } = study.requirements
    const question: MapQuestion = {
      study,
      x: { path: 'load.max', from: Math.max(load.min, load.max / 4), to: 2.5 * load.max, count },
      y: { path: 'input.max', from: 0.9 * input.min + 0.1 * input.max, to: 2 * input.max - input.min, count },
    }
    const { codes, filled } = wholeMap(question)
    const random = randomOf(17, 1)
    const cells = Array.from({ length: checked }, () => Math.floor(random() * codes.length))
    const wrong = cells.filter((cell) => winnerOf(codes[cell]!) !== winnerBy(question, cell))
    expect(
      wrong.map((cell) => ({ column: cell % count, row: Math.floor(cell / count), filled: filled[cell] })),
    ).toEqual([])
    expect(cells.filter((cell) => filled[cell] === 1).length).toBeGreaterThan(checked / 2)
  })
})
