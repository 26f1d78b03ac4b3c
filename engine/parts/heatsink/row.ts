/** A heatsink, and what lies between it and a case. */
import type { CatalogueRow, Sourced } from '../define.ts'

/** Still air. Kelvin per watt, metres. */
export interface HeatsinkRow extends CatalogueRow {
  /** Every package that it takes; `package` is the first. */
  readonly packages: readonly string[]
  /** Sink to ambient at the condition. */
  readonly thermalResistance: number
  readonly condition: string
  /** Falling with the heat, where the sheet has a curve, by rising watts. */
  readonly byPower?: readonly { readonly power: number; readonly thermalResistance: number }[]
  /** Board area in square metres. */
  readonly footprint: number
  readonly height: number
  readonly fixing: string
}

/** Case to sink. */
export interface InterfaceRow extends Sourced {
  readonly package: string
  readonly material: string
  readonly isolated: boolean
  readonly thermalResistance: number
}
