/** Axes of a map: values, spacing, and where a value lies. Ours alone: no source but the definition of a geometric series. */
import { describe, expect, it } from 'vitest'
import {
  allowsRatio,
  axisValues,
  MAPPED,
  type MapAxis,
  placeOn,
  usualSpacing,
} from '../../../engine/requirements/index.ts'

const even: MapAxis = { path: 'input.max', from: 20, to: 30, count: 6 }
const ratio: MapAxis = { path: 'load.max', from: 0.001, to: 1, count: 7, spacing: 'ratio' }

describe('an axis', () => {
  it('has equal steps where nothing else is said, both ends included', () => {
    expect(axisValues(even)).toEqual([20, 22, 24, 26, 28, 30])
    expect(axisValues({ ...even, spacing: 'even' })).toEqual(axisValues(even))
  })

  it('by ratio has each value the same number of times the one before, both ends included', () => {
    // four digits of 10^(k/2)
    expect(axisValues(ratio)).toEqual([0.001, 0.003162, 0.01, 0.03162, 0.1, 0.3162, 1])
  })

  it('of one cell has its beginning', () => {
    expect(axisValues({ ...even, count: 1 })).toEqual([20])
    expect(axisValues({ ...ratio, to: ratio.from, count: 1 })).toEqual([0.001])
  })

  it('places each of its values where its cell is, and what is beyond it outside', () => {
    for (const axis of [even, ratio])
      axisValues(axis).forEach((value, k) =>
        // values are rounded to four digits
        expect(placeOn(axis, value)).toBeCloseTo(k / (axis.count - 1), 3),
      )
    expect(placeOn(even, 31)).toBeGreaterThan(1)
    expect(placeOn(ratio, 0.0005)).toBeLessThan(0)
    expect(placeOn(ratio, 0)).toBe(-Infinity)
  })

  it('goes by ratio for what spans decades, and never for degrees Celsius', () => {
    expect(MAPPED.filter((path) => usualSpacing(path) === 'ratio')).toEqual(['load.max', 'limits.loadRegulation'])
    expect(MAPPED.filter((path) => !allowsRatio(path))).toEqual(['ambient.max'])
  })
})
