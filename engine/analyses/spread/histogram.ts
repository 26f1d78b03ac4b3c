/** How many boards fall into each of a row of equal bins. */
import { percentileOf } from './statistics.ts'

export interface Histogram {
  /** Where the first bin begins: a whole multiple of the width, so that histograms of one width share their edges. */
  from: number
  width: number
  counts: number[]
}

/** Bins more than this are noise on any screen. */
const MOST_BINS = 400

/**
 * Width of a bin: 2·IQR·n^(-1/3) of D. Freedman and P. Diaconis, "On the histogram as a density estimator: L2 theory",
 * Zeitschrift für Wahrscheinlichkeitstheorie 57 (1981) 453, rounded down in the 1-2-5 series so that edges can be read. Where
 * half of the boards agree it is taken from the whole range instead. `sorted` must not be empty.
 */
export function binWidth(sorted: Float64Array): number {
  const whole = sorted.at(-1)! - sorted[0]!
  const quartiles = percentileOf(sorted, 0.75) - percentileOf(sorted, 0.25)
  const wanted = (2 * (quartiles > 0 ? quartiles : whole)) / Math.cbrt(sorted.length)
  if (!(whole > 0)) return roundDown(Math.max(Math.abs(sorted[0]!), 1e-9) * 1e-6)
  return Math.max(roundDown(wanted), roundDown(whole / MOST_BINS))
}

/** The largest number of the series 1, 2, 5, 10, … that is not above `width`. */
function roundDown(width: number): number {
  const power = Math.floor(Math.log10(width) + 1e-12)
  const lead = width / 10 ** power
  return Number(`${lead >= 5 ? 5 : lead >= 2 ? 2 : 1}e${power}`)
}

/** Counts ascending values in bins of `width` at whole multiples of it; a value on an edge falls into the bin above. */
export function histogramOf(sorted: Float64Array, width: number): Histogram {
  const first = Math.floor(sorted[0]! / width)
  const counts = Array.from({ length: Math.floor(sorted.at(-1)! / width) - first + 1 }, () => 0)
  for (const value of sorted) counts[Math.floor(value / width) - first]! += 1
  return { from: first * width, width, counts }
}

/**
 * One width for several runs on one axis: the finest of their own, but no finer than leaves the widest of them `most` bins.
 * Runs without a solved board are empty.
 */
export function sharedWidth(runs: readonly Float64Array[], most: number): number | undefined {
  const solved = runs.filter((sorted) => sorted.length > 0)
  if (solved.length === 0) return undefined
  const finest = Math.min(...solved.map(binWidth))
  const widest = Math.max(...solved.map((sorted) => sorted.at(-1)! - sorted[0]!))
  const coarsest = widest > 0 ? roundUp(widest / most) : finest
  return Math.max(finest, coarsest)
}

function roundUp(width: number): number {
  const down = roundDown(width)
  if (down >= width * (1 - 1e-12)) return down
  return roundDown(down * 2.5 * (1 + 1e-12))
}
