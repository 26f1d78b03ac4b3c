/** What a catalogue row of a bipolar transistor holds. SI units; temperatures in degrees Celsius; PNP values are magnitudes. */
import type { BjtModel } from '../../devices/elements.ts'
import type { CatalogueRow } from '../define.ts'

/** `table`: printed number; `plot`: read by eye from a typical curve, about ±10 %; `memory`: known, not seen. */
export type HowKnown = 'table' | 'plot' | 'memory'

/** Forward DC current gain IC/IB at a collector current, collector-emitter voltage and junction temperature. */
export interface GainPoint {
  readonly Ic: number
  readonly Vce: number
  readonly Tj: number
  readonly min?: number
  readonly typ?: number
  readonly max?: number
  readonly how: HowKnown
}

/** Base-emitter voltage in the active region, in volts. */
export interface VbePoint {
  readonly Ic: number
  readonly Vce: number
  readonly Tj: number
  readonly min?: number
  readonly typ?: number
  readonly max?: number
  readonly how: HowKnown
}

/** Collector-emitter saturation voltage at 25 °C under a forced base current. */
export interface SaturationPoint {
  readonly Ic: number
  readonly Ib: number
  readonly typ?: number
  readonly max?: number
  readonly how: HowKnown
}

/** Slope of VBE over temperature, volts per kelvin, mean over `from`..`to`. */
export interface VbeSlopePoint {
  readonly Ic: number
  readonly from: number
  readonly to: number
  readonly typ: number
  readonly how: HowKnown
}

/** A corner of the DC safe operating area at a case temperature of 25 °C. */
export interface SafePoint {
  readonly Vce: number
  readonly Ic: number
}

/** Everything that the data sheet says about how the device conducts. */
export interface SheetPoints {
  readonly hFE: readonly GainPoint[]
  readonly VBE: readonly VbePoint[]
  readonly VCEsat: readonly SaturationPoint[]
  readonly dVBEdT: readonly VbeSlopePoint[]
}

/** Maximum collector cut-off current. ICBO: emitter open; ICES: base shorted to emitter; ICEX: base reverse-biased; ICEO: base open. */
export interface Leakage {
  readonly kind: 'ICBO' | 'ICES' | 'ICEX' | 'ICEO'
  readonly max: number
  /** Volts across the blocked junction, or from collector to emitter. */
  readonly voltage: number
  readonly temperature: number
  /** A second limit at a hot junction, where the sheet prints one. */
  readonly hot?: { readonly max: number; readonly temperature: number }
}

/** Two transistors and two base-emitter resistors in one package; each resistor lies across the junction of its transistor. */
export interface DarlingtonModel {
  readonly driver: BjtModel
  readonly output: BjtModel
  readonly Rbe1: number
  readonly Rbe2: number
}

export type TransistorModel = BjtModel | DarlingtonModel

export interface TransistorRow extends CatalogueRow {
  readonly polarity: 'npn' | 'pnp'
  readonly darlington: boolean
  /** hFE selection group by its trade mark (`-16`, `B`), where the part is sold by it. */
  readonly gainGroup?: string
  readonly complement?: string
  readonly VCEO: number
  readonly VCBO: number
  readonly VEBO: number
  readonly Ic_max: number
  readonly Ib_max?: number
  /** Watts at a case temperature of 25 °C; absent where the sheet has none. */
  readonly Pcase?: number
  /** Watts at an ambient of 25 °C, no heatsink. */
  readonly Pambient: number
  /** Kelvin per watt; junction to case is absent where the sheet has none. */
  readonly thetaJC?: number
  readonly thetaJA: number
  readonly Tj_max: number
  readonly leakage: Leakage
  /** Transition frequency in hertz. */
  readonly fT_min?: number
  readonly fT_typ?: number
  /** Output capacitance in farads. */
  readonly Cob_max?: number
  readonly Cob_typ?: number
  readonly points: SheetPoints
  /** DC safe area at TC 25 °C by rising voltage; the second entry on is the second-breakdown branch. Empty: power alone limits. */
  readonly safeArea: readonly SafePoint[]
  readonly model: TransistorModel
  /** Where the model's numbers come from and how sure they are. */
  readonly modelNote: string
}

export function isDarlington(model: TransistorModel): model is DarlingtonModel {
  return 'driver' in model
}
