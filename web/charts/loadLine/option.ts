/** The load line of one design: output voltage against the current delivered, nominal and at its extremes, and what the load draws. */
import type { Faults, Line, LoadLine } from '../../../engine/analyses/faults/index.ts'
import type { TopologyName } from '../../../engine/compare/comparison.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
import type { Theme } from '../../look/theme.ts'
import { type TopologyMark, markOf } from '../marks.ts'
import { axisPrefix, tickText } from '../plot.ts'
import { roundAxis } from '../scale.ts'
import type { XyAxis, XyPlot } from '../xy/plot.ts'

const FEW = 4

function axis(highest: number, unit: string): XyAxis {
  const { max, step } = roundAxis(0, highest, FEW)
  const { factor, unit: prefixed } = axisPrefix(max, unit)
  const count = Math.round(max / step)
  return {
    isLog: false,
    min: 0,
    max,
    ticks: Array.from({ length: count + 1 }, (_, k) => ({
      value: k * step,
      text: tickText(k * step * factor, step * factor) + (k === count ? `\u202F${prefixed}` : ''),
    })),
  }
}

/** Dashes at least as long as the line is wide: the ends of these lines are cut straight, and shorter ones vanish. */
const seen = ({ dash, width }: TopologyMark): TopologyMark['dash'] =>
  dash === 'solid' ? dash : dash.map((length) => Math.max(length, width))

const linesOf = ({ nominal, least, most }: LoadLine): Line[] => [nominal, least, most]

/** One pair of axes for all designs. */
export function loadLineAxes(all: readonly (LoadLine | undefined)[]): { x: XyAxis; y: XyAxis } {
  const lines = all.flatMap((one) => (one ? linesOf(one) : []))
  return {
    x: axis(Math.max(1e-6, ...lines.flatMap(({ amperes }) => amperes)), 'A'),
    y: axis(Math.max(1e-3, ...lines.flatMap(({ volts }) => volts)), 'V'),
  }
}

const pointsOf = ({ volts, amperes }: Line): [number, number][] => volts.map((v, k) => [Math.max(0, amperes[k]!), v])

/** Volts over which a constant-current load takes up its current, and the points that its foot is drawn with. */
const KNEE = 0.1
const FOOT = 12

/** What a load of constant current draws, from 0 V up: `amperes`·tanh(V / 0.1 V). */
function drawn(amperes: number, top: number): [number, number][] {
  const foot = Array.from({ length: FOOT + 1 }, (_, k) => (4 * KNEE * k) / FOOT)
  return [...foot, top].map((v) => [amperes * Math.tanh(v / KNEE), v])
}

export function loadLinePlot(
  topology: TopologyName,
  { loadLine }: Faults,
  { x, y }: { x: XyAxis; y: XyAxis },
  fullLoad: number,
  theme: Theme,
): XyPlot | undefined {
  if (!loadLine) return undefined
  const mark = markOf(topology)
  const thin = { colour: theme.ink2, width: 1.1, dash: 'solid' } as const
  const { nominal, least, most, latchUp } = loadLine
  const short = nominal.amperes.at(-1)!
  return {
    id: `loadLine.${topology}`,
    x,
    y,
    lines: [
      { points: pointsOf(least), ...thin },
      { points: pointsOf(most), ...thin },
      { points: drawn(fullLoad, y.max), colour: theme.ink, width: 1.3, dash: [2, 3] },
      { points: pointsOf(nominal), colour: theme[mark.token], width: mark.width, dash: seen(mark) },
    ],
    points: latchUp
      ? [
          {
            x: fullLoad * Math.tanh(latchUp.rests / KNEE),
            y: latchUp.rests,
            colour: theme.ink,
            shape: 'cross',
            isFilled: true,
            label: `can rest at ${formatQuantity(latchUp.rests, 'V')}`,
          },
        ]
      : [],
    description: `${mark.name}: output voltage against the current delivered, from no load to ${formatQuantity(short, 'A')} into a short, nominal and at the least and the most that any corner delivers; dotted: what the full load draws`,
  }
}
