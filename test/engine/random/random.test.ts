import { describe, expect, test } from 'vitest'
import { normalOf, randomOf } from '../../../engine/random/index.ts'

const draws = (seed: number, k: number, count: number) => {
  const random = randomOf(seed, k)
  return Array.from({ length: count }, () => random())
}

const word = (x: bigint) => BigInt.asUintN(32, x)

/** sfc32 as its reference states it, in exact whole numbers: an independent writing of the same recurrence. */
function referenceDraws(seed: bigint, k: bigint, count: number): number[] {
  let [a, b, c, counter] = [0n, word(seed), word(k), 1n]
  const next = () => {
    const result = word(a + b + counter)
    counter = word(counter + 1n)
    a = b ^ (b >> 9n)
    b = word(c + (c << 3n))
    c = word(((c << 21n) | (c >> 11n)) + result)
    return Number(result) / 2 ** 32
  }
  for (let round = 0; round < 12; round++) next()
  return Array.from({ length: count }, next)
}

describe('randomOf', () => {
  // PractRand 0.94, sfc.h, from memory
  test.each([
    [0, 0],
    [1, 2],
    [-7, 123456789],
    [4294967295, 4294967295],
  ])('seed %d, sample %d follows the published recurrence', (seed, k) => {
    expect(draws(seed, k, 100)).toEqual(referenceDraws(BigInt(seed), BigInt(k), 100))
  })

  test('depends on seed and sample alone', () => {
    const one = draws(5, 9, 10)
    draws(6, 1, 3)
    expect(draws(5, 9, 10)).toEqual(one)
    expect(draws(5, 10, 10)).not.toEqual(one)
    expect(draws(6, 9, 10)).not.toEqual(one)
  })

  test('first draws of neighbouring samples are uniform and unrelated', () => {
    const first = Array.from({ length: 20_000 }, (_, k) => randomOf(42, k)())
    expect(first.every((u) => u >= 0 && u < 1)).toBe(true)
    // chi-square over 20 bins, 19 degrees of freedom: 43.8 is exceeded once in a thousand
    const bins = Array.from({ length: 20 }, () => 0)
    for (const u of first) bins[Math.floor(20 * u)]!++
    expect(bins.reduce((sum, n) => sum + (n - 1000) ** 2 / 1000, 0)).toBeLessThan(43.8)
    const product = first.slice(1).reduce((sum, u, k) => sum + (u - 0.5) * (first[k]! - 0.5), 0)
    // correlation of neighbours: standard deviation 1 / sqrt(n)
    expect(Math.abs((12 * product) / first.length)).toBeLessThan(4 / Math.sqrt(first.length))
  })
})

describe('normalOf', () => {
  test('has mean 0, deviation 1 and the tails of the normal distribution', () => {
    const random = randomOf(7, 0)
    const count = 50_000
    const sample = Array.from({ length: count }, () => normalOf(random))
    const mean = sample.reduce((sum, x) => sum + x, 0) / count
    const variance = sample.reduce((sum, x) => sum + (x - mean) ** 2, 0) / count
    expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(count))
    expect(Math.abs(variance - 1)).toBeLessThan(4 * Math.sqrt(2 / count))
    // tabulated: 4.55 % of a normal distribution lie beyond two deviations
    const beyond = sample.filter((x) => Math.abs(x) > 2).length / count
    expect(Math.abs(beyond - 0.0455)).toBeLessThan(4 * Math.sqrt((0.0455 * 0.9545) / count))
    expect(sample.every(Number.isFinite)).toBe(true)
  })
})
