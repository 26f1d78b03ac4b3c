/** Repeatable random numbers: sample k of a run depends on the seed and k alone, so order and slicing cannot change a result. */

/** Returns the next number, at least 0 and below 1, with 32 random bits. */
export type Random = () => number

/** Rounds that are thrown away so that similar keys part company; 12 is the reference's choice for a 64-bit key. */
const WARM_UP = 12

/**
 * Generator for sample `k` of a run with the given `seed`; both are taken modulo 2^32.
 * Algorithm: sfc32 of Chris Doty-Humphrey's PractRand test suite (version 0.94, `sfc.h`), 128 bits of state of which 32 are a counter:
 * a period of at least 2^32 for every key. The reference's two-word seeding is kept: a = 0, b and c the key, counter 1.
 */
export function randomOf(seed: number, k: number): Random {
  let a = 0
  let b = seed | 0
  let c = k | 0
  let counter = 1
  const next = () => {
    const result = (((a + b) | 0) + counter) | 0
    counter = (counter + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = (((c << 21) | (c >>> 11)) + result) | 0
    return (result >>> 0) / 2 ** 32
  }
  for (let round = 0; round < WARM_UP; round++) next()
  return next
}

/**
 * A draw from the standard normal distribution: mean 0, standard deviation 1.
 * Source: G. E. P. Box and M. E. Muller, "A Note on the Generation of Random Normal Deviates", Annals of Mathematical Statistics 29 (1958) 610.
 */
export function normalOf(random: Random): number {
  // 1 - u is never 0, so the logarithm is finite
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
}
