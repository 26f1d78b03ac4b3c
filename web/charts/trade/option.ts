/** What the input range costs: heat, efficiency and heatsink of each topology, sized anew for each end of the range. */
import type { InputEnd, TradeDesign, TradePoint } from '../../../engine/explore/trade.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
import type { Theme } from '../../look/theme.ts'
import { linearTicks } from '../../store/scales.ts'
import { MARKS, type TopologyMark } from '../marks.ts'
import { axisPrefix, tickText } from '../plot.ts'
import { roundAxis } from '../scale.ts'
import type { XyAxis, XyLine, XyPlot, XyPoint } from '../xy/plot.ts'

export const TRADE_FIGURES = ['heat', 'efficiency', 'heatsink'] as const
export type TradeFigure = (typeof TRADE_FIGURES)[number]

const TITLES: Record<TradeFigure, string> = {
  heat: 'Heat at the worst corner',
  efficiency: 'Efficiency at full load, highest input',
  heatsink: 'Heatsink fitted, as its maker prints it',
}

/** Where a design without a heatsink is drawn, as a share of the largest resistance. */
const WITHOUT = 1.22

const valueOf = (design: TradeDesign, figure: TradeFigure): number | undefined =>
  figure === 'heat'
    ? design.heat
    : figure === 'efficiency'
      ? design.efficiencyAtHighest
      : design.heatsink?.thermalResistance

function inputAxis(points: readonly TradePoint[], present: number): XyAxis {
  const volts = [...points.map(({ input }) => input), present]
  const least = Math.min(...volts)
  const room = Math.max(0.04 * (Math.max(...volts) - least), 0.2)
  const scale = { min: least - room, max: Math.max(...volts) + room }
  const ticks = linearTicks(scale, 5)
  const step = ticks.length > 1 ? ticks[1]! - ticks[0]! : 1
  return {
    isLog: false,
    ...scale,
    ticks: ticks.map((value, k) => ({
      value,
      text: tickText(value, step) + (k === ticks.length - 1 ? '\u202FV' : ''),
    })),
  }
}

function valueAxis(highest: number, figure: TradeFigure): XyAxis {
  const { max, step } = roundAxis(0, highest, 4)
  const { factor, unit } =
    figure === 'heat' ? axisPrefix(max, 'W') : { factor: figure === 'efficiency' ? 100 : 1, unit: '' }
  const word = figure === 'efficiency' ? '\u202F%' : figure === 'heatsink' ? '\u202FK/W' : `\u202F${unit}`
  const count = Math.round(max / step)
  const ticks = Array.from({ length: count + 1 }, (_, k) => ({
    value: k * step,
    text: tickText(k * step * factor, step * factor) + (k === count ? word : ''),
  }))
  if (figure !== 'heatsink') return { isLog: false, min: 0, max, ticks }
  return { isLog: false, min: 0, max: max * 1.3, ticks: [...ticks, { value: max * WITHOUT, text: 'none' }] }
}

function lineOf(mark: TopologyMark, points: XyLine['points'], theme: Theme): XyLine {
  return {
    points,
    colour: theme[mark.token],
    width: mark.width,
    dash: mark.dash === 'solid' ? 'solid' : mark.dash.map((length) => Math.max(length, mark.width)),
    label: { text: mark.name, at: 'end' },
  }
}

/** Undefined where no design has such a figure anywhere; `title` heads the plot. */
export function tradePlot(
  figure: TradeFigure,
  end: InputEnd,
  points: readonly TradePoint[],
  present: number,
  theme: Theme,
): { plot: XyPlot; title: string } | undefined {
  const values = points.flatMap(({ designs }) => designs.flatMap((design) => valueOf(design, figure) ?? []))
  if (values.length === 0) return undefined
  const x = inputAxis(points, present)
  const y = valueAxis(Math.max(...values), figure)
  const none = y.ticks.at(-1)!.value
  const drawn = (design: TradeDesign): number | undefined =>
    valueOf(design, figure) ?? (figure === 'heatsink' && design.heat !== undefined ? none : undefined)
  const lines: XyLine[] = []
  const marks: XyPoint[] = []
  MARKS.forEach((mark) => {
    const own = points.flatMap(({ input, designs }) => {
      const design = designs.find(({ topology }) => topology === mark.topology)
      const value = design && drawn(design)
      return value === undefined ? [] : [{ input, value, meets: design!.meets }]
    })
    if (own.length === 0) return
    lines.push(
      lineOf(
        mark,
        own.map(({ input, value }) => [input, value] as const),
        theme,
      ),
    )
    for (const { input, value, meets } of own)
      marks.push({
        x: input,
        y: value,
        colour: theme[mark.token],
        shape: meets ? mark.marker : 'cross',
        isFilled: meets && input === present,
      })
  })
  lines.push({
    points: [
      [present, y.min],
      [present, y.max],
    ],
    colour: theme.ink,
    width: 1.3,
    dash: [2, 3],
  })
  const which = end === 'max' ? 'highest' : 'lowest'
  return {
    title: TITLES[figure],
    plot: {
      id: `trade.${end}.${figure}`,
      x,
      y,
      lines,
      points: marks,
      description: `${TITLES[figure]} against the ${which} input voltage, each point sized and proven anew; required now: ${formatQuantity(present, 'V')}`,
    },
  }
}
