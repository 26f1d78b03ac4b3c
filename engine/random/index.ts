/** Repeatable random numbers: sample k of a run depends on the seed and k alone, so order and slicing cannot change a result. */

/** Returns the next number, at least 0 and below 1, with 32 random bits. */
export type Random = () => number

/** Rounds that are thrown away so that similar keys part company; 12 is the reference's choice for a 64-bit key. */
const WARM_UP = 12

/** A generator that can be set to another key without making a new one: for loops that draw for many samples. */
export interface Stream {
  /** Begins sample `k` of the run `seed`; both are taken modulo 2^32. */
  start(seed: number, k: number): void
  readonly next: Random
}

/**
 * Algorithm: sfc32 of Chris Doty-Humphrey's PractRand test suite (version 0.94, `sfc.h`), 128 bits of state of which 32 are a counter:
 * a period of at least 2^32 for every key. The reference's two-word seeding is kept: a = 0, b and c the key, counter 1.
 */
export function newStream(): Stream {
  // a typed array: 32-bit numbers in plain variables can cost an allocation each
  const state = new Int32Array(4)
  const next = () => {
    const b = state[1]!
    const c = state[2]!
    const result = (((state[0]! + b) | 0) + state[3]!) | 0
    state[3]! += 1
    state[0] = b ^ (b >>> 9)
    state[1] = c + (c << 3)
    state[2] = ((c << 21) | (c >>> 11)) + result
    return (result >>> 0) / 2 ** 32
  }
  return {
    next,
    start(seed, k) {
      state[0] = 0
      state[1] = seed | 0
      state[2] = k | 0
      state[3] = 1
      for (let round = 0; round < WARM_UP; round++) next()
    },
  }
}

/** Generator for sample `k` of a run with the given `seed`; both are taken modulo 2^32. */
export function randomOf(seed: number, k: number): Random {
  const stream = newStream()
  stream.start(seed, k)
  return stream.next
}

/**
 * A draw from the standard normal distribution: mean 0, standard deviation 1.
 * Source: G. E. P. Box and M. E. Muller, "A Note on the Generation of Random Normal Deviates", Annals of Mathematical Statistics 29 (1958) 610.
 */
export function normalOf(random: Random): number {
  // 1 - u is never 0, so the logarithm is finite
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
}
