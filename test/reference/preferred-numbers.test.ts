/** The preferred numbers against an independently written list of IEC 60063; its source stands in `preferred-series.ts`. */
import { describe, expect, test } from 'vitest'
import {
  PREFERRED,
  preferredAbove,
  preferredBelow,
  preferredNearest,
  preferredValues,
} from '../../engine/units/index.ts'
import type { PreferredSeries } from '../../engine/units/index.ts'
import { EXCEPTIONS, PUBLISHED_SERIES } from './preferred-series.ts'

const NAMES = Object.keys(PUBLISHED_SERIES) as PreferredSeries[]

describe.each(NAMES)('%s', (series) => {
  test('holds exactly the published values', () => {
    expect(PREFERRED[series]).toEqual(PUBLISHED_SERIES[series])
    expect(PREFERRED[series]).toHaveLength(Number(series.slice(1)))
  })

  test('departs from the rounded powers of ten where the standard does and nowhere else', () => {
    const size = PREFERRED[series].length
    const figures = size > 24 ? 3 : 2
    const departures = PREFERRED[series].flatMap((published, n) => {
      const rounded = Number((10 ** (n / size)).toPrecision(figures))
      return rounded === published ? [] : [[n, published, rounded]]
    })
    expect(departures).toEqual(EXCEPTIONS[series])
  })

  test('repeats over the decades from 1 pF to 10 MΩ as exact decimals', () => {
    for (let decade = -12; decade <= 6; decade++) {
      const expected = PUBLISHED_SERIES[series].map((value) => Number(`${value}e${decade}`))
      const found = preferredValues(series, Number(`1e${decade}`), Number(`9.999e${decade}`))
      expect(found).toEqual(expected)
    }
  })
})

describe('the series among each other (same source)', () => {
  test.each([
    ['E3', 'E6'],
    ['E6', 'E12'],
    ['E12', 'E24'],
    ['E48', 'E96'],
    ['E96', 'E192'],
  ] as const)('%s is every second value of %s', (coarse, fine) => {
    expect(PREFERRED[coarse]).toEqual(PREFERRED[fine].filter((_, index) => index % 2 === 0))
  })

  test('thirteen values of E24 are not in E192', () => {
    const missing = PREFERRED.E24.filter((value) => !PREFERRED.E192.includes(value))
    expect(missing).toEqual([2.2, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 5.1, 5.6, 6.2, 6.8, 8.2, 9.1])
  })
})

describe('choosing a value', () => {
  // the documentation of the "eseries" library, an independent implementation of the same choices
  test('nearest, next and neighbours agree with published answers', () => {
    expect(preferredNearest(319, 'E24')).toBe(330)
    expect(preferredAbove(184, 'E96')).toBe(187)
    expect(preferredNearest(5000, 'E24')).toBe(5100)
    expect(preferredValues('E24', 4700, 5600)).toEqual([4700, 5100, 5600])
  })

  // by hand: 16.9 k / 16834.2 = 1.0039, 16834.2 / 16.5 k = 1.0203
  test('nearest means the smallest ratio', () => {
    expect(preferredNearest(16834.2, 'E96')).toBe(16900)
    expect(preferredBelow(16834.2, 'E96')).toBe(16500)
  })
})
