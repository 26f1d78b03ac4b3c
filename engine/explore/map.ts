/** Which design wins where: a map over two requirements, every cell worked out a whole re-sizing of all three topologies. */
import { type Hint, decide, newHint } from '../compare/decide.ts'
import { checkField } from '../requirements/index.ts'
import { type MapAxis, axisValues, movedTo } from '../requirements/moved.ts'
import type { Study } from '../requirements/study.ts'
import { TOPOLOGIES } from '../topologies/index.ts'

export interface MapQuestion {
  readonly study: Study
  readonly x: MapAxis
  readonly y: MapAxis
}

/**
 * The code of a cell: in bits 0 and 1 the winner, 0 for none, else 1 for the shunt, 2 for series-pass, 3 for feedback; in bits
 * 2 to 4 which of them meet. `IMPOSSIBLE` where the two requirements contradict each other or a third one.
 */
export const IMPOSSIBLE = 254

/** Values a cell: the three scores. */
export const SCORES = 3

/** Cells worked out: indices row after row, y counted from `y.from`; `scores`: three a cell, 0 where a design falls short. */
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
      codes[k] = 1 + TOPOLOGIES.findIndex(({ name }) => name === ranking[0])
      designs.forEach(({ meets, score = 0 }, j) => {
        if (meets) codes[k]! += 4 << j
        scores[SCORES * k + j] = score
      })
    } else codes[k] = IMPOSSIBLE
    yield { done: k + 1, total: cells.length }
  }
  return { cells, codes, scores }
}
