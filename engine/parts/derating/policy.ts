/** What a derating policy is, and the junction temperatures that it leaves. */
import type { DeratingName } from '../../requirements/study.ts'
import type { Confidence } from '../define.ts'

/** Kinds of semiconductor that the policies treat apart: transistors; reference diodes; integrated circuits, shunt references among them. */
export type JunctionKind = 'transistor' | 'diode' | 'circuit'

/** The allowed junction temperature is the lowest of `share` of the maker's maximum (in °C), `margin` kelvin below it, and `ceiling` °C. */
export interface JunctionRule {
  readonly share: number
  readonly margin: number
  readonly ceiling: number
}

/** Shares are fractions of the maker's rating, 1 for all of it. */
export interface DeratingFactors {
  /** Share of the power that the maker's curve leaves at the ambient; of wirewound types the other one. */
  readonly resistorPower: number
  readonly wirewoundPower: number
  readonly resistorVoltage: number
  /** Share of the power that the maker leaves at the ambient: for a given cooling, the same share of the way from ambient to the maximum junction. */
  readonly transistorPower: number
  readonly diodePower: number
  readonly circuitPower: number
  readonly transistorJunction: JunctionRule
  readonly diodeJunction: JunctionRule
  readonly circuitJunction: JunctionRule
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

export type FactorName = keyof DeratingFactors

/** Where one number of a policy comes from. */
export interface FactorOrigin {
  readonly source: string
  readonly confidence: Confidence
  /** How the published words were read, where that was not plain. */
  readonly note?: string
}

export interface DeratingPolicy extends DeratingFactors {
  readonly name: DeratingName
  readonly label: string
  readonly source: string
  readonly origins: Readonly<Record<FactorName, FactorOrigin>>
}

/** Highest allowed junction temperature by the policy's temperature rule alone, °C. Standard: 150 becomes 125, 175 too, 100 becomes 75. */
export function deratedJunction(
  junctionMax: number,
  policy: DeratingFactors,
  kind: JunctionKind = 'transistor',
): number {
  const { share, margin, ceiling } = policy[`${kind}Junction`]
  return Math.min(junctionMax * share, junctionMax - margin, ceiling)
}

/**
 * Highest allowed junction temperature at an ambient in °C: by the temperature rule, and by the share of the power. With one and
 * the same cooling, a share of the power that reaches `junctionMax` warms the junction that share of the way from the ambient.
 * 150 °C, 60 % of the power, at 50 °C: 110 °C. Never above `junctionMax`, whatever the ambient.
 */
export function allowedJunction(
  junctionMax: number,
  policy: DeratingFactors,
  kind: JunctionKind,
  ambient: number,
): number {
  const byPower = ambient + policy[`${kind}Power`] * (junctionMax - ambient)
  return Math.min(deratedJunction(junctionMax, policy, kind), Math.max(byPower, ambient))
}
