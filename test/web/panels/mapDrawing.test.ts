/** Lines and labels of the map of where each wins. */
import { describe, expect, it } from 'vitest'
import type { MapAxis } from '../../../engine/requirements/index.ts'
import { type Corner, contours } from '../../../web/panels/map/contours.ts'
import { pictureShare, ticksOf } from '../../../web/panels/map/ticks.ts'

/** Every unit edge that lines run along, as sorted texts. */
function edgesOf(lines: readonly (readonly Corner[])[]): string[] {
  const name = ([c, r]: Corner): string => `${c},${r}`
  return lines
    .flatMap((line) =>
      line.slice(1).flatMap((to, k) => {
        const from = line[k]!
        const steps = Math.abs(to[0] - from[0]) + Math.abs(to[1] - from[1])
        return Array.from({ length: steps }, (_, n): string => {
          const at = (share: number): Corner => [
            from[0] + ((to[0] - from[0]) * share) / steps,
            from[1] + ((to[1] - from[1]) * share) / steps,
          ]
          return [name(at(n)), name(at(n + 1))].toSorted().join(' ')
        })
      }),
    )
    .toSorted()
}

describe('lines between cells', () => {
  it('run once along every edge between cells that differ, and along no other', () => {
    // 4 columns, 3 rows, the lowest first; two diagonal neighbours among them, where four edges meet
    const cells = [0, 0, 1, 1, 0, 1, 0, 1, 1, 0, 0, 1]
    const expected: string[] = []
    for (let row = 0; row < 3; row++)
      for (let column = 0; column < 4; column++) {
        const cell = column + 4 * row
        const corner = `${column + 1},${row + 1}`
        if (column < 3 && cells[cell] !== cells[cell + 1])
          expected.push([`${column + 1},${row}`, corner].toSorted().join(' '))
        if (row < 2 && cells[cell] !== cells[cell + 4])
          expected.push([`${column},${row + 1}`, corner].toSorted().join(' '))
      }
    expect(edgesOf(contours(4, 3, (a, b) => cells[a] !== cells[b]))).toEqual(expected.toSorted())
  })

  it('are one line where one line does, without a corner on the straight', () => {
    const isLeft = (cell: number): boolean => cell % 5 < 2
    expect(contours(5, 4, (a, b) => isLeft(a) !== isLeft(b))).toEqual([
      [
        [2, 0],
        [2, 4],
      ],
    ])
    // an island is closed
    const [island, ...others] = contours(5, 4, (a, b) => (a === 6) !== (b === 6))
    expect(others).toEqual([])
    expect(island!.at(0)).toEqual(island!.at(-1))
    expect(island).toHaveLength(5)
  })
})

describe('labels of an axis', () => {
  const even: MapAxis = { path: 'input.max', from: 11.2, to: 18.6, count: 25 }
  const ratio: MapAxis = { path: 'load.max', from: 0.018, to: 0.9, count: 25, spacing: 'ratio' }

  it('are round values within the axis, no more than there is room for', () => {
    for (const most of [2, 4, 6, 9]) {
      const values = ticksOf(even, most).map(({ value }) => value)
      expect(values.length).toBeLessThanOrEqual(most)
      expect(values.length).toBeGreaterThan(0)
      expect(values.every((value) => value >= even.from && value <= even.to)).toBe(true)
    }
    expect(ticksOf(even, 8).map(({ text }) => text.replaceAll('\u202F', ' '))).toEqual([
      '12 V',
      '13 V',
      '14 V',
      '15 V',
      '16 V',
      '17 V',
      '18 V',
    ])
  })

  it('stand by ratio where the axis does: each decade is as wide as the next', () => {
    const ticks = ticksOf(ratio, 7)
    expect(ticks.map(({ value }) => value)).toEqual([0.02, 0.05, 0.1, 0.2, 0.5])
    const placeOf = (value: number): number => ticks.find((tick) => tick.value === value)!.place
    // relative 1e-9: a difference of logarithms
    expect(placeOf(0.2) - placeOf(0.02)).toBeCloseTo(placeOf(0.5) - placeOf(0.05), 9)
    expect(placeOf(0.1) - placeOf(0.05)).toBeCloseTo(placeOf(0.2) - placeOf(0.1), 9)
  })

  it('stand in the middle of the cell that has their value', () => {
    expect(pictureShare(even, even.from)).toBeCloseTo(0.5 / 25, 12)
    expect(pictureShare(ratio, ratio.to)).toBeCloseTo(24.5 / 25, 12)
    // the sixth of 25 cells by ratio
    expect(pictureShare(ratio, 0.018 * 50 ** (5 / 24))).toBeCloseTo(5.5 / 25, 9)
  })
})
