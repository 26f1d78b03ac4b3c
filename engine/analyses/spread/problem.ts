/** What a run of many boards needs to know of a design, as plain data: it crosses to a pool of workers as it is. */
import type { Netlist } from '../../devices/elements.ts'
import type { Tolerance } from '../../parts/define.ts'
import type { Requirements } from '../../requirements/study.ts'
import type { SizedDesign } from '../../topologies/define.ts'

/** A range of the environment. */
export interface Range {
  readonly min: number
  readonly nominal: number
  readonly max: number
}

export interface SpreadProblem {
  readonly netlist: Netlist
  /** Kelvin per watt by part id. */
  readonly thermalResistance: Readonly<Record<string, number>>
  readonly guess: Readonly<Record<string, number>>
  /** Name of the output node. */
  readonly output: string
  readonly tolerances: readonly Tolerance[]
  /** Volts, amperes, degrees Celsius. */
  readonly input: Range
  readonly load: Range
  readonly ambient: Range
}

/** `uniform`: anywhere within the limits alike. `normal`: a normal distribution with the limits at 3 sigma, cut off there. */
export const DISTRIBUTIONS = ['uniform', 'normal'] as const
export type Distribution = (typeof DISTRIBUTIONS)[number]

/** `random`: independent boards. `even`: a low-discrepancy sequence, which fills the ranges more evenly. */
export const METHODS = ['random', 'even'] as const
export type Method = (typeof METHODS)[number]

/** Which boards are drawn. With the problem it settles every sample, whoever solves it and in whatever order. */
export interface Draw {
  /** Taken modulo 2^32. */
  readonly seed: number
  readonly method: Method
  readonly distribution: Distribution
}

const rangeOf = ({ min, nominal, max }: Range): Range => ({ min, nominal, max })

export function spreadProblemOf(design: SizedDesign, requirements: Requirements): SpreadProblem {
  const { input, load, ambient } = requirements
  return {
    netlist: design.netlist,
    thermalResistance: Object.fromEntries(
      design.parts.flatMap(({ id, thermalResistance: theta }) => (theta === undefined ? [] : [[id, theta]])),
    ),
    guess: design.guess,
    output: design.output,
    tolerances: design.tolerances,
    input: rangeOf(input),
    load: rangeOf(load),
    ambient: rangeOf(ambient),
  }
}
