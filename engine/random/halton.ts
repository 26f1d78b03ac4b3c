/**
 * Low-discrepancy points: the Halton sequence (J. H. Halton, Numerische Mathematik 2 (1960) 84), every digit of every
 * dimension sent through a permutation of its own that the seed draws (A. B. Owen, "A randomized Halton algorithm in R",
 * arXiv:1706.02808, 2017). Each point by itself is uniform over the unit cube; together they fill it more evenly than
 * independent draws. It needs no table, no number of points agreed beforehand, and any number of dimensions.
 */
import { randomOf } from './index.ts'

/** Digits are kept until their weight is below 2^-RESOLUTION. */
const RESOLUTION = 40

/** Writes point `k`, at least 0 and below 1 in every dimension, to the front of `into`. Depends on the seed and `k` alone. */
export type Points = (k: number, into: Float64Array) => void

interface Dimension {
  readonly base: number
  /** Permutation after permutation, digit by digit: permuted[digit·base + d], already times the digit's weight. */
  readonly permuted: Float64Array
  /** By digit: what it and all later ones add where the index has only zeros left. */
  readonly zeros: Float64Array
}

export function haltonOf(seed: number, dimensions: number): Points {
  const all = primes(dimensions).map((base, j) => dimensionOf(base, seed, j))
  return (k, into) => {
    for (let j = 0; j < dimensions; j++) {
      const { base, permuted, zeros } = all[j]!
      let rest = k
      let sum = 0
      let digit = 0
      for (; rest > 0; digit++) {
        const next = Math.floor(rest / base)
        sum += permuted[digit * base + rest - next * base]!
        rest = next
      }
      into[j] = sum + zeros[digit]!
    }
  }
}

function dimensionOf(base: number, seed: number, j: number): Dimension {
  const random = randomOf(seed, j)
  const digits = Math.ceil((RESOLUTION * Math.LN2) / Math.log(base))
  const permuted = new Float64Array(digits * base)
  const zeros = new Float64Array(digits + 1)
  for (let digit = 0; digit < digits; digit++) {
    const order = shuffled(base, random)
    for (let d = 0; d < base; d++) permuted[digit * base + d] = order[d]! / base ** (digit + 1)
  }
  for (let digit = digits - 1; digit >= 0; digit--) zeros[digit] = zeros[digit + 1]! + permuted[digit * base]!
  return { base, permuted, zeros }
}

/** 0 to count - 1 in a random order, all orders equally likely (R. Durstenfeld, Communications of the ACM 7 (1964) 420). */
function shuffled(count: number, random: () => number): number[] {
  const order = Array.from({ length: count }, (_, d) => d)
  for (let last = count - 1; last > 0; last--) {
    const other = Math.floor(random() * (last + 1))
    const kept = order[last]!
    order[last] = order[other]!
    order[other] = kept
  }
  return order
}

/** The first `count` primes. */
export function primes(count: number): number[] {
  const found: number[] = []
  for (let n = 2; found.length < count; n++) if (found.every((p) => n % p !== 0)) found.push(n)
  return found
}
