/** The safe operating area of a transistor with the design's working points, on axes that all designs share. */
import type { Envelope, SafeArea, WorkingPoint } from '../../../engine/analyses/heat/index.ts'
import type { TopologyName } from '../../../engine/compare/comparison.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
import type { Theme } from '../../look/theme.ts'
import { markOf } from '../marks.ts'
import { type XyAxis, type XyPlot, type XyPoint, logTicks, roundUp125 } from '../xy/plot.ts'

/** No current below this is drawn: an unloaded transistor lies off the picture, in the table. */
const LEAST_CURRENT = 1e-3

function logAxis(min: number, max: number, unit: string): XyAxis {
  const ticks = logTicks(min, max)
  return {
    isLog: true,
    min,
    max,
    ticks: ticks.map((value) => ({ value, text: formatQuantity(value, unit, 1) })),
  }
}

/** One pair of axes for all areas: from 1 V, or the smallest voltage at which one works, and from the smallest current worth drawing. */
export function safeAreaAxes(areas: readonly SafeArea[]): { x: XyAxis; y: XyAxis } {
  const all = areas.flatMap(({ envelopes }) => envelopes)
  const points = areas.flatMap((area) => area.points).filter(isDrawn)
  const volts = Math.max(10, ...all.map(({ volts: v }) => v.at(-1)!), ...points.map((p) => p.volts))
  const amperes = Math.max(0.01, ...all.map(({ amperes: i }) => i[0]!), ...points.map((p) => p.amperes))
  const least = Math.min(
    ...points.map((p) => p.amperes),
    ...all.map(({ amperes: i }) => Math.max(i.at(-1)!, LEAST_CURRENT)),
  )
  const from = 10 ** Math.floor(Math.log10(Math.max(least, LEAST_CURRENT) * 0.9))
  return { x: logAxis(1, roundUp125(volts), 'V'), y: logAxis(from, roundUp125(amperes), 'A') }
}

const isDrawn = ({ amperes, volts }: WorkingPoint): boolean => amperes >= LEAST_CURRENT && volts >= 1

function envelopeWords(envelope: Envelope): string {
  const at = `${formatQuantity(envelope.caseTemperature, '°C', envelope.caseTemperature < 100 ? 2 : 3)} case`
  return envelope.of === 'policy' ? 'allowed' : at
}

export function safeAreaPlot(
  topology: TopologyName,
  area: SafeArea,
  { x, y }: { x: XyAxis; y: XyAxis },
  theme: Theme,
): XyPlot {
  const mark = markOf(topology)
  const looks: Record<Envelope['of'], { colour: string; width: number; dash: 'solid' | readonly number[] }> = {
    maker: { colour: theme.line2, width: 1.4, dash: [5, 3] },
    hot: { colour: theme.ink2, width: 1.6, dash: 'solid' },
    policy: { colour: theme.ink, width: 2.4, dash: 'solid' },
  }
  const point = (one: WorkingPoint): XyPoint => ({
    x: one.volts,
    y: one.amperes,
    colour: one.of === 'short' ? theme.ink : theme[mark.token],
    shape: one.of === 'short' ? 'cross' : mark.marker,
    isFilled: one.of === 'worst',
    ...(one.of === 'short' ? { label: one.thermal === 'cold' ? 'shorted, first moment' : 'shorted' } : {}),
  })
  return {
    id: `safeArea.${topology}.${area.part}`,
    x,
    y,
    lines: area.envelopes.map((envelope) => ({
      points: envelope.volts.flatMap((v, k): [number, number][] =>
        envelope.amperes[k]! > 0 ? [[v, envelope.amperes[k]!]] : [],
      ),
      ...looks[envelope.of],
      label: { text: envelopeWords(envelope), at: envelope.of === 'policy' ? 'start' : 'end' } as const,
    })),
    points: area.points.filter(isDrawn).map(point),
    description: `${mark.name}: safe operating area of ${area.part}, ${area.partNumber}, collector current against collector-emitter voltage on logarithmic axes, with the working points`,
  }
}
