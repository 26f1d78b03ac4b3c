/** A resistor type as the catalogue offers it: one type, size and tolerance, any value within its range. */
import type { CatalogueRow } from '../define.ts'

/** Limits of the temperature coefficient, 1/K, for values up to `upTo` ohms. */
export interface TcrStep {
  readonly upTo: number
  readonly min: number
  readonly max: number
}

/** SI units, degrees Celsius. `partNumber` is the maker's type with its tolerance; the value is chosen when it is placed. */
export interface ResistorRow extends CatalogueRow {
  readonly technology: string
  /** Rated power up to an ambient of `derateFrom`, falling in a straight line to nothing at `zeroPowerAt`. */
  readonly power: number
  readonly derateFrom: number
  readonly zeroPowerAt: number
  /** Body to ambient, K/W. */
  readonly thermalResistance: number
  /** Largest continuous working voltage; for large values, the power limits first for small ones. */
  readonly voltageMax: number
  readonly tcr: readonly TcrStep[]
  /** Half-width as a fraction. */
  readonly tolerance: number
  /** Smallest and largest value made, ohms. */
  readonly min: number
  readonly max: number
  /** Body, metres. */
  readonly length: number
  readonly width: number
}
