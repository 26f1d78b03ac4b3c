/** Refinement of a map against every cell of it. Ours alone: no source. */
import { describe, expect, it } from 'vitest'
import { SCORES, UNKNOWN, codeOf } from '../../../engine/explore/cells.ts'
import { refine } from '../../../engine/explore/refine.ts'

type CodeAt = (column: number, row: number) => number

/** Three planes. */
const plane = (column: number, row: number, k: number) => 2 * column - 3 * row + 10 * k

/** Runs a refinement to its end over a map that is known everywhere. */
function explore(columns: number, rows: number, codeAt: CodeAt, scoreAt = plane) {
  const codes = new Uint8Array(columns * rows).fill(UNKNOWN)
  const scores = new Float64Array(SCORES * columns * rows)
  let worked = 0
  for (;;) {
    const refinement = refine(columns, rows, codes, scores)
    if (refinement.wanted.length === 0) return { ...refinement, worked }
    for (const cell of refinement.wanted) {
      const [column, row] = [cell % columns, Math.floor(cell / columns)]
      codes[cell] = codeAt(column, row)
      for (let k = 0; k < SCORES; k++) scores[SCORES * cell + k] = scoreAt(column, row, k)
      worked++
    }
  }
}

function wrongCells(columns: number, rows: number, codeAt: CodeAt, scoreAt = plane) {
  const { codes } = explore(columns, rows, codeAt, scoreAt)
  return [...codes].filter((code, cell) => code !== codeAt(cell % columns, Math.floor(cell / columns))).length
}

const slanted = (column: number, row: number) => (3 * column + 2 * row > 200 ? 1 : row > 70 ? 2 : 3)
const hill = (column: number, row: number) => 100 - (column - 50) ** 2 / 25 - (row - 50) ** 2 / 25
const speck = (column: number, row: number) => (column === 5 && row === 6 ? 1 : 2)
const island = (column: number, row: number) => ((column - 12) ** 2 + (row - 12) ** 2 < 40 ? 1 : 2)
const curved = (column: number, row: number) => ((column - 20) ** 2 + (row - 30) ** 2 < 900 ? 1 : 2)

/** Two that meet; the second overtakes on a thin strip. */
const rivals = (column: number, row: number, k: number) =>
  k === 0 ? 50 : k === 1 ? 50.4 - 0.1 * Math.abs(column - 29) - 0.01 * row : 0
const tongue = (column: number, row: number) =>
  codeOf(rivals(column, row, 1) > rivals(column, row, 0) ? 1 : 0, [true, true, false])

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
    expect(explore(100, 100, () => 1).worked).toBe(41)
  })

  it('marks what it filled in, and interpolates a plane without error', () => {
    const { filled, values, worked } = explore(40, 30, curved)
    expect(filled.reduce((sum, each) => sum + each, 0)).toBe(40 * 30 - worked)
    values.forEach((value, n) => {
      const cell = Math.floor(n / SCORES)
      expect(value).toBeCloseTo(plane(cell % 40, Math.floor(cell / 40), n % SCORES), 9)
    })
  })

  it('bends what it fills in towards the centre of a block', () => {
    const { filled, values } = explore(100, 100, () => 1, hill)
    // between corners alone a block would lie 25 below the hill's top in places
    const errors = [...filled].flatMap((is, cell) =>
      is ? [Math.abs(values[SCORES * cell]! - hill(cell % 100, Math.floor(cell / 100)))] : [],
    )
    expect(Math.max(...errors)).toBeLessThan(7)
  })

  it('misses an island that touches no cell worked out, as it says', () => {
    expect(wrongCells(100, 100, speck)).toBe(1)
  })

  it('sees an island at the centre of a block', () => {
    expect(wrongCells(100, 100, island)).toBe(0)
  })

  it('sees a tongue that touches no cell of the first cut, where the winner beside it is hardly ahead', () => {
    expect(wrongCells(100, 100, tongue, rivals)).toBe(0)
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
