/** The study file's content with every default filled in. Values are SI, temperatures degrees Celsius, percentages fractions. */
import type { Assumptions } from './assumed.ts'
import type { ProfileRow } from './profile.ts'

export type { AreaName, Assumptions, EnvironmentName, PriceName, QualityName } from './assumed.ts'
export type { ProfileRow } from './profile.ts'

export interface InputRequirement {
  /** Lowest and highest voltage at any instant: the ripple lies inside them. */
  min: number
  nominal: number
  max: number
  /** Volts peak to peak. */
  ripple: number
  /** Hertz. */
  rippleFrequency: number
}

export interface OutputRequirement {
  voltage: number
  /** Half-width of the allowed band as a fraction of the voltage. */
  tolerance: number
}

export interface LoadRequirement {
  min: number
  nominal: number
  max: number
  /** True where the load can never be taken away: the parts then need not survive an unloaded output. */
  permanent: boolean
}

export interface AmbientRequirement {
  min: number
  nominal: number
  max: number
}

/** A limit left out is absent: it is not judged. */
export interface Limits {
  /** Fraction of the nominal output. */
  loadRegulation?: number
  /** Fraction of the nominal output. */
  lineRegulation?: number
  /** Volts peak to peak. */
  outputRipple?: number
  survivesShort: boolean
}

export type SeriesName = 'E6' | 'E12' | 'E24' | 'E48' | 'E96' | 'E192'
export type Mounting = 'through-hole' | 'surface-mount' | 'any'
export type DeratingName =
  | 'standard'
  | 'navsea-sd-18-protected'
  | 'navsea-sd-18'
  | 'navsea-sd-18-severe'
  | 'nasa-eee-inst-002'
  | 'ecss-q-st-30-11c'
  | 'none'

export interface PartsRequirement {
  resistorSeries: SeriesName
  resistorTolerance: number
  mounting: Mounting
}

export interface Requirements {
  input: InputRequirement
  output: OutputRequirement
  load: LoadRequirement
  ambient: AmbientRequirement
  limits: Limits
  parts: PartsRequirement
  derating: DeratingName
}

/** Weights by figure name, 0 to 10; an absent figure weighs nothing. */
export type Weights = Record<string, number>

/** Parts and values that the user wants used: part numbers, or values in SI, by part id (`D1: '1N4743A'`, `R1: 1300`). */
export type Pins = Readonly<Record<string, string | number>>
/** A topology without pins is absent. */
export type PinsByTopology = Partial<Record<'shunt' | 'series-pass' | 'feedback', Pins>>

export interface Study {
  title: string
  /** Free words of whoever keeps the study; absent where there are none. Nothing is computed from them. */
  notes?: string
  requirements: Requirements
  /** Guesses beside the requirements: no design depends on them. */
  assumptions: Assumptions
  weights: Weights
  /** Absent where nothing is pinned. */
  pins?: PinsByTopology
  /** How the time divides over load currents, where it is known: no design depends on it. */
  profile?: ProfileRow[]
}
