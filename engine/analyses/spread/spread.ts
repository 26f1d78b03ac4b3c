/** The Monte Carlo run of one design as the headless run prints it: a fixed draw, its statistics and its histogram. */
import type { Proof } from '../prove.ts'
import { type Histogram, binWidth, histogramOf } from './histogram.ts'
import { type Draw, spreadProblemOf } from './problem.ts'
import { type Samples, samplerOf } from './samples.ts'
import { type SpreadStatistics, solvedInOrder, statisticsOf } from './statistics.ts'

export interface Spread extends Draw {
  /** Of the output voltage, temperatures settled. */
  output: SpreadStatistics & { histogram?: Histogram }
}

/** The draw of the headless run; the page begins with it too. Any other seed is as good. */
export const STANDARD_DRAW: Draw = { seed: 1, method: 'random', distribution: 'uniform' }
export const STANDARD_BOARDS = 10_000
/** Boards between two yields: some milliseconds. */
const SLICE = 250

export function* spreadOf({ design, requirements }: Proof): Generator<void, Spread> {
  const sampler = samplerOf(spreadProblemOf(design, requirements), STANDARD_DRAW)
  const samples = emptySamples(STANDARD_BOARDS)
  for (let from = 0; from < STANDARD_BOARDS; from += SLICE) {
    putSamples(samples, from, sampler.take(from, Math.min(SLICE, STANDARD_BOARDS - from)))
    yield
  }
  const sorted = solvedInOrder(samples)
  const statistics = statisticsOf(samples, sorted, bandOf(requirements))
  const output = sorted.length > 0 ? { ...statistics, histogram: histogramOf(sorted, binWidth(sorted)) } : statistics
  return { ...STANDARD_DRAW, output }
}

/** The lowest and highest output allowed, in volts. */
export function bandOf({ output }: Proof['requirements']): { low: number; high: number } {
  return { low: output.voltage * (1 - output.tolerance), high: output.voltage * (1 + output.tolerance) }
}

export const emptySamples = (boards: number): Samples => ({
  values: new Float64Array(boards),
  outcomes: new Uint8Array(boards),
})

/** Puts a slice where it belongs in the whole. */
export function putSamples(whole: Samples, from: number, slice: Samples): void {
  whole.values.set(slice.values, from)
  whole.outcomes.set(slice.outcomes, from)
}
