/** What must carry a transistor's heat away: none, the smallest heatsink of the list, or more than there is. */
import { pickHeatsink } from '../../parts/heatsink/index.ts'
import { interfaceOf } from '../../parts/heatsink/index.ts'

export interface SinkQuestion {
  readonly package: string
  /** Kelvin per watt: junction to case, and to ambient without a heatsink. */
  readonly thetaJC?: number
  readonly thetaJA: number
  /** Largest resistance from junction to ambient that just keeps the allowed junction temperature, K/W. */
  readonly allowed: number
  /** A heatsink counts as this many times its printed resistance. */
  readonly heatsinkFactor: number
}

export interface SinkAnswer {
  /** From junction to ambient, K/W: what keeps the allowed junction temperature. */
  allowed: number
  /** True where the bare package does. */
  bare: boolean
  /** Sink to ambient as its maker prints it, K/W: what just serves, the interface and the derating taken off. Negative: no heatsink is good enough. */
  needed?: number
  /** The smallest of the list that serves. */
  smallest?: HeatsinkName & { source: string }
  /** Why there is none. */
  because?: string
}

export interface HeatsinkName {
  partNumber: string
  /** Sink to ambient as printed, K/W. */
  thermalResistance: number
}

/** TH-07: 150 °C, 40 °C, 6 W through 3 and 1.6 K/W leave 13.7 K/W for the heatsink. */
export function sinkFor(question: SinkQuestion): SinkAnswer {
  const { allowed, thetaJC, thetaJA, heatsinkFactor } = question
  if (thetaJA <= allowed) return { allowed, bare: true }
  const joint = interfaceOf(question.package)?.thermalResistance
  if (thetaJC === undefined || joint === undefined)
    return { allowed, bare: false, because: `A ${question.package} takes no heatsink of the list.` }
  const needed = neededSink(allowed, thetaJC, joint, heatsinkFactor)
  const choice = pickHeatsink({ package: question.package, required: needed })
  if (!choice.found) return { allowed, bare: false, needed, because: choice.because }
  const { partNumber, thermalResistance, source } = choice.row
  return { allowed, bare: false, needed, smallest: { partNumber, thermalResistance, source } }
}

/** Sink to ambient as printed, K/W: what is left of `allowed` after junction to case and case to sink, over the derating factor. */
export const neededSink = (allowed: number, thetaJC: number, thetaCS: number, heatsinkFactor: number): number =>
  (allowed - thetaJC - thetaCS) / heatsinkFactor
