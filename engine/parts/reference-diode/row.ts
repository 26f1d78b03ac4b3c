/** A reference diode as the catalogue offers it. */
import type { CatalogueRow } from '../define.ts'
import type { DiodeFamily } from './published.ts'

/** Fraction of Vz per kelvin; min < typ < max. */
export interface Tempco {
  readonly min: number
  readonly typ: number
  readonly max: number
}

/** SI units, degrees Celsius. Impedances and leakage are the sheet's maxima. */
export interface DiodeRow extends CatalogueRow {
  readonly family: DiodeFamily
  /** Volts at the test current. */
  readonly vz: { readonly nominal: number; readonly min: number; readonly max: number }
  readonly test: { readonly current: number; readonly impedance: number }
  readonly knee: { readonly current: number; readonly impedance: number }
  readonly leakage: { readonly current: number; readonly voltage: number }
  /** Largest steady current, IZM. */
  readonly currentMax: number
  /** Headline power: at the place and up to the temperature that follow, then falling by `slope` W/K. In still air `diodePowerAt` holds. */
  readonly power: number
  readonly powerWhere: string
  readonly derateFrom: number
  readonly slope: number
  /** Junction to ambient in still air on a board, K/W. */
  readonly thermalResistance: number
  /** Junction to lead, K/W, where the sheet or its derating slope gives it. */
  readonly junctionToLead?: number
  readonly junctionMax: number
  readonly tempco: Tempco
  /** Junction temperature at which `vz` holds: above 25 degC where the sheet measured in thermal equilibrium. */
  readonly referenceTemperature: number
}
