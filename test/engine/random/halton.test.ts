import { describe, expect, test } from 'vitest'
import { haltonOf, primes } from '../../../engine/random/halton.ts'
import { randomOf } from '../../../engine/random/index.ts'

const pointsOf = (seed: number, dimensions: number, count: number): Float64Array[] => {
  const halton = haltonOf(seed, dimensions)
  return Array.from({ length: count }, (_, k) => {
    const point = new Float64Array(dimensions)
    halton(k, point)
    return point
  })
}

/** Root mean square error of the mean of `f` over a few seeds' points. */
function errorOf(
  f: (u: ArrayLike<number>) => number,
  exact: number,
  draw: (seed: number) => ArrayLike<number>[],
): number {
  const errors = Array.from({ length: 8 }, (_, seed) => {
    const points = draw(seed)
    return points.reduce((sum, u) => sum + f(u), 0) / points.length - exact
  })
  return Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length)
}

describe('haltonOf', () => {
  test('puts one of the first b^m points into each of b^m equal intervals of the dimension of base b', () => {
    const points = pointsOf(5, 6, 3000)
    primes(6).forEach((base, j) => {
      const intervals = base ** Math.floor(Math.log(3000) / Math.log(base))
      const seen = new Set(points.slice(0, intervals).map((point) => Math.floor(point[j]! * intervals)))
      expect(seen.size, `base ${base}`).toBe(intervals)
    })
  })

  test('stays within 0 and 1, whatever the seed', () => {
    for (const seed of [0, 1, 4294967295])
      for (const point of pointsOf(seed, 30, 300)) expect(point.every((u) => u >= 0 && u < 1)).toBe(true)
  })

  test('depends on seed and index alone', () => {
    expect(pointsOf(9, 12, 40)[33]).toEqual(pointsOf(9, 12, 34)[33])
    expect(pointsOf(9, 12, 1)[0]).not.toEqual(pointsOf(10, 12, 1)[0])
  })

  test('gives each point a uniform place of its own over the seeds: mean 1/2, variance 1/12', () => {
    const seeds = Array.from({ length: 2000 }, (_, seed) => pointsOf(seed, 5, 1)[0]![4]!)
    const mean = seeds.reduce((sum, u) => sum + u, 0) / seeds.length
    const variance = seeds.reduce((sum, u) => sum + (u - mean) ** 2, 0) / (seeds.length - 1)
    // four standard errors: sqrt(1/12/2000) = 0.0065; of the variance sqrt((1/80 - 1/144)/2000) = 0.0017
    expect(Math.abs(mean - 0.5)).toBeLessThan(4 * 0.0065)
    expect(Math.abs(variance - 1 / 12)).toBeLessThan(4 * 0.0017)
  })

  test('integrates a sum and a product of many dimensions closer than independent draws do', () => {
    const dimensions = 25
    const count = 4000
    const independent = (seed: number) =>
      Array.from({ length: count }, (_, k) => {
        const random = randomOf(seed, k)
        return Float64Array.from({ length: dimensions }, random)
      })
    const low = (seed: number) => pointsOf(seed, dimensions, count)
    const sum = (u: ArrayLike<number>) => Array.from(u).reduce((all, each) => all + each, 0)
    expect(errorOf(sum, dimensions / 2, low)).toBeLessThan(0.2 * errorOf(sum, dimensions / 2, independent))
    const product = (u: ArrayLike<number>) => Array.from(u).reduce((all, each) => all * (1 + 0.3 * (each - 0.5)), 1)
    expect(errorOf(product, 1, low)).toBeLessThan(0.4 * errorOf(product, 1, independent))
  })
})
