/** Markers on the lines and direct labels beside them, at one place of the axis. */
import type { TopologyMark } from './marks.ts'
import { markOf } from './marks.ts'
import { valueAt } from './columns.ts'
import { domainOf, labelText } from './plot.ts'
import type { Plot, PlotSource } from './plot.ts'
import { fractionOf, spreadLabels } from './scale.ts'

export interface Readout {
  readonly key: string
  readonly mark: TopologyMark
  readonly colour: string
  /** Name before the value, where the marker alone does not say it. */
  readonly label: string | undefined
  readonly text: string
  /** Pixels below the plot's top: on the line, and of the label's centre. `lineTop` is undefined off the plot. */
  readonly lineTop: number | undefined
  readonly labelTop: number
}

const LABEL_HEIGHT = 15

/** One entry a drawn line with a value at `x`; lines without one there are left out. */
export function readoutsOf(plot: Plot, source: PlotSource, x: number): Readout[] {
  const found = plot.lines.flatMap((line) => {
    const columns = source.designs[line.design]![plot.axis]
    const axis = columns['x']!
    const drawn = valueAt(axis, columns[line.column], x)
    const value = line.valueColumn ? valueAt(axis, columns[line.valueColumn], x) : drawn
    if (!Number.isFinite(drawn) || !Number.isFinite(value)) return []
    // a stacked share is labelled at its middle, a line at the line
    const at = line.valueColumn ? drawn - value / 2 : drawn
    const fraction = fractionOf(at, plot.y)
    const top = (1 - fraction) * plot.height
    return [{ line, value, top, isInside: fraction >= -1e-9 && fraction <= 1 + 1e-9 }]
  })
  const places = spreadLabels(
    found.map(({ top }) => Math.min(Math.max(top, 0), plot.height)),
    LABEL_HEIGHT,
    LABEL_HEIGHT / 2 - 6,
    plot.height - 2,
  )
  return found.map(({ line, value, top, isInside }, i) => ({
    key: `${line.design}.${line.column}`,
    mark: markOf(line.topology),
    colour: line.colour,
    label: line.label,
    text: labelText(value * plot.factor, plot.y.step * plot.factor),
    lineTop: isInside && !line.filled ? top : undefined,
    labelTop: places[i]!,
  }))
}

/** The place of `x` across the plot, 0 to 1, held inside. */
export function acrossOf(source: PlotSource, axis: Plot['axis'], x: number): number {
  return Math.min(Math.max(fractionOf(x, domainOf(source, axis)), 0), 1)
}
