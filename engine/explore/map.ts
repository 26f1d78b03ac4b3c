/** Which design wins where: a map over two requirements, every cell worked out a whole re-sizing of all three topologies. */
import { type Hint, decide, newHint } from '../compare/decide.ts'
import { checkField } from '../requirements/index.ts'
import { type MapAxis, axisValues, movedTo } from '../requirements/moved.ts'
import type { Study } from '../requirements/study.ts'
import { TOPOLOGIES } from '../topologies/index.ts'
import { IMPOSSIBLE, SCORES, codeOf } from './cells.ts'

export interface MapQuestion {
  readonly study: Study
  readonly x: MapAxis
  readonly y: MapAxis
}

/**
 * Cells worked out: indices row after row, y counted from `y.from`; `codes`: see `codeOf`; `scores`: three a cell, 0 where a
 * design falls short.
 */
export interface MapCells {
  cells: Int32Array
  codes: Uint8Array
  scores: Float64Array
}

/** The requirements of one cell; undefined where they contradict each other. */
export function studyAt({ study, x, y }: MapQuestion, cell: number): Study | undefined {
  const across = axisValues(x)[cell % x.count]!
  const up = axisValues(y)[Math.floor(cell / x.count)]!
  const moved = movedTo(movedTo(study, x.path, across), y.path, up)
  const isAllowed = checkField(x.path, across, moved).length === 0 && checkField(y.path, up, moved).length === 0
  return isAllowed ? moved : undefined
}

/** Works out cells one after another; `done` counts them. What is learnt at one cell helps at the next, and changes nothing. */
export function* mapCells(
  question: MapQuestion,
  cells: Int32Array,
  hint: Hint = newHint(),
): Generator<{ done: number; total: number }, MapCells> {
  const codes = new Uint8Array(cells.length)
  const scores = new Float64Array(SCORES * cells.length)
  for (const [k, cell] of cells.entries()) {
    const study = studyAt(question, cell)
    if (study) {
      const { designs, ranking } = decide(study, hint)
      const winner = TOPOLOGIES.findIndex(({ name }) => name === ranking[0])
      codes[k] = codeOf(
        winner,
        designs.map(({ meets }) => meets),
      )
      designs.forEach(({ score = 0 }, j) => {
        scores[SCORES * k + j] = score
      })
    } else codes[k] = IMPOSSIBLE
    yield { done: k + 1, total: cells.length }
  }
  return { cells, codes, scores }
}
