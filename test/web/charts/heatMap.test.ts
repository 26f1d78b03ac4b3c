/** Bands and contours against fields whose areas and lines are known by hand; classes and tables of invented maps. */
import { describe, expect, it } from 'vitest'
import type { HeatMap } from '../../../engine/analyses/heatMap.ts'
import { type Field, bandPath, clipped, contourOf, fieldAt, gapPath } from '../../../web/charts/heatMap/bands.ts'
import { boundariesOf, fieldOf } from '../../../web/charts/heatMap/field.ts'
import { mapNumbers } from '../../../web/panels/range/tables.ts'

const grid = (xs: number[], ys: number[], of: (x: number, y: number) => number): Field => ({
  xs,
  ys,
  values: Float64Array.from(ys.flatMap((y) => xs.map((x) => of(x, y)))),
})
const place = (x: number, y: number) => `${x} ${y}`

/** Area of all polygons of a path, by the shoelace formula. */
function areaOf(path: string): number {
  return path
    .split('Z')
    .filter((piece) => piece !== '')
    .reduce((sum, piece) => {
      const points = piece
        .slice(1)
        .split('L')
        .map((pair) => pair.split(' ').map(Number) as [number, number])
      const twice = points.reduce((all, [x, y], k) => {
        const [nx, ny] = points[(k + 1) % points.length]!
        return all + x * ny - nx * y
      }, 0)
      return sum + Math.abs(twice) / 2
    }, 0)
}

const plane = grid([0, 1, 2, 3, 4], [0, 1, 2], (x) => x)

describe('bands', () => {
  it('cover exactly where a plane is at least the level', () => {
    expect(areaOf(bandPath(plane, 1.25, place))).toBeCloseTo(2 * 2.75, 9)
    expect(areaOf(bandPath(plane, 0, place))).toBeCloseTo(8, 9)
    expect(bandPath(plane, 4.1, place)).toBe('')
    const slanted = grid([0, 1, 2], [0, 1, 2], (x, y) => x + y)
    // the triangle above x + y = 3 in a square of 2 by 2
    expect(areaOf(bandPath(slanted, 3, place))).toBeCloseTo(0.5, 9)
  })

  it('join cells wholly above the level along their row', () => {
    expect(bandPath(plane, 0, place).match(/M/gu)).toHaveLength(2)
  })

  it('leave out cells without a solution, which are a gap of their own', () => {
    const holed = grid([0, 1, 2], [0, 1], (x) => (x === 2 ? NaN : 5))
    expect(areaOf(bandPath(holed, 1, place))).toBeCloseTo(1, 9)
    expect(areaOf(gapPath(holed, place))).toBeCloseTo(1, 9)
    expect(gapPath(plane, place)).toBe('')
    expect(contourOf(holed, 1, place)).toEqual({ path: '', label: undefined })
  })

  it('clip a triangle to nothing, to itself, to three and to four corners', () => {
    const triangle = [0, 1, 2].map((v) => ({ x: v, y: v % 2, v }))
    expect([3, 0, 1.5, 0.5].map((level) => clipped(triangle, level).length)).toEqual([0, 3, 3, 4])
  })
})

describe('contours', () => {
  it('lie where the field has the level, with a label off the edges', () => {
    const { path, label } = contourOf(plane, 2.5, place)
    const xs = [...path.matchAll(/[ML]([\d.]+) /gu)].map(([, x]) => Number(x))
    expect(xs.length).toBeGreaterThan(3)
    expect(xs.every((x) => Math.abs(x - 2.5) < 1e-9)).toBe(true)
    expect(label!.x).toBeCloseTo(2.5, 9)
  })
})

describe('a value between the points', () => {
  it('is bilinear, and no number outside or beside a hole', () => {
    const saddle = grid([0, 1, 2], [0, 2], (x, y) => x * y)
    expect(fieldAt(saddle, 0.5, 1)).toBeCloseTo(0.5, 12)
    expect(fieldAt(saddle, 2, 2)).toBe(4)
    expect(fieldAt(saddle, 2.1, 1)).toBeNaN()
    const holed = grid([0, 1, 2], [0, 1], (x) => (x === 2 ? NaN : x))
    expect(fieldAt(holed, 1.5, 0.5)).toBeNaN()
    expect(fieldAt(holed, 1, 0.5)).toBe(1)
  })
})

const map: HeatMap = {
  inputs: [10, 11, 12],
  loads: [0, 0.1],
  points: [
    { input: 10, load: 0, output: 5, heat: 0.01, hottest: 21 },
    { input: 11, load: 0, output: 5, heat: 0.02, hottest: 22 },
    { input: 10, load: 0.1, output: 5, heat: 0.5, hottest: 60 },
    { input: 12, load: 0.1, output: 5, heat: 3, hottest: 90 },
  ],
}

describe('a map', () => {
  it('becomes a field with holes where a point is missing', () => {
    expect([...fieldOf(map, ({ heat }) => heat).values]).toEqual([0.01, 0.02, NaN, 0.5, NaN, 3])
  })

  it('has five boundaries of the 1-2-5 series below its hottest point, shared with the others', () => {
    expect(boundariesOf([map, undefined])).toEqual([0.1, 0.2, 0.5, 1, 2])
    expect(boundariesOf([map, { ...map, points: [{ ...map.points[3]!, heat: 7 }] }])).toEqual([0.2, 0.5, 1, 2, 5])
    expect(boundariesOf([undefined])).toEqual([])
  })

  it('is a table with a dash where there is no solution', () => {
    const { head, rows } = mapNumbers(map)
    expect(head.map((text) => text.replaceAll('\u202F', ' '))).toEqual(['Load', '10.0 V', '12.0 V'])
    expect(rows.map((row) => row.map((text) => text.replaceAll('\u202F', ' ')))).toEqual([
      ['0 A', '10.0 mW', '–'],
      ['100 mA', '500 mW', '3.00 W'],
    ])
  })
})
