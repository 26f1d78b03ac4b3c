/**
 * The curves of all plots as one ECharts option: one grid a plot, one shared axis for each quantity. Axis lines, ticks and
 * words are drawn by the frame in HTML, from the same places and scales: half the time of an update went into axis labels.
 */
import type { ComposeOption } from 'echarts/core'
import type { DatasetComponentOption, GridComponentOption } from 'echarts/components'
import type { LineSeriesOption } from 'echarts/charts'
import type { AxisName, Columns } from './columns.ts'
import { LEFT, RIGHT } from './layout.ts'
import type { Layout } from './layout.ts'
import { domainOf } from './plot.ts'
import type { Plot, PlotLine, PlotSource } from './plot.ts'

export type ChartOption = ComposeOption<GridComponentOption | DatasetComponentOption | LineSeriesOption>

export interface ChartModel {
  /** The same text as long as only numbers and axis ends differ: then `axes` and `numbers` are enough. */
  readonly structure: string
  /** The same text as long as the axes keep their ends: then `numbers` is enough. */
  readonly ends: string
  readonly full: ChartOption
  readonly axes: ChartOption
  readonly numbers: ChartOption
}

const AXES: readonly AxisName[] = ['input', 'load']

/** Each design has two datasets: against the input, then against the load. */
export const datasetIndex = (design: number, axis: AxisName): number => design * 2 + AXES.indexOf(axis)

/** The columns that some line draws, the axis first. */
function drawnColumns(plots: readonly Plot[]): Record<AxisName, readonly string[]> {
  const of = (axis: AxisName) => plots.filter((p) => p.axis === axis).flatMap((p) => p.lines.map((l) => l.column))
  return { input: [...new Set(['x', ...of('input')])], load: [...new Set(['x', ...of('load')])] }
}

/** Points one after another, one number a column: the only shape that ECharts takes without copying it number by number. */
function interleave(columns: Columns, names: readonly string[]): Float64Array {
  const length = columns['x']!.length
  const out = new Float64Array(length * names.length)
  for (const [k, name] of names.entries()) {
    const column = columns[name]!
    // a share that a design does not have is an empty column: no number at any point
    for (let i = 0, at = k; i < length; i++, at += names.length) out[at] = i < column.length ? column[i]! : Number.NaN
  }
  return out
}

function lineSeries(line: PlotLine, plot: Plot, grid: number): LineSeriesOption {
  const [first] = line.dash === 'solid' ? [] : line.dash
  return {
    type: 'line',
    xAxisIndex: grid,
    yAxisIndex: grid,
    datasetIndex: datasetIndex(line.design, plot.axis),
    encode: { x: 'x', y: line.column },
    silent: true,
    animation: false,
    showSymbol: false,
    symbol: 'none',
    connectNulls: false,
    lineStyle: {
      color: line.colour,
      width: line.width,
      type: line.dash === 'solid' ? 'solid' : [...line.dash],
      // dashes shorter than the line is wide are dots
      cap: first !== undefined && first < line.width ? 'round' : 'butt',
      join: 'round',
    },
    ...(line.filled && { areaStyle: { color: line.colour, opacity: 1, origin: 'start' as const } }),
    emphasis: { disabled: true },
  }
}

/**
 * Pure: plots, places and columns in, an option out. Failed points are NaN in their column: the line breaks there. A design
 * without a circuit has empty columns.
 */
export function columnOption(plots: readonly Plot[], layout: Layout, source: PlotSource): ChartModel {
  const drawn = drawnColumns(plots)
  const dataset = source.designs.flatMap((design) =>
    AXES.map((axis) => ({
      source: interleave(design[axis], drawn[axis]),
      dimensions: [...drawn[axis]],
      sourceHeader: false,
    })),
  )
  const xAxis = plots.map(({ axis }) => ({ min: domainOf(source, axis).min, max: domainOf(source, axis).max }))
  const yAxis = plots.map(({ y }) => ({ min: y.min, max: y.max }))
  const hidden = { type: 'value', show: false, silent: true } as const
  const full: ChartOption = {
    animation: false,
    grid: layout.places.map(({ top, height }) => ({ left: LEFT, right: RIGHT, top, height, outerBoundsMode: 'none' })),
    dataset,
    xAxis: xAxis.map((ends, gridIndex) => ({ ...hidden, ...ends, gridIndex })),
    yAxis: yAxis.map((ends, gridIndex) => ({ ...hidden, ...ends, gridIndex })),
    series: plots.flatMap((plot, grid) => plot.lines.map((line) => lineSeries(line, plot, grid))),
  }
  const structure = JSON.stringify([
    layout.places,
    plots.map(({ id, axis, lines }) => [id, axis, lines.map((l) => [l.design, l.column, l.colour, l.dash, l.filled])]),
  ])
  return { structure, ends: JSON.stringify([xAxis, yAxis]), full, axes: { xAxis, yAxis }, numbers: { dataset } }
}
