/** What a topology is: variants in order of simplicity, each one description from which sizing, circuit, part list and working all come. */
import type { Netlist } from '../devices/elements.ts'
import type { DeratingPolicy, FactorName, JunctionKind } from '../parts/derating/index.ts'
import type { Confidence, Tolerance } from '../parts/define.ts'
import type { Pins, Requirements } from '../requirements/study.ts'
import type { Worked, Working } from './working.ts'

export type { Pins } from '../requirements/study.ts'

export type TopologyName = 'shunt' | 'series-pass' | 'feedback'

/** What is read off a solved point to hold against a rating. */
export type Measure =
  | { readonly of: 'power' }
  | { readonly of: 'junction' }
  | { readonly of: 'voltage'; readonly plus: string; readonly minus: string }
  | { readonly of: 'current'; readonly element: string; readonly terminal: number }

/** One rating of one part. Ambient and junction in degrees Celsius. */
export type Limit = AmbientLimit | PointLimit

interface AnyLimit {
  readonly quantity: string
  readonly unit: string
  readonly measure: Measure
  /** What the maker allows. */
  readonly rating: number
  /** `min` for a quantity that must not fall below its rating, a minimum cathode current say. */
  readonly sense: 'max' | 'min'
  /** The number of the policy that derates it; absent where no policy does. */
  readonly factor?: FactorName
}

/** What is allowed depends on the ambient alone. */
export interface AmbientLimit extends AnyLimit {
  readonly isByPoint?: undefined
  /** What the derating policy leaves of it. */
  readonly derated: (ambient: number) => number
  /** What a fault may use of it: the maker's figure at this ambient, no policy. */
  readonly inFault: (ambient: number) => number
}

/** A safe operating area: what is allowed depends on voltage and case temperature too. */
export interface PointLimit extends AnyLimit {
  readonly isByPoint: true
  readonly derated: (ambient: number, at: StressPoint) => number
  readonly inFault: (ambient: number, at: StressPoint) => number
}

/** What a limit that depends on more than one quantity may look at. */
export interface StressPoint {
  /** Volts from collector to emitter, or across the part. */
  voltage: number
  /** Watts in the part. */
  power: number
  junction: number
}

/** Where heat passes on its way from where it arises to the air. */
export type HeatNode = 'junction' | 'body' | 'case' | 'lead' | 'sink' | 'ambient'

/** One stretch of that way. */
export interface HeatStretch {
  readonly from: HeatNode
  readonly to: HeatNode
  /** As it counts in the design, a heatsink's derating included. */
  readonly kelvinPerWatt: number
  readonly source: string
  readonly confidence: Confidence
  readonly note?: string
}

export interface DesignPart {
  readonly id: string
  readonly role: string
  readonly value?: number
  readonly unit?: string
  readonly partNumber?: string
  readonly package?: string
  /** Kelvin per watt from junction (or body) to ambient, cooling as built; absent where the part does not dissipate. */
  readonly thermalResistance?: number
  /** The same, stretch by stretch from where the heat arises to the ambient; their sum is `thermalResistance`. */
  readonly heatPath?: readonly HeatStretch[]
  /** Its semiconductor: by which of the policy's rules its junction is judged, and its maximum, °C. */
  readonly semiconductor?: { readonly kind: JunctionKind; readonly junctionMax: number }
  /** The part that this one, a heatsink, cools. */
  readonly cools?: string
  /** Across which nodes the voltage of a `StressPoint` is taken. */
  readonly across?: readonly [string, string]
  readonly limits: readonly Limit[]
  readonly source?: string
  readonly confidence?: string
  readonly note?: string
}

/** A complete buildable design: fixed parts, nothing left to choose. Corners re-solve it; they never resize it. */
export interface SizedDesign {
  readonly topology: TopologyName
  readonly variant: string
  readonly netlist: Netlist
  readonly output: string
  readonly parts: readonly DesignPart[]
  readonly tolerances: readonly Tolerance[]
  /** Half of the spread of the reference alone, as a fraction of the output: a first measure of how wide the band must be. */
  readonly referenceSpread: number
  readonly guess: Readonly<Record<string, number>>
  readonly worked: Worked
  readonly assumptions: readonly string[]
  readonly cautions: readonly string[]
  readonly notEvaluated: readonly string[]
  /** Nodes that stay a fixed voltage above the output, and nodes that are a share of it: where to look for them when it is forced. */
  readonly follows: readonly string[]
  readonly divides: readonly string[]
  /** True where the loop could rest in a state other than the wanted one, so that start-up has to be proven. */
  readonly mayNotStart?: boolean
}

/** Why a candidate could not be built: a named requirement with its numbers. */
export interface Refusal {
  readonly refused: true
  readonly requirement: string
  readonly required: number
  readonly achieved: number
  readonly unit: string
  readonly because: string
}

/** What the last proof asked of a part, so that the next sizing can choose a part for it. */
export interface Demand {
  /** Watts at the worst corner of its power or of its junction. */
  power: number
  voltage: number
  /** Watts with the output shorted. */
  shortPower: number
}
export type Demands = Readonly<Record<string, Demand>>

export interface Need {
  readonly requirements: Requirements
  readonly policy: DeratingPolicy
  readonly pins: Pins
}

/** One set of principal parts to size around. */
export interface Candidate {
  readonly label: string
  /** The numbers that the working takes from them; asked for only where it is built, since they may cost a search. */
  readonly givens: () => Readonly<Record<string, number>>
  readonly build: (worked: Worked, demands: Demands) => SizedDesign | Refusal
}

export interface Variant {
  readonly name: string
  /** What makes it the next step up, for the sentence that says why it was taken. */
  readonly title: string
  readonly working: Working
  /** Whether this variant is meant for these requirements at all (a current limiter only where a short must be survived). */
  readonly suits: (need: Need) => boolean
  /** Candidates, the most promising first; a refusal where the list holds none. */
  readonly candidates: (need: Need) => Candidate[] | Refusal
}

export interface Topology {
  readonly name: TopologyName
  readonly title: string
  /** Simplest first. */
  readonly variants: readonly Variant[]
}

export const isRefusal = (x: unknown): x is Refusal => typeof x === 'object' && x !== null && 'refused' in x
