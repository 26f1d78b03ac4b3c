/** Resistors of a design on their derating lines: share of the rated power against the ambient, axes shared by all designs. */
import type { ResistorCurve } from '../../../engine/analyses/heat/index.ts'
import type { TopologyName } from '../../../engine/compare/comparison.ts'
import type { Theme } from '../../look/theme.ts'
import { markOf } from '../marks.ts'
import { tickText } from '../plot.ts'
import { roundAxis } from '../scale.ts'
import type { XyAxis, XyLine, XyPlot } from '../xy/plot.ts'

function axis(min: number, max: number, step: number, unit: string): XyAxis {
  const count = Math.round((max - min) / step)
  const ticks = Array.from({ length: count + 1 }, (_, k) => {
    const value = min + k * step
    return { value, text: tickText(value, step) + (k === count ? `\u202F${unit}` : '') }
  })
  return { isLog: false, min, max, ticks }
}

/** Ambient across, from the coldest to where the last line ends; per cent of the rated power up. */
export function resistorAxes(curves: readonly ResistorCurve[]): { x: XyAxis; y: XyAxis } {
  const coldest = Math.min(0, ...curves.flatMap(({ points }) => points.map(({ ambient }) => ambient)))
  const x = roundAxis(coldest, Math.max(100, ...curves.map(({ zeroPowerAt }) => zeroPowerAt)), 8)
  const most = Math.max(1, ...curves.flatMap(({ points, power }) => points.map((point) => point.power / power)))
  const y = roundAxis(0, most * 100, 5)
  return { x: axis(x.min, x.max, x.step, '°C'), y: axis(y.min, y.max, y.step, '%') }
}

/** A name beside its point from this share of the allowed power on: those hardly used would only crowd. */
const WORTH_NAMING = 0.25

export function resistorPlot(
  topology: TopologyName,
  curves: readonly ResistorCurve[],
  { x, y }: { x: XyAxis; y: XyAxis },
  theme: Theme,
): XyPlot {
  const mark = markOf(topology)
  const shapes = new Map(curves.map((curve) => [`${curve.derateFrom} ${curve.zeroPowerAt} ${curve.share}`, curve]))
  const line = (curve: ResistorCurve, share: number): [number, number][] => [
    [x.min, 100 * share],
    [curve.derateFrom, 100 * share],
    [curve.zeroPowerAt, 0],
  ]
  const lines = [...shapes.values()].flatMap((curve): XyLine[] => [
    { points: line(curve, 1), colour: theme.line2, width: 1.4, dash: [5, 3] },
    { points: line(curve, curve.share), colour: theme.ink, width: 2.2, dash: 'solid' },
  ])
  return {
    id: `resistorPower.${topology}`,
    x,
    y,
    lines,
    points: curves.flatMap(({ part, power, points }) =>
      points.map((point) => ({
        x: point.ambient,
        y: (100 * point.power) / power,
        colour: theme[mark.token],
        shape: mark.marker,
        isFilled: point.of === 'worst',
        ...(point.of === 'worst' && point.power > WORTH_NAMING * point.allowed ? { label: part } : {}),
      })),
    ),
    description: `${mark.name}: power of each resistor as a share of its rating against the ambient, with the maker's line and what the policy leaves of it`,
  }
}
