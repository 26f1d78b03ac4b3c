import { describe, expect, test } from 'vitest'
import { preferredAbove, preferredBelow, preferredNearest, preferredValues } from '../../../engine/units/index.ts'
import type { PreferredSeries } from '../../../engine/units/index.ts'
import { PUBLISHED_SERIES } from '../../reference/preferred-series.ts'
import { randomOf } from '../../../engine/random/index.ts'

const NAMES = Object.keys(PUBLISHED_SERIES) as PreferredSeries[]

describe('preferred values', () => {
  test('a value that floating error has moved is still itself, from both sides', () => {
    let checked = 0
    const wrong: string[] = []
    for (const series of NAMES) {
      for (const exact of preferredValues(series, 1e-12, 9.99e6)) {
        for (const dust of [-1e-10, -1e-15, 0, 1e-15, 1e-10]) {
          const moved = exact * (1 + dust)
          const found = [preferredBelow, preferredAbove, preferredNearest].map((choose) => choose(moved, series))
          if (found.some((value) => value !== exact)) wrong.push(`${moved} in ${series}: ${found.join(', ')}`)
          checked++
        }
      }
    }
    expect(wrong).toEqual([])
    expect(checked).toBe(19 * 381 * 5)
  })

  test('a real difference is not taken for floating error', () => {
    expect(preferredBelow(4700 * (1 - 1e-6), 'E24')).toBe(4300)
    expect(preferredAbove(4700 * (1 + 1e-6), 'E24')).toBe(5100)
  })

  test('below and above are neighbours around any value', () => {
    for (let k = 0; k < 2000; k++) {
      const random = randomOf(1, k)
      const value = 10 ** (18 * random() - 12)
      const series = NAMES[Math.floor(random() * NAMES.length)]!
      const [below, above] = [preferredBelow(value, series), preferredAbove(value, series)]
      expect(below).toBeLessThanOrEqual(value * (1 + 1e-9))
      expect(above).toBeGreaterThanOrEqual(value * (1 - 1e-9))
      const between = preferredValues(series, below, above)
      expect(between).toEqual(below === above ? [below] : [below, above])
      expect([below, above]).toContain(preferredNearest(value, series))
    }
  })

  test('the decade is crossed in both directions', () => {
    expect(preferredBelow(9.95, 'E192')).toBe(9.88)
    expect(preferredAbove(9.95, 'E192')).toBe(10)
    expect(preferredBelow(0.999, 'E3')).toBe(0.47)
    expect(preferredValues('E3', 0.4, 50)).toEqual([0.47, 1, 2.2, 4.7, 10, 22, 47])
  })

  test.each([0, -1, NaN, Infinity])('%d has no preferred neighbour', (value) => {
    expect(preferredBelow(value, 'E24')).toBeNaN()
    expect(preferredAbove(value, 'E24')).toBeNaN()
    expect(preferredNearest(value, 'E24')).toBeNaN()
    expect(preferredValues('E24', value, 10)).toEqual([])
    expect(preferredValues('E24', 20, 10)).toEqual([])
  })
})
