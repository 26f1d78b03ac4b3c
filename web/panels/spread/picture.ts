/** Where histograms and intervals lie on the one axis that all topologies share. */
import type { BoardSummary, Histogram, WorstCase } from '../../../engine/compare/boards.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import { type ValueAxis, fractionOf, roundAxis } from '../../charts/scale.ts'
import { tickText } from '../../charts/plot.ts'

export interface Band {
  readonly low: number
  readonly high: number
}

export interface Interval {
  readonly id: 'corners' | 'rootSumSquare' | 'middle'
  readonly label: string
  readonly low: number
  readonly high: number
  /** Whether an end lies outside the band. */
  readonly isOutside: boolean
}

/** Everything drawn of one design. */
export interface SpreadPicture {
  readonly intervals: readonly Interval[]
  /** Outlines in a box 1000 wide and 100 high, bottom up: boards inside the band, and outside it. */
  readonly inside: string
  readonly outside: string
}

export interface SpreadPictures {
  readonly axis: ValueAxis
  readonly ticks: readonly { readonly across: number; readonly text: string }[]
  readonly band: { readonly from: number; readonly to: number }
  /** By design; undefined where nothing was built. */
  readonly designs: readonly (SpreadPicture | undefined)[]
  /** Boards in the tallest bin of all. */
  readonly tallest: number
}

/** Of the drawing box. */
const WIDTH = 1000
const HEIGHT = 100
/** Steps of the axis, at most. */
const STEPS = 10

export function picturesOf(
  summaries: readonly (BoardSummary | undefined)[],
  inspection: Inspection,
  band: Band,
  hasOwnHeights: boolean,
): SpreadPictures {
  const intervals = inspection.map(({ worstCase }, k) => intervalsOf(worstCase, summaries[k], band))
  const drawn = intervals.flat()
  const axis = roundAxis(
    Math.min(band.low, ...drawn.map(({ low }) => low)),
    Math.max(band.high, ...drawn.map(({ high }) => high)),
    STEPS,
  )
  const peaks = summaries.map((summary) => Math.max(0, ...(summary?.histogram?.counts ?? [])))
  const tallest = Math.max(...peaks, 1)
  return {
    axis,
    ticks: Array.from({ length: Math.round((axis.max - axis.min) / axis.step) + 1 }, (_, k) => {
      const value = axis.min + k * axis.step
      return { across: fractionOf(value, axis), text: tickText(value, axis.step) }
    }),
    band: { from: fractionOf(band.low, axis), to: fractionOf(band.high, axis) },
    designs: inspection.map(({ worstCase }, k) => {
      if (!worstCase) return undefined
      const top = hasOwnHeights ? Math.max(peaks[k] ?? 0, 1) : tallest
      return { intervals: intervals[k]!, ...outlines(summaries[k]?.histogram, axis, band, top) }
    }),
    tallest,
  }
}

function intervalsOf(worstCase: WorstCase | undefined, summary: BoardSummary | undefined, band: Band): Interval[] {
  if (!worstCase) return []
  const { corners, rootSumSquare } = worstCase
  const all: [Interval['id'], string, { low: number; high: number } | undefined][] = [
    ['corners', 'Corners', { low: corners.lowest.value, high: corners.highest.value }],
    [
      'rootSumSquare',
      'Root-sum-square',
      rootSumSquare && { low: rootSumSquare.lowest.value, high: rootSumSquare.highest.value },
    ],
    ['middle', '99.7 % of boards', summary?.middle],
  ]
  return all.flatMap(([id, label, ends]) =>
    ends ? [{ id, label, ...ends, isOutside: ends.low < band.low || ends.high > band.high }] : [],
  )
}

/** One outline a run of bins that are not empty; a bin belongs to where its middle lies. */
function outlines(
  histogram: Histogram | undefined,
  axis: ValueAxis,
  band: Band,
  top: number,
): { inside: string; outside: string } {
  const paths = { inside: '', outside: '' }
  if (!histogram) return paths
  const { from, width, counts } = histogram
  const edge = (k: number) => round(fractionOf(from + k * width, axis) * WIDTH)
  const sideOf = (k: number): keyof typeof paths | undefined => {
    const middle = from + (k + 0.5) * width
    if (!counts[k]) return undefined
    return middle >= band.low && middle <= band.high ? 'inside' : 'outside'
  }
  counts.forEach((count, k) => {
    const side = sideOf(k)
    if (!side) return
    if (sideOf(k - 1) !== side) paths[side] += `M${edge(k)} ${HEIGHT}`
    paths[side] += `V${round(HEIGHT - (count / top) * HEIGHT)}H${edge(k + 1)}`
    if (sideOf(k + 1) !== side) paths[side] += `V${HEIGHT}Z`
  })
  return paths
}

const round = (value: number): number => Math.round(value * 100) / 100
