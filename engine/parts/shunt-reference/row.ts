/** A shunt voltage reference as the catalogue offers it. */
import type { CatalogueRow } from '../define.ts'

/** SI units, degrees Celsius. */
export interface ReferenceRow extends CatalogueRow {
  /** Three terminals, any voltage from `vref` up to `cathodeVoltageMax` set by a divider; else two terminals at `vref`. */
  readonly adjustable: boolean
  /** Volts at 25 degC and the test current. */
  readonly vref: { readonly nominal: number; readonly min: number; readonly max: number }
  readonly testCurrent: number
  /** Magnitude of the mean tempco over the ambient range, 1/K, either sign. */
  readonly tempco: { readonly typ: number; readonly max: number }
  /** Dynamic impedance, ohms. */
  readonly impedance: { readonly typ: number; readonly max: number }
  /** What the cathode needs to regulate: typical, and what the sheet asks for. */
  readonly cathodeCurrentMin: { readonly typ: number; readonly max: number }
  /** Recommended largest cathode current. */
  readonly cathodeCurrentMax: number
  /** Largest cathode voltage; the reference voltage itself for two terminals. */
  readonly cathodeVoltageMax: number
  /** Into the reference terminal, amperes; 0 for two terminals. */
  readonly refCurrent: { readonly typ: number; readonly max: number }
  /** Fall of the reference voltage per volt of the cathode's, a magnitude; 0 for two terminals. */
  readonly cathodeEffect: { readonly typ: number; readonly max: number }
  /** Lowest cathode voltage when driven fully on; 0 for two terminals. */
  readonly saturation: number
  /** Junction to ambient in still air, K/W. */
  readonly thermalResistance: number
  readonly junctionMax: number
  readonly ambient: { readonly min: number; readonly max: number }
}
