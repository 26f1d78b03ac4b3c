/** An xy plot as an ECharts option: axes hidden, since the frame draws them in HTML. */
import type { LineSeriesOption } from 'echarts/charts'
import type { ChartModel, ChartOption } from '../option.ts'
import type { XyAxis, XyLine, XyPlot, XyPoint } from './plot.ts'

/** Room around the field in pixels: values left, direct labels right, ticks below. */
export const ROOM = { left: 44, right: 96, top: 8, bottom: 24 } as const

const CROSS = 'path://M-5,-4L-4,-5L0,-1L4,-5L5,-4L1,0L5,4L4,5L0,1L-4,5L-5,4L-1,0Z'
const SYMBOLS: Record<XyPoint['shape'], string> = {
  square: 'rect',
  triangle: 'triangle',
  circle: 'circle',
  cross: CROSS,
}

const SILENT = { type: 'line', silent: true, animation: false, emphasis: { disabled: true } } as const

const lineSeries = ({ points, colour, width, dash }: XyLine): LineSeriesOption => ({
  ...SILENT,
  data: points.map(([x, y]) => [x, y]),
  showSymbol: false,
  symbol: 'none',
  lineStyle: { color: colour, width, type: dash === 'solid' ? 'solid' : [...dash], join: 'round' },
})

const pointSeries = ({ x, y, colour, shape, isFilled }: XyPoint, ground: string): LineSeriesOption => ({
  ...SILENT,
  data: [[x, y]],
  showSymbol: true,
  symbol: SYMBOLS[shape],
  symbolSize: shape === 'cross' ? 11 : isFilled ? 10 : 8,
  lineStyle: { width: 0 },
  itemStyle: {
    color: isFilled || shape === 'cross' ? colour : ground,
    borderColor: colour,
    borderWidth: isFilled ? 0 : 1.6,
  },
  z: 3,
})

const axis = ({ isLog, min, max }: XyAxis) =>
  ({ type: isLog ? 'log' : 'value', min, max, show: false, silent: true }) as const

/** `ground`: the page's colour, which fills hollow points. */
export function xyOption(plot: XyPlot, ground: string): ChartModel {
  const series = [...plot.lines.map(lineSeries), ...plot.points.map((point) => pointSeries(point, ground))]
  const axes = { xAxis: axis(plot.x), yAxis: axis(plot.y) } satisfies ChartOption
  const numbers: ChartOption = { series: series.map(({ data }) => ({ type: 'line', data: data! })) }
  const full: ChartOption = { animation: false, grid: { ...ROOM, outerBoundsMode: 'none' }, ...axes, series }
  const structure = JSON.stringify(series.map(({ data: _, ...look }) => look))
  return {
    structure: `${plot.id} ${structure} ${plot.x.isLog} ${plot.y.isLog}`,
    ends: JSON.stringify(axes),
    full,
    axes,
    numbers,
  }
}
