/** Boards by the thousand for the page: what hands them out, solves a slice of them, and says what all of them are. */
import { type Histogram, histogramOf, sharedWidth } from '../analyses/spread/histogram.ts'
import { type Draw, type SpreadProblem, spreadProblemOf } from '../analyses/spread/problem.ts'
import { type Sampler, type Samples, samplerOf } from '../analyses/spread/samples.ts'
import { type SpreadStatistics, solvedInOrder, statisticsOf } from '../analyses/spread/statistics.ts'
import type { Study } from '../requirements/study.ts'
import { isUnbuilt } from '../sizing/size.ts'
import { TOPOLOGIES } from '../topologies/index.ts'
import type { Sizer } from './sizer.ts'

export type { Histogram } from '../analyses/spread/histogram.ts'
export type { Draw, Distribution, Method, SpreadProblem } from '../analyses/spread/problem.ts'
export type { Samples } from '../analyses/spread/samples.ts'
export type { SpreadStatistics, Yield } from '../analyses/spread/statistics.ts'
export type { SensitiveFigure, Sensitivities } from '../analyses/spread/sensitivities.ts'
export type { WorstCase } from '../analyses/spread/worstCase.ts'

/** What a pool of workers needs to draw boards of each design, in the order of the comparison; undefined where nothing was built. */
export function* spreadProblems(
  study: Study,
  sizer: Sizer,
): Generator<{ done: number; total: number }, (SpreadProblem | undefined)[]> {
  const total = TOPOLOGIES.length
  const sizing = sizer.proven(study)
  let step = sizing.next()
  for (let done = 1; !step.done; step = sizing.next()) yield { done: done++, total }
  return step.value.map((sized) =>
    isUnbuilt(sized) ? undefined : spreadProblemOf(sized.proof.design, study.requirements),
  )
}

/** Samples `from` to `from + count - 1` of one draw. */
export interface BoardSlice {
  readonly problem: SpreadProblem
  readonly draw: Draw
  readonly from: number
  readonly count: number
}

/** So many runs are kept compiled: a run of three designs asks for slices of each in turn. */
const KEPT = 4

/** Solves slices; the samplers used last stay compiled. What it returns is the caller's: nothing of it is kept. */
export function createSlicer(): (slice: BoardSlice) => Samples {
  const samplers = new Map<string, Sampler>()
  return ({ problem, draw, from, count }) => {
    const key = JSON.stringify([problem, draw])
    const sampler = samplers.get(key) ?? samplerOf(problem, draw)
    samplers.delete(key)
    samplers.set(key, sampler)
    if (samplers.size > KEPT) samplers.delete(samplers.keys().next().value!)
    return sampler.take(from, count)
  }
}

/** Histograms on one axis are readable up to so many bins. */
const MOST_BINS = 160

export interface BoardSummary extends SpreadStatistics {
  /** All runs have one bin width; absent where no board has a solution. */
  histogram?: Histogram
}

/** What whole runs say, each in sample order; an entry is undefined where there was no run. `band`: the output allowed, volts. */
export function summariseBoards(
  runs: readonly (Samples | undefined)[],
  band: { readonly low: number; readonly high: number },
): (BoardSummary | undefined)[] {
  const ordered = runs.map((run) => run && solvedInOrder(run))
  const width = sharedWidth(
    ordered.filter((sorted) => sorted !== undefined),
    MOST_BINS,
  )
  return runs.map((run, k) => {
    const sorted = ordered[k]
    if (!run || !sorted) return undefined
    const statistics = statisticsOf(run, sorted, band)
    return width && sorted.length > 0 ? { ...statistics, histogram: histogramOf(sorted, width) } : statistics
  })
}
