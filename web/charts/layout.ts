/** Where each plot lies in the column, in pixels. The left and right edges are those of the input range bar above it. */
import type { AxisName } from './columns.ts'
import type { Plot } from './plot.ts'

/** Room for value labels left of a plot and direct labels right of it, in pixels. */
export const LEFT = 36
export const RIGHT = 62
const TITLE = 22
const GAP = 13
const TICKS = 20
const GROUP_GAP = 16

export interface PlotPlace {
  readonly titleTop: number
  readonly top: number
  readonly height: number
  /** The last plot of a run on one axis carries its tick labels. */
  readonly hasTicks: boolean
}

export interface PlotGroup {
  readonly axis: AxisName
  readonly top: number
  readonly bottom: number
}

export interface Layout {
  readonly places: readonly PlotPlace[]
  readonly groups: readonly PlotGroup[]
  readonly height: number
}

/** Plots one under the other; those after `breakAfter` plot ids start a new run with tick labels before it. */
export function layoutOf(plots: readonly Plot[], breakAfter: readonly string[]): Layout {
  const places: PlotPlace[] = []
  const groups: PlotGroup[] = []
  let y = 0
  let groupTop = 0
  for (const [i, plot] of plots.entries()) {
    const next = plots[i + 1]
    const hasTicks = next === undefined || next.axis !== plot.axis || breakAfter.includes(plot.id)
    places.push({ titleTop: y, top: y + TITLE, height: plot.height, hasTicks })
    y += TITLE + plot.height
    if (hasTicks) {
      groups.push({ axis: plot.axis, top: groupTop, bottom: y })
      y += TICKS + (next ? GROUP_GAP : 0)
      groupTop = y
    } else y += GAP
  }
  return { places, groups, height: y }
}
