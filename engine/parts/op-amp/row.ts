/** An operational amplifier as the catalogue offers it. */
import type { CatalogueRow } from '../define.ts'

/** Amperes delivered or taken, and how far the output then stays from the rail, volts. */
export interface SwingPoint {
  readonly current: number
  readonly drop: number
}

/** SI units, degrees Celsius; gains and rejections are ratios. */
export interface AmplifierRow extends CatalogueRow {
  /** Amplifiers in the package: the idle ones draw their supply current too. */
  readonly channels: number
  readonly supply: { readonly min: number; readonly max: number }
  /** Largest magnitude of the input offset, at 25 degC and over the ambient range, and its typical drift, V/K. */
  readonly offset: { readonly max25: number; readonly max: number; readonly drift: number }
  /** Magnitude; out of the inputs of the typical part. */
  readonly bias: { readonly typ: number; readonly max: number }
  readonly gain: { readonly typ: number; readonly min: number }
  readonly supplyRejection: { readonly typ: number; readonly min: number }
  readonly commonModeRejection: { readonly typ: number; readonly min: number }
  /** Supply and common-mode voltage over the negative rail at which the offset is specified. */
  readonly testSupply: number
  readonly testCommonMode: number
  /** Inputs work from `low` above the negative rail to `high` below the positive; negative means beyond the rail. */
  readonly inputRange: { readonly low: number; readonly high: number }
  /** Typical swing towards the positive rail while sourcing, by rising current; `worst` volts more in the worst part. */
  readonly swingHigh: { readonly points: readonly SwingPoint[]; readonly worst: number }
  /** Swing towards the negative rail with the load tied to it. */
  readonly swingLow: { readonly typ: number; readonly max: number }
  /** Current that the output can source and sink. */
  readonly output: {
    readonly source: { readonly typ: number; readonly min: number }
    readonly sink: { readonly typ: number; readonly min: number }
  }
  /** Supply current of one amplifier. */
  readonly quiescent: { readonly typ: number; readonly max: number }
  /** Open-loop output resistance, used for the swing where the sheet has one point alone. */
  readonly outputResistance: number
  /** Gain-bandwidth product in hertz, slew rate in V/s, both typical. */
  readonly gainBandwidth: number
  readonly slewRate: number
  /** Junction to ambient in still air, K/W. */
  readonly thermalResistance: number
  readonly junctionMax: number
  readonly ambient: { readonly min: number; readonly max: number }
}
