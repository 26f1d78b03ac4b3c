/** A plot of lines and points over two quantities, on straight or logarithmic axes; what it shows stands in `charts/<plot>/option.ts`. */
import type { TopologyMark } from '../marks.ts'

export interface XyAxis {
  readonly isLog: boolean
  readonly min: number
  readonly max: number
  /** The axis's own ticks, with their texts; the last one across carries the unit. */
  readonly ticks: readonly { readonly value: number; readonly text: string }[]
}

export interface XyLine {
  readonly points: readonly (readonly [x: number, y: number])[]
  readonly colour: string
  readonly width: number
  readonly dash: 'solid' | readonly number[]
  /** Direct label: beside its last point, or under its first one. */
  readonly label?: { readonly text: string; readonly at: 'start' | 'end' }
}

export interface XyPoint {
  readonly x: number
  readonly y: number
  readonly colour: string
  readonly shape: TopologyMark['marker'] | 'cross'
  readonly isFilled: boolean
  /** Direct label beside the point. */
  readonly label?: string
}

export interface XyPlot {
  readonly id: string
  readonly x: XyAxis
  readonly y: XyAxis
  readonly lines: readonly XyLine[]
  readonly points: readonly XyPoint[]
  /** One sentence on what is drawn, for those who do not see it. */
  readonly description: string
}

/** Where a value lies along an axis: 0 at its least, 1 at its most. */
export function along({ isLog, min, max }: XyAxis, value: number): number {
  return isLog ? Math.log(value / min) / Math.log(max / min) : (value - min) / (max - min)
}

/** 1, 2 and 5 in each decade; alone the decades where that would be more than `most`. */
export function logTicks(min: number, max: number, most = 8): number[] {
  const ticks: number[] = []
  for (let e = Math.floor(Math.log10(min)); e <= Math.ceil(Math.log10(max)); e++)
    for (const lead of [1, 2, 5]) {
      const value = Number((lead * 10 ** e).toPrecision(12))
      if (value >= min * (1 - 1e-9) && value <= max * (1 + 1e-9)) ticks.push(value)
    }
  const isDecade = (value: number) => Math.abs(Math.log10(value) % 1) < 1e-9
  return ticks.length > most ? ticks.filter(isDecade) : ticks
}

/** The next of 1, 2 and 5 in each decade at or above `value`. */
export function roundUp125(value: number): number {
  const decade = 10 ** Math.floor(Math.log10(value) + 1e-9)
  return Number((decade * ([1, 2, 5].find((lead) => lead * decade >= value * (1 - 1e-9)) ?? 10)).toPrecision(12))
}

/** What is drawn as rows: every point of every line, then the points by themselves. */
export function xyRows({ x, y, lines, points }: XyPlot): (string | number)[][] {
  const unitOf = ({ ticks }: XyAxis) => /[^\d\s.,\u202F\u00A0\u2212-].*$/u.exec(ticks.at(-1)?.text ?? '')?.[0] ?? ''
  const head = (name: string, axis: XyAxis) => [name, unitOf(axis)].filter((word) => word !== '').join(', ')
  return [
    ['what', 'label', head('across', x), head('up', y)],
    ...lines.flatMap(({ label, points: along }, k) =>
      along.map(([at, value]) => [`line ${k + 1}`, label?.text ?? '', at, value]),
    ),
    ...points.map((point) => ['point', point.label ?? '', point.x, point.y]),
  ]
}
