/** From the boards of one run, in their order, to what is said of them. */
import { normalQuantile } from '../../random/quantile.ts'
import { OUTCOMES, type OutcomeName } from '../../solve/index.ts'
import type { Samples } from './samples.ts'

/** Share of boards that are inside the band, and an interval for it. Shares are fractions, 0 to 1. */
export interface Yield {
  inside: number
  below: number
  above: number
  share: number
  /** Ends of the Wilson score interval. */
  low: number
  high: number
  confidence: number
}

export interface Percentile {
  /** Share of the boards at or below it, a fraction. */
  share: number
  value: number
}

/** In the unit of the samples; what is not defined (a spread of one board, a mean of none) is absent. */
export interface SpreadStatistics {
  boards: number
  /** Boards with a solution: every number below is of these alone. */
  solved: number
  /** Boards without one, by outcome. */
  unsolved: { outcome: OutcomeName; boards: number }[]
  mean?: number
  /** Of the sample, with n - 1. */
  standardDeviation?: number
  lowest?: number
  highest?: number
  percentiles: Percentile[]
  /** Ends of the middle 99.7 % of the boards, by percentile. */
  middle?: { low: number; high: number }
  yield?: Yield
}

/** Shares at which percentiles are given. */
const SHARES = [0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99]
/** What a normal distribution has within 3 sigma, to three figures: the usual name of the interval. */
const MIDDLE = 0.997
const CONFIDENCE = 0.95

/** The solved samples in ascending order. */
export function solvedInOrder({ values, outcomes }: Samples): Float64Array {
  return values.filter((_, k) => outcomes[k] === 0).toSorted()
}

/** `band`: the lowest and highest value allowed. `sorted`: the solved samples in ascending order. */
export function statisticsOf(
  samples: Samples,
  sorted: Float64Array,
  band: { readonly low: number; readonly high: number },
): SpreadStatistics {
  const boards = samples.values.length
  const solved = sorted.length
  const statistics: SpreadStatistics = { boards, solved, unsolved: unsolvedOf(samples), percentiles: [] }
  if (solved === 0) return statistics
  const mean = sorted.reduce((sum, v) => sum + v, 0) / solved
  return {
    ...statistics,
    mean,
    ...(solved > 1 && {
      standardDeviation: Math.sqrt(sorted.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (solved - 1)),
    }),
    lowest: sorted[0]!,
    highest: sorted.at(-1)!,
    percentiles: SHARES.map((share) => ({ share, value: percentileOf(sorted, share) })),
    middle: {
      low: percentileOf(sorted, (1 - MIDDLE) / 2),
      high: percentileOf(sorted, (1 + MIDDLE) / 2),
    },
    yield: yieldOf(sorted, band),
  }
}

function unsolvedOf({ outcomes }: Samples): SpreadStatistics['unsolved'] {
  const counts = OUTCOMES.map((outcome, code) => ({
    outcome,
    boards: code === 0 ? 0 : outcomes.reduce((n, found) => (found === code ? n + 1 : n), 0),
  }))
  return counts.filter(({ boards }) => boards > 0)
}

/**
 * Linear between the order statistics at 1 + (n - 1)·share: definition 7 of R. J. Hyndman and Y. Fan, "Sample Quantiles in
 * Statistical Packages", The American Statistician 50 (1996) 361. The values must be in ascending order and not empty.
 */
export function percentileOf(sorted: ArrayLike<number>, share: number): number {
  const at = (sorted.length - 1) * share
  const below = Math.floor(at)
  const value = sorted[below]!
  return below + 1 < sorted.length ? value + (at - below) * (sorted[below + 1]! - value) : value
}

function yieldOf(sorted: Float64Array, band: { readonly low: number; readonly high: number }): Yield {
  const below = sorted.reduce((n, v) => (v < band.low ? n + 1 : n), 0)
  const above = sorted.reduce((n, v) => (v > band.high ? n + 1 : n), 0)
  const inside = sorted.length - below - above
  return {
    inside,
    below,
    above,
    share: inside / sorted.length,
    ...wilson(inside, sorted.length, CONFIDENCE),
    confidence: CONFIDENCE,
  }
}

/**
 * Score interval for a share of which `hits` of `trials` independent draws were seen: E. B. Wilson, "Probable Inference, the
 * Law of Succession, and Statistical Inference", Journal of the American Statistical Association 22 (1927) 209. It keeps
 * sensible ends where all or none were hits. 81 of 263 at 95 %: 0.2553 to 0.3662.
 */
export function wilson(hits: number, trials: number, confidence: number): { low: number; high: number } {
  const z = normalQuantile((1 + confidence) / 2)
  const share = hits / trials
  const spread = z * Math.sqrt((share * (1 - share)) / trials + (z / (2 * trials)) ** 2)
  const centre = share + z ** 2 / (2 * trials)
  const whole = 1 + z ** 2 / trials
  return {
    low: hits === 0 ? 0 : Math.max(0, (centre - spread) / whole),
    high: hits === trials ? 1 : Math.min(1, (centre + spread) / whole),
  }
}
