/** All plots of the column as one ECharts option: one grid a plot, one shared axis for each quantity. */
import type { ComposeOption } from 'echarts/core'
import type { DatasetComponentOption, GridComponentOption } from 'echarts/components'
import type { LineSeriesOption } from 'echarts/charts'
import { linearTicks } from '../store/scales.ts'
import type { AxisName } from './columns.ts'
import { LEFT, RIGHT } from './layout.ts'
import type { Layout } from './layout.ts'
import { axisPrefix, domainOf, tickText } from './plot.ts'
import type { Plot, PlotSource } from './plot.ts'

export type ChartOption = ComposeOption<GridComponentOption | DatasetComponentOption | LineSeriesOption>

export interface ChartModel {
  /** The same text as long as only numbers differ: then `update` is enough. */
  readonly structure: string
  readonly full: ChartOption
  readonly update: ChartOption
}

const AXES: readonly AxisName[] = ['input', 'load']

/** Tick positions in SI and their labels; the last one carries the unit. */
export function axisTicks(source: PlotSource, axis: AxisName): { values: number[]; text: (value: number) => string } {
  const domain = domainOf(source, axis)
  const values = linearTicks(domain, 5)
  const step = values.length > 1 ? values[1]! - values[0]! : 1
  const { factor, unit } = axisPrefix(domain.max, axis === 'input' ? 'V' : 'A')
  const last = values.at(-1)
  return {
    values,
    text: (value) => tickText(value * factor, step * factor) + (value === last ? `\u202F${unit}` : ''),
  }
}

/** Each design has two datasets: against the input, then against the load. */
export const datasetIndex = (design: number, axis: AxisName): number => design * 2 + AXES.indexOf(axis)

/**
 * Pure: plots, places and columns in, an option out. Failed points are NaN in their column: the line breaks there. A design
 * without a circuit has empty columns.
 */
export function columnOption(plots: readonly Plot[], layout: Layout, source: PlotSource): ChartModel {
  const { theme } = source
  const dataset = source.designs.flatMap(({ input, load }) =>
    AXES.map((axis) => ({ source: axis === 'input' ? input : load })),
  )
  const ticks = { input: axisTicks(source, 'input'), load: axisTicks(source, 'load') }
  const label = { color: theme.ink2, fontFamily: theme.fig, fontSize: 11.5, fontWeight: 400 }

  const xMoving = plots.map((plot) => {
    const { min, max } = domainOf(source, plot.axis)
    const { values, text } = ticks[plot.axis]
    return {
      min,
      max,
      axisLabel: { customValues: values, formatter: text },
      axisTick: { customValues: values },
    }
  })
  const yMoving = plots.map(({ y, factor }) => ({
    min: y.min,
    max: y.max,
    interval: y.step,
    axisLabel: { formatter: (value: number) => tickText(value * factor, y.step * factor) },
  }))
  const update = { dataset, xAxis: xMoving, yAxis: yMoving } as ChartOption

  const full = {
    animation: false,
    grid: layout.places.map(({ top, height }) => ({ left: LEFT, right: RIGHT, top, height, outerBoundsMode: 'none' })),
    dataset,
    xAxis: plots.map((_, i) => {
      const { hasTicks } = layout.places[i]!
      const moving = xMoving[i]!
      return {
        ...moving,
        type: 'value',
        gridIndex: i,
        silent: true,
        splitLine: { show: false },
        axisLine: { show: true, onZero: false, lineStyle: { color: theme.line2, width: 1 } },
        axisTick: { ...moving.axisTick, show: hasTicks, length: 4, lineStyle: { color: theme.line2 } },
        axisLabel: { ...moving.axisLabel, ...label, show: hasTicks, margin: 7, hideOverlap: false },
      }
    }),
    yAxis: plots.map((_, i) => {
      const moving = yMoving[i]!
      return {
        ...moving,
        type: 'value',
        gridIndex: i,
        silent: true,
        splitLine: { show: true, lineStyle: { color: theme.line, width: 1 } },
        axisLine: { show: false },
        axisTick: { show: false },
        axisLabel: { ...moving.axisLabel, ...label, margin: 6 },
      }
    }),
    series: plots.flatMap((plot, i) =>
      plot.lines.map((line) => ({
        type: 'line',
        xAxisIndex: i,
        yAxisIndex: i,
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
          cap: line.dash === 'solid' || line.dash[0]! > 1 ? 'butt' : 'round',
          join: 'round',
        },
        ...(line.filled && { areaStyle: { color: line.colour, opacity: 1, origin: 'start' } }),
        emphasis: { disabled: true },
      })),
    ),
  } as unknown as ChartOption

  const structure = JSON.stringify([
    layout.places,
    plots.map(({ id, axis, lines }) => [id, axis, lines.map((l) => [l.design, l.column, l.colour, l.dash, l.filled])]),
    theme.ink2,
    theme.line,
    theme.fig,
  ])
  return { structure, full, update }
}
