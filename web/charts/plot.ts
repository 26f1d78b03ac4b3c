/** What a plot is, before it is drawn: a folder here makes one from the columns, and the column of plots draws them all. */
import type { Requirements } from '../../engine/requirements/study.ts'
import type { TopologyName } from '../../engine/compare/comparison.ts'
import type { Theme } from '../look/theme.ts'
import type { AxisName, DesignColumns } from './columns.ts'
import type { Domain, ValueAxis } from './scale.ts'
import { extentOf } from './scale.ts'

/** What every plot's `option.ts` reads. */
export interface PlotSource {
  readonly designs: readonly DesignColumns[]
  readonly requirements: Requirements
  /** Shared by every plot against the input voltage. */
  readonly inputDomain: Domain
  /** Shared by every plot against the load current. */
  readonly loadDomain: Domain
  readonly theme: Theme
}

export interface PlotLine {
  /** Place of its design in `PlotSource.designs`. */
  readonly design: number
  readonly column: string
  readonly topology: TopologyName
  readonly colour: string
  readonly width: number
  readonly dash: 'solid' | readonly number[]
  /** Filled down to zero instead of drawn. */
  readonly filled?: boolean
  /** Direct label; absent, the marker and the value say it. */
  readonly label?: string
  /** Column whose value the label gives, where that is not the drawn one. */
  readonly valueColumn?: string
}

export interface PlotLimit {
  readonly value: number
  readonly word?: string
}

export interface Plot {
  readonly id: string
  readonly title: string
  /** After the title, with the unit: `W`, or `V, allowed 4.65 to 5.35`. */
  readonly unit: string
  readonly axis: AxisName
  /** Drawing height in pixels. */
  readonly height: number
  readonly y: ValueAxis
  /** Factor from SI to the unit in the title. */
  readonly factor: number
  readonly lines: readonly PlotLine[]
  readonly limits: readonly PlotLimit[]
  /** One sentence on what is drawn, for those who do not see it. */
  readonly description: string
}

export function domainOf(source: PlotSource, axis: AxisName): Domain {
  return axis === 'input' ? source.inputDomain : source.loadDomain
}

/** Smallest and largest value of a column over all designs where the axis lies in `domain`; undefined where nothing solved. */
export function extentOver(
  source: PlotSource,
  axis: AxisName,
  column: string,
  domain = domainOf(source, axis),
): [number, number] | undefined {
  let low = Infinity
  let high = -Infinity
  for (const design of source.designs) {
    const extent = extentOf(design[axis]['x']!, design[axis][column]!, domain)
    if (!extent) continue
    low = Math.min(low, extent[0])
    high = Math.max(high, extent[1])
  }
  return low <= high ? [low, high] : undefined
}

const MINUS = '\u2212'

/** A number as an axis says it: no more decimals than the step needs, a true minus. */
export function tickText(value: number, step: number): string {
  if (Math.abs(value) < step * 1e-6) return '0'
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9))
  const text = Math.abs(value).toFixed(decimals)
  return value < 0 && Number(text) !== 0 ? MINUS + text : text
}

/** A direct label: three significant figures, but nothing finer than a thousandth of the step's decade. */
export function labelText(value: number, step: number): string {
  const finest = Math.max(0, 3 - Math.floor(Math.log10(step) + 1e-9))
  const text = figureText(value)
  return (text.split('.')[1]?.length ?? 0) > finest ? figureText(Number(value.toFixed(finest)), 3, finest) : text
}

/** A number with so many significant figures and no exponent, a true minus; an en dash where there is none. */
export function figureText(value: number, digits = 3, most = 6): string {
  if (!Number.isFinite(value)) return '–'
  const size = Math.abs(value)
  if (size < 1e-12) return '0'
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(Number(size.toPrecision(digits)))))
  const text = size.toFixed(Math.min(decimals, most))
  return value < 0 && Number(text) !== 0 ? MINUS + text : text
}

/** The prefix that a whole axis carries, from its largest magnitude. */
export function axisPrefix(largest: number, unit: string): { factor: number; unit: string } {
  if (unit === '') return { factor: 1, unit }
  if (largest >= 1 || largest === 0) return { factor: 1, unit }
  if (largest >= 1e-3) return { factor: 1e3, unit: `m${unit}` }
  return { factor: 1e6, unit: `µ${unit}` }
}
