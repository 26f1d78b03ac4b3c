/**
 * Which cells of a map have to be worked out, and what the others may be taken to be. The map is cut into blocks, of which the
 * corners and the centre are worked out. A block whose worked-out cells, its rim included, all say the same, none of them by a
 * narrow margin, is filled with that; any other is cut in four, down to single cells. So the cells worked out crowd along the
 * boundaries. An island that lies inside a block of the first cut and touches no cell worked out goes unseen.
 */
import { SCORES, UNKNOWN, marginAt } from './cells.ts'

/** The first cut makes so many blocks to a side at least, and none of more cells across than that. */
const FEWEST = 4
const WIDEST = 25
/** Points. Where a winner is no further ahead than this, a boundary may run beside it. */
const NARROW = 1

export interface Refinement {
  /** Cells to be worked out next, neighbours after one another; empty where the map is finished. */
  wanted: Int32Array
  /** By cell: 0 to 254 as worked out or filled in, `UNKNOWN` where nothing is known yet. */
  codes: Uint8Array
  /** By cell: 1 where its code is filled in. */
  filled: Uint8Array
  /** `SCORES` a cell: as worked out, and between those of its block where filled in. */
  values: Float64Array
}

/** Cells from `left` to `right` and from `top` to `bottom`, all four included; one of the first cut has its centre. */
interface Block {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  readonly isFirst: boolean
}

const middle = (from: number, to: number): number => (from + to) >> 1

/**
 * Depends on what is known alone, not on the order in which it came. `codes`: one a cell, row after row; `scores`: `SCORES` a
 * cell.
 */
export function refine(columns: number, rows: number, codes: Uint8Array, scores: Float64Array): Refinement {
  const wanted = new Set<number>()
  const out: Refinement = {
    wanted: new Int32Array(0),
    codes: codes.slice(),
    filled: new Uint8Array(codes.length),
    values: scores.slice(),
  }
  const at = (column: number, row: number): number => column + row * columns
  const cornersOf = ({ left, right, top, bottom }: Block): [number, number, number, number] => [
    at(left, top),
    at(right, top),
    at(left, bottom),
    at(right, bottom),
  ]
  const centreOf = ({ left, right, top, bottom }: Block): number => at(middle(left, right), middle(top, bottom))

  const visit = (block: Block): void => {
    const { left, right, top, bottom, isFirst } = block
    const first = isFirst ? [...cornersOf(block), centreOf(block)] : cornersOf(block)
    const missing = first.filter((cell) => codes[cell] === UNKNOWN)
    for (const cell of missing) wanted.add(cell)
    if (missing.length > 0 || (right - left <= 1 && bottom - top <= 1)) return
    if (isPlain(block)) {
      fill(block)
      return
    }
    quarter(left, right, top, bottom)
  }

  const quarter = (left: number, right: number, top: number, bottom: number): void => {
    const across = right - left > 1 ? [left, middle(left, right), right] : [left, right]
    const down = bottom - top > 1 ? [top, middle(top, bottom), bottom] : [top, bottom]
    visitAll(across, down, false)
  }

  const visitAll = (across: readonly number[], down: readonly number[], isFirst: boolean): void => {
    for (let r = 1; r < down.length; r++)
      for (let c = 1; c < across.length; c++)
        visit({ left: across[c - 1]!, right: across[c]!, top: down[r - 1]!, bottom: down[r]!, isFirst })
  }

  /** Whether all that is known of it says the same, and clearly. */
  const isPlain = ({ left, right, top, bottom }: Block): boolean => {
    const code = codes[at(left, top)]!
    for (let r = top; r <= bottom; r++)
      for (let c = left; c <= right; c++) {
        const cell = at(c, r)
        if (codes[cell] === UNKNOWN) continue
        if (codes[cell] !== code || marginAt(codes, scores, cell) < NARROW) return false
      }
    return true
  }

  const fill = (block: Block): void => {
    const { left, right, top, bottom, isFirst } = block
    const [first, second, third, fourth] = cornersOf(block)
    const bent = new Float64Array(SCORES)
    const between = (k: number, c: number, r: number): number => {
      const x = share(left, c, right)
      const y = share(top, r, bottom)
      return (
        (1 - y) * ((1 - x) * scores[SCORES * first + k]! + x * scores[SCORES * second + k]!) +
        y * ((1 - x) * scores[SCORES * third + k]! + x * scores[SCORES * fourth + k]!)
      )
    }
    if (isFirst)
      for (let k = 0; k < SCORES; k++)
        bent[k] = scores[SCORES * centreOf(block) + k]! - between(k, middle(left, right), middle(top, bottom))
    for (let r = top; r <= bottom; r++)
      for (let c = left; c <= right; c++) {
        const cell = at(c, r)
        if (codes[cell] !== UNKNOWN) continue
        out.codes[cell] = codes[first]!
        out.filled[cell] = 1
        const nearness = tent(left, c, right) * tent(top, r, bottom)
        for (let k = 0; k < SCORES; k++) out.values[SCORES * cell + k] = between(k, c, r) + nearness * bent[k]!
      }
  }

  visitAll(cuts(columns), cuts(rows), true)
  out.wanted = walk([...wanted], columns)
  return out
}

/** Where `at` lies on the way. */
const share = (from: number, at: number, to: number): number => (to === from ? 0 : (at - from) / (to - from))

/** 1 in the middle, 0 at both ends. */
function tent(from: number, at: number, to: number): number {
  const top = middle(from, to)
  return at === top ? 1 : share(at < top ? from : to, at, top)
}

/** Where the first cut runs: both ends, and evenly between them. */
function cuts(count: number): number[] {
  if (count === 1) return [0, 0]
  const blocks = Math.min(count - 1, Math.max(FEWEST, Math.ceil((count - 1) / WIDEST)))
  return Array.from({ length: blocks + 1 }, (_, k) => Math.round((k * (count - 1)) / blocks))
}

/** Column after column, down and up in turn: from each cell it is not far to the next. */
function walk(cells: readonly number[], columns: number): Int32Array {
  const column = (cell: number): number => cell % columns
  return Int32Array.from(cells.toSorted((a, b) => column(a) - column(b) || (column(a) % 2 === 0 ? a - b : b - a)))
}
