/** Refinement of a map against every cell of it. Ours alone: no source. */
import { describe, expect, it } from 'vitest'
import { UNKNOWN } from '../../../engine/explore/cells.ts'
import { refine } from '../../../engine/explore/refine.ts'

/** Runs a refinement to its end over a map that is known everywhere. */
function explore(columns: number, rows: number, codeAt: (column: number, row: number) => number, coarse?: number) {
  const codes = new Uint8Array(columns * rows).fill(UNKNOWN)
  const values = new Float64Array(columns * rows)
  let worked = 0
  for (;;) {
    const refinement = refine(columns, rows, codes, values, coarse)
    if (refinement.wanted.length === 0) return { ...refinement, worked }
    for (const cell of refinement.wanted) {
      const [column, row] = [cell % columns, Math.floor(cell / columns)]
      codes[cell] = codeAt(column, row)
      values[cell] = 2 * column - 3 * row
      worked++
    }
  }
}

function wrongCells(columns: number, rows: number, codeAt: (column: number, row: number) => number, coarse?: number) {
  const { codes } = explore(columns, rows, codeAt, coarse)
  return [...codes].filter((code, cell) => code !== codeAt(cell % columns, Math.floor(cell / columns))).length
}

const slanted = (column: number, row: number) => (3 * column + 2 * row > 200 ? 1 : row > 70 ? 2 : 3)
const curved = (column: number, row: number) => ((column - 20) ** 2 + (row - 30) ** 2 < 900 ? 1 : 2)

describe('refinement', () => {
  it.each([
    ['slanted and crossing', slanted],
    ['curved', curved],
    ['upright', (column: number) => (column >= 48 ? 1 : 2)],
  ] as const)('finds boundaries that are %s cell by cell', (_, codeAt) => {
    expect(wrongCells(100, 100, codeAt)).toBe(0)
  })

  it('works out far fewer cells than there are where boundaries are few', () => {
    expect(explore(100, 100, curved).worked).toBeLessThan(1200)
    expect(explore(100, 100, () => 1).worked).toBe(100)
  })

  it('marks what it filled in, and interpolates a plane without error', () => {
    const { filled, values, worked } = explore(40, 30, curved)
    expect(filled.reduce((sum, each) => sum + each, 0)).toBe(40 * 30 - worked)
    values.forEach((value, cell) => expect(value).toBeCloseTo(2 * (cell % 40) - 3 * Math.floor(cell / 40), 9))
  })

  it('misses an island that touches no cell worked out, as it says', () => {
    const island = (column: number, row: number) => (column === 5 && row === 6 ? 1 : 2)
    expect(wrongCells(100, 100, island)).toBe(1)
    expect(wrongCells(100, 100, island, 1)).toBe(0)
  })

  it.each([
    [1, 1],
    [1, 30],
    [2, 2],
    [13, 7],
  ])('ends on a map of %d by %d cells', (columns, rows) => {
    expect(wrongCells(columns, rows, (column, row) => (column + row > 8 ? 1 : 2))).toBe(0)
  })
})
