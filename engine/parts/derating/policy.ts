/** How much of its ratings a part may use. */
import type { DeratingName } from '../../requirements/study.ts'

/** Shares are fractions of the maker's rating, 1 for all of it; temperatures in kelvin of distance or degrees Celsius. */
export interface DeratingPolicy {
  readonly name: DeratingName
  readonly label: string
  readonly source: string
  /** Share of the power left at the ambient. */
  readonly resistorPower: number
  readonly resistorVoltage: number
  /** Junctions stay this many kelvin below their maximum, and below the ceiling. */
  readonly junctionMargin: number
  readonly junctionCeiling: number
  readonly transistorVoltage: number
  readonly transistorCurrent: number
  /** Share of the current that the safe operating area allows. */
  readonly soa: number
  readonly diodeCurrent: number
  readonly referenceCurrent: number
  readonly opAmpSupply: number
  readonly electrolyticVoltage: number
  readonly tantalumVoltage: number
  /** Class 2 ceramics, whose capacitance falls with voltage. */
  readonly ceramicVoltage: number
  readonly filmVoltage: number
  /** A heatsink counts as this many times its printed thermal resistance. */
  readonly heatsinkFactor: number
}

export const DERATING: Readonly<Record<DeratingName, DeratingPolicy>> = {
  standard: {
    name: 'standard',
    label: 'Standard derating',
    source: 'common practice, no source',
    resistorPower: 0.5,
    resistorVoltage: 0.8,
    junctionMargin: 25,
    junctionCeiling: 125,
    transistorVoltage: 0.75,
    transistorCurrent: 0.75,
    soa: 0.75,
    diodeCurrent: 0.8,
    referenceCurrent: 0.8,
    opAmpSupply: 0.9,
    electrolyticVoltage: 0.8,
    tantalumVoltage: 0.5,
    ceramicVoltage: 0.6,
    filmVoltage: 0.8,
    heatsinkFactor: 1.15,
  },
  // Ratings as the maker prints them: also what holds in faults.
  none: {
    name: 'none',
    label: 'Full ratings',
    source: 'ratings as the makers print them',
    resistorPower: 1,
    resistorVoltage: 1,
    junctionMargin: 0,
    junctionCeiling: Infinity,
    transistorVoltage: 1,
    transistorCurrent: 1,
    soa: 1,
    diodeCurrent: 1,
    referenceCurrent: 1,
    opAmpSupply: 1,
    electrolyticVoltage: 1,
    tantalumVoltage: 1,
    ceramicVoltage: 1,
    filmVoltage: 1,
    heatsinkFactor: 1,
  },
}

/** Highest allowed junction temperature: min(maximum - margin, ceiling), degrees Celsius. 150 degC becomes 125, 175 too, 100 becomes 75. */
export function deratedJunction(junctionMax: number, policy: DeratingPolicy): number {
  return Math.min(junctionMax - policy.junctionMargin, policy.junctionCeiling)
}
