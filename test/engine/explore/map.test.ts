/** Cells of the map against single comparisons at the same requirements. Ours alone: no source. */
import { describe, expect, it } from 'vitest'
import { compare } from '../../../engine/index.ts'
import { IMPOSSIBLE, SCORES, UNKNOWN, codeOf } from '../../../engine/explore/cells.ts'
import { type MapQuestion, mapCells, studyAt } from '../../../engine/explore/map.ts'
import { refine } from '../../../engine/explore/refine.ts'
import { randomOf } from '../../../engine/random/index.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'

const study = exampleStudies().find(({ title }) => title.startsWith('Mill'))!
/** A quicker study than the example as it is: no short to survive. */
const question: MapQuestion = {
  study: {
    ...study,
    requirements: { ...study.requirements, limits: { ...study.requirements.limits, survivesShort: false } },
  },
  x: { path: 'load.max', from: 0.003, to: 0.05, count: 9 },
  y: { path: 'input.max', from: 24, to: 34, count: 9 },
}
const total = question.x.count * question.y.count

function cellsOf(cells: readonly number[]) {
  const steps = mapCells(question, Int32Array.from(cells))
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}

/** What a whole comparison says of a cell. */
function compared(cell: number) {
  const { designs, ranking } = compare(studyAt(question, cell)!)
  const best = designs.findIndex(({ topology }) => topology === ranking[0]!.topology)
  const meets = designs.map(({ verdict }) => verdict === 'meets')
  const code = codeOf(meets[best] ? best : -1, meets)
  const scoreOf = (topology: string) => ranking.find((r) => r.topology === topology)!.score
  return { code, scores: designs.map(({ topology }, k) => (meets[k] ? scoreOf(topology) : 0)) }
}

describe('the map', () => {
  const whole = cellsOf(Array.from({ length: total }, (_, cell) => cell))

  it('has more than one winner here, or it would prove little', () => {
    expect(new Set(whole.codes).size).toBeGreaterThan(2)
  })

  it('says in a cell worked out what a single comparison at its requirements says', { timeout: 60_000 }, () => {
    const random = randomOf(3, 1)
    for (let n = 0; n < 8; n++) {
      const cell = Math.floor(random() * total)
      const { code, scores } = compared(cell)
      expect(whole.codes[cell]).toBe(code)
      // relative 1e-6 of 100 points: the same solver, other rounding
      scores.forEach((score, k) => expect(Math.abs(whole.scores[SCORES * cell + k]! - score)).toBeLessThan(1e-4))
    }
  })

  it('has its boundaries by refinement where every cell of a fine grid has them, single cells apart', () => {
    const codes = new Uint8Array(total).fill(UNKNOWN)
    const scores = new Float64Array(SCORES * total)
    let refinement = refine(question.x.count, question.y.count, codes, scores)
    while (refinement.wanted.length > 0) {
      for (const cell of refinement.wanted) {
        codes[cell] = whole.codes[cell]!
        scores.set(whole.scores.subarray(SCORES * cell, SCORES * cell + SCORES), SCORES * cell)
      }
      refinement = refine(question.x.count, question.y.count, codes, scores)
    }
    const { count: columns } = question.x
    const missed = Array.from(whole.codes, (_, cell) => cell).filter(
      (cell) => refinement.codes[cell] !== whole.codes[cell],
    )
    // where a part's next size only just fits, single cells differ from all around them: those, filled in, may be missed
    for (const cell of missed) {
      expect(refinement.filled[cell]).toBe(1)
      const beside = [
        ...(cell % columns > 0 ? [cell - 1] : []),
        ...((cell + 1) % columns > 0 ? [cell + 1] : []),
        ...[cell - columns, cell + columns].filter((other) => other >= 0 && other < total),
      ]
      expect(beside.map((other) => whole.codes[other])).not.toContain(whole.codes[cell])
    }
    expect(missed.length).toBeLessThan(0.05 * total)
    expect(refinement.filled.some((each) => each === 1)).toBe(true)
  })

  it('calls a cell impossible where its requirements contradict each other', () => {
    const crossed: MapQuestion = { ...question, y: { path: 'input.max', from: 10, to: 34, count: 9 } }
    const steps = mapCells(crossed, Int32Array.of(0))
    let step = steps.next()
    while (!step.done) step = steps.next()
    expect(step.value.codes[0]).toBe(IMPOSSIBLE)
  })
})
