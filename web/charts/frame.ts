/** What stands around the curves: shaded ranges, grid lines with their values, axis ticks and limits, in places. */
import { linearTicks } from '../store/scales.ts'
import type { AxisName } from './columns.ts'
import type { Layout } from './layout.ts'
import { axisPrefix, domainOf, tickText } from './plot.ts'
import type { Plot, PlotSource } from './plot.ts'
import { fractionOf, roundStep } from './scale.ts'
import type { Domain } from './scale.ts'

export interface FrameLine {
  /** Pixels below the plot's top. */
  readonly top: number
  readonly text: string
}

export interface FrameTick {
  /** Across the plot, 0 to 1. */
  readonly across: number
  readonly text: string
}

export interface PlotFrameParts {
  /** Required range across the plot, 0 to 1. */
  readonly from: number
  readonly to: number
  /** From the bottom up; the first one is the axis. */
  readonly lines: readonly FrameLine[]
  readonly limits: readonly FrameLine[]
  /** Empty where a plot below carries them. */
  readonly ticks: readonly FrameTick[]
}

const inside = (fraction: number) => Math.min(Math.max(fraction, 0), 1)

/** At most six ticks from zero: no range bar gives them. */
function multiples({ min, max }: Domain): number[] {
  const step = roundStep(min, max, 5)
  return Array.from({ length: Math.floor(max / step + 1e-9) + 1 }, (_, i) => Number((i * step).toPrecision(12)))
}

/** Ticks of an axis, those of the range bar against the input; the last one carries the unit. */
export function axisTicks(source: PlotSource, axis: AxisName): FrameTick[] {
  const domain = domainOf(source, axis)
  const values = axis === 'input' ? linearTicks(domain, 5) : multiples(domain)
  const step = values.length > 1 ? values[1]! - values[0]! : 1
  const { factor, unit } = axisPrefix(domain.max, axis === 'input' ? 'V' : 'A')
  return values.map((value, i) => ({
    across: fractionOf(value, domain),
    text: tickText(value * factor, step * factor) + (i === values.length - 1 ? `\u202F${unit}` : ''),
  }))
}

function gridLines({ y, height, factor }: Plot): FrameLine[] {
  return Array.from({ length: Math.round((y.max - y.min) / y.step) + 1 }, (_, i) => {
    const value = y.min + i * y.step
    return { top: (1 - fractionOf(value, y)) * height, text: tickText(value * factor, y.step * factor) }
  })
}

/** One entry a plot, in their order. */
export function frameOf(plots: readonly Plot[], layout: Layout, source: PlotSource): PlotFrameParts[] {
  const ticks = { input: axisTicks(source, 'input'), load: axisTicks(source, 'load') }
  return plots.map((plot, i) => {
    const { min, max } = source.requirements[plot.axis]
    const domain = domainOf(source, plot.axis)
    return {
      from: inside(fractionOf(min, domain)),
      to: inside(fractionOf(max, domain)),
      lines: gridLines(plot),
      limits: plot.limits.flatMap(({ value, word = '' }) => {
        const fraction = fractionOf(value, plot.y)
        return fraction < 0 || fraction > 1 ? [] : [{ top: (1 - fraction) * plot.height, text: word }]
      }),
      ticks: layout.places[i]!.hasTicks ? ticks[plot.axis] : [],
    }
  })
}
