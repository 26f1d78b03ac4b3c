/** An amount that adds up over the parts of a design: one bar a design, one segment a part, all designs on one axis. */
import type { TopologyName } from '../../../engine/compare/comparison.ts'
import { roundAxis } from '../scale.ts'
import type { ValueAxis } from '../scale.ts'

export interface PartAmount {
  readonly part: string
  /** Undefined where nobody knows it: then it is named beside the bar. */
  readonly amount: number | undefined
}

export interface PartBarSource {
  readonly topology: TopologyName
  readonly parts: readonly PartAmount[]
}

export interface Segment {
  readonly part: string
  readonly amount: number
  /** Both as shares of the axis. */
  readonly from: number
  readonly width: number
  /** Wide enough to hold its name. */
  readonly isNamed: boolean
}

export interface PartBar {
  readonly topology: TopologyName
  /** The largest first. */
  readonly segments: readonly Segment[]
  readonly total: number
  /** Parts whose amount is not known. */
  readonly missing: readonly string[]
}

export interface PartBarsPlot {
  readonly bars: readonly PartBar[]
  readonly axis: ValueAxis
  readonly ticks: readonly number[]
}

/** Share of the axis below which a segment goes without a name. */
const LEAST_NAMED = 0.055

export function partBarsPlot(sources: readonly PartBarSource[]): PartBarsPlot {
  const totals = sources.map(({ parts }) => parts.reduce((sum, { amount = 0 }) => sum + amount, 0))
  const axis = roundAxis(0, Math.max(...totals), 6)
  const bars = sources.map(({ topology, parts }, k): PartBar => {
    const known = parts.flatMap(({ part, amount }) => (amount === undefined ? [] : [{ part, amount }]))
    let from = 0
    const segments = known
      .filter(({ amount }) => amount > 0)
      .toSorted((a, b) => b.amount - a.amount)
      .map(({ part, amount }): Segment => {
        const width = amount / axis.max
        const segment = { part, amount, from, width, isNamed: width >= LEAST_NAMED }
        from += width
        return segment
      })
    const missing = parts.flatMap(({ part, amount }) => (amount === undefined ? [part] : []))
    return { topology, segments, total: totals[k]!, missing }
  })
  const steps = Math.round(axis.max / axis.step)
  return {
    bars,
    axis,
    ticks: Array.from({ length: steps + 1 }, (_, k) => Number((k * axis.step).toPrecision(12))),
  }
}
