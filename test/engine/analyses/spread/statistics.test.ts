import { describe, expect, test } from 'vitest'
import { binWidth, histogramOf, sharedWidth } from '../../../../engine/analyses/spread/histogram.ts'
import { percentileOf, solvedInOrder, statisticsOf, wilson } from '../../../../engine/analyses/spread/statistics.ts'

const samplesOf = (values: readonly number[]) => ({
  values: Float64Array.from(values),
  outcomes: Uint8Array.from(values, (v) => (Number.isNaN(v) ? 1 : 0)),
})

describe('percentileOf', () => {
  // Hyndman and Fan, definition 7, by hand: 1 + (n - 1)·p
  test('lies between the order statistics at 1 + (n - 1)·p', () => {
    expect(percentileOf([1, 2, 3, 4, 5], 0.5)).toBe(3)
    expect(percentileOf([1, 2, 3, 4, 10], 0.9)).toBeCloseTo(7.6, 12)
    expect(percentileOf([6, 7, 15, 36, 39, 40], 0.25)).toBeCloseTo(9, 12)
    expect(percentileOf([6, 7, 15, 36, 39, 40], 0.75)).toBeCloseTo(38.25, 12)
  })

  test('is the least and the greatest at the ends, and the value itself of one board', () => {
    expect(percentileOf([2, 3, 8], 0)).toBe(2)
    expect(percentileOf([2, 3, 8], 1)).toBe(8)
    expect(percentileOf([4], 0.3)).toBe(4)
  })
})

describe('wilson', () => {
  // R. G. Newcombe, "Two-sided confidence intervals for the single proportion", Statistics in Medicine 17 (1998) 857,
  // table I, method 3 (score without continuity correction); from memory
  test.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('gives the published ends for %d of %d', (hits, trials, low, high) => {
    const found = wilson(hits, trials, 0.95)
    expect(found.low).toBeCloseTo(low, 4)
    expect(found.high).toBeCloseTo(high, 4)
  })

  test('mirrors: failures have the interval of hits turned round, and all hits leave room below alone', () => {
    const hits = wilson(997, 1000, 0.95)
    const failures = wilson(3, 1000, 0.95)
    expect(hits.low).toBeCloseTo(1 - failures.high, 12)
    expect(hits.high).toBeCloseTo(1 - failures.low, 12)
    const all = wilson(1000, 1000, 0.95)
    expect(all.high).toBe(1)
    expect(all.low).toBeGreaterThan(0.99)
    expect(all.low).toBeLessThan(1)
  })
})

describe('statisticsOf', () => {
  test('counts a board without a solution apart and never as a number', () => {
    const samples = samplesOf([5.1, NaN, 4.9, 5.3, 4.6, NaN])
    const found = statisticsOf(samples, solvedInOrder(samples), { low: 4.7, high: 5.3 })
    expect(found.boards).toBe(6)
    expect(found.solved).toBe(4)
    expect(found.unsolved).toEqual([{ outcome: 'iterationLimit', boards: 2 }])
    expect(found.mean).toBeCloseTo((5.1 + 4.9 + 5.3 + 4.6) / 4, 12)
    // on the edge of the band is inside it
    expect(found.yield).toMatchObject({ inside: 3, below: 1, above: 0, share: 0.75 })
    expect(found.lowest).toBe(4.6)
    expect(found.highest).toBe(5.3)
    expect(JSON.stringify(found)).not.toContain('null')
  })

  test('says nothing of boards none of which has a solution, and no deviation of a single one', () => {
    const none = samplesOf([NaN, NaN])
    expect(statisticsOf(none, solvedInOrder(none), { low: 0, high: 1 })).toEqual({
      boards: 2,
      solved: 0,
      unsolved: [{ outcome: 'iterationLimit', boards: 2 }],
      percentiles: [],
    })
    const one = samplesOf([3])
    expect(statisticsOf(one, solvedInOrder(one), { low: 0, high: 1 }).standardDeviation).toBeUndefined()
  })

  test('gives the standard deviation with n - 1', () => {
    const samples = samplesOf([2, 4, 4, 4, 5, 5, 7, 9])
    const found = statisticsOf(samples, solvedInOrder(samples), { low: 0, high: 10 })
    expect(found.standardDeviation).toBeCloseTo(Math.sqrt(32 / 7), 12)
  })
})

describe('histograms', () => {
  const even = Float64Array.from({ length: 1001 }, (_, k) => k / 1000)

  test('have the Freedman-Diaconis width, rounded down to 1, 2 or 5', () => {
    // IQR 0.5, n 1001: 2·0.5/1001^(1/3) = 0.09997
    expect(binWidth(even)).toBe(0.05)
    expect(binWidth(even.map((v) => v * 1.01))).toBe(0.1)
  })

  test('hold every board once, in bins whose edges are whole multiples of the width', () => {
    const { from, width, counts } = histogramOf(Float64Array.of(-0.3, 0.1, 0.12, 0.19, 0.55), 0.2)
    expect(from).toBeCloseTo(-0.4, 12)
    expect(width).toBe(0.2)
    expect(counts).toEqual([1, 0, 3, 0, 1])
  })

  test('of boards that all agree are one bin', () => {
    const same = Float64Array.of(5, 5, 5)
    expect(histogramOf(same, binWidth(same)).counts).toEqual([3])
  })

  test('on one axis share the finest width that leaves the widest no more bins than asked for', () => {
    const narrow = even.map((v) => v * 0.01)
    expect(sharedWidth([even, narrow], 10_000)).toBe(binWidth(narrow))
    const shared = sharedWidth([even, narrow], 200)!
    expect(shared).toBe(0.005)
    expect(histogramOf(even, shared).counts.length).toBeLessThanOrEqual(201)
    expect(sharedWidth([new Float64Array(0)], 200)).toBeUndefined()
  })
})
