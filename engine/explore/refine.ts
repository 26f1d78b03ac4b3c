/**
 * Which cells of a map have to be worked out, and what the others may be taken to be. The map is cut into blocks; a block whose
 * worked-out cells, its rim included, all say the same is filled with that; any other is cut in four, down to single
 * cells. So the cells worked out crowd along the boundaries. An island that lies inside a block of the first cut and touches
 * no cell worked out goes unseen.
 */

import { UNKNOWN } from './cells.ts'

/** Cells across a block of the first cut. */
const COARSE = 12

export interface Refinement {
  /** Cells to be worked out next, neighbours after one another; empty where the map is finished. */
  wanted: Int32Array
  /** By cell: 0 to 254 as worked out or filled in, `UNKNOWN` where nothing is known yet. */
  codes: Uint8Array
  /** By cell: 1 where its code is filled in. */
  filled: Uint8Array
  /** By cell and value, `width` values a cell: as worked out, and bilinear between the corners of its block where filled in. */
  values: Float64Array
}

/**
 * Depends on what is known alone, not on the order in which it came. `codes`: one a cell, row after row; `values`: `width`
 * numbers a cell that vary between boundaries.
 */
export function refine(
  columns: number,
  rows: number,
  codes: Uint8Array,
  values: Float64Array,
  coarse = COARSE,
): Refinement {
  const width = values.length / codes.length
  const wanted = new Set<number>()
  const out: Refinement = {
    wanted: new Int32Array(0),
    codes: codes.slice(),
    filled: new Uint8Array(codes.length),
    values: values.slice(),
  }

  const visit = (left: number, right: number, top: number, bottom: number): void => {
    const corners = [left + top * columns, right + top * columns, left + bottom * columns, right + bottom * columns]
    const missing = corners.filter((cell) => codes[cell] === UNKNOWN)
    for (const cell of missing) wanted.add(cell)
    if (missing.length > 0 || (right - left <= 1 && bottom - top <= 1)) return
    if (isUniform(left, right, top, bottom)) {
      fill(left, right, top, bottom, corners)
      return
    }
    const across = right - left > 1 ? [left, (left + right) >> 1, right] : [left, right]
    const down = bottom - top > 1 ? [top, (top + bottom) >> 1, bottom] : [top, bottom]
    for (let r = 1; r < down.length; r++)
      for (let c = 1; c < across.length; c++) visit(across[c - 1]!, across[c]!, down[r - 1]!, down[r]!)
  }

  const isUniform = (left: number, right: number, top: number, bottom: number): boolean => {
    const first = codes[left + top * columns]!
    for (let r = top; r <= bottom; r++)
      for (let c = left; c <= right; c++) {
        const code = codes[c + r * columns]!
        if (code !== UNKNOWN && code !== first) return false
      }
    return true
  }

  const fill = (left: number, right: number, top: number, bottom: number, corners: readonly number[]): void => {
    for (let r = top; r <= bottom; r++)
      for (let c = left; c <= right; c++) {
        const cell = c + r * columns
        if (codes[cell] !== UNKNOWN) continue
        out.codes[cell] = codes[corners[0]!]!
        out.filled[cell] = 1
        const x = right > left ? (c - left) / (right - left) : 0
        const y = bottom > top ? (r - top) / (bottom - top) : 0
        const shares = [(1 - x) * (1 - y), x * (1 - y), (1 - x) * y, x * y]
        for (let k = 0; k < width; k++) {
          let sum = 0
          corners.forEach((corner, n) => {
            sum += shares[n]! * values[corner * width + k]!
          })
          out.values[cell * width + k] = sum
        }
      }
  }

  const across = cuts(columns, coarse)
  const down = cuts(rows, coarse)
  for (let r = 1; r < down.length; r++)
    for (let c = 1; c < across.length; c++) visit(across[c - 1]!, across[c]!, down[r - 1]!, down[r]!)
  out.wanted = walk([...wanted], columns)
  return out
}

/** Where the first cut runs: both ends, and evenly between them at most `coarse` cells apart. */
function cuts(count: number, coarse: number): number[] {
  if (count === 1) return [0, 0]
  const blocks = Math.ceil((count - 1) / coarse)
  return Array.from({ length: blocks + 1 }, (_, k) => Math.round((k * (count - 1)) / blocks))
}

/** Column after column, down and up in turn: from each cell it is not far to the next. */
function walk(cells: readonly number[], columns: number): Int32Array {
  const column = (cell: number): number => cell % columns
  return Int32Array.from(cells.toSorted((a, b) => column(a) - column(b) || (column(a) % 2 === 0 ? a - b : b - a)))
}
