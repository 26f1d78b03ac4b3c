/** What every part family says about its rows. Each family has a folder of its own and one line in `index.ts`. */
import type { Element } from '../devices/elements.ts'
import type { Mounting } from '../requirements/study.ts'

/** `read`: seen in the named source; `memory`: known but not seen; `derived`: computed from read numbers; `assumption`: a guess, marked. */
export type Confidence = 'read' | 'memory' | 'derived' | 'assumption'

/** Where a row's numbers come from. */
export interface Sourced {
  readonly source: string
  readonly confidence: Confidence
  /** Fields of a `read` row that are nevertheless from memory; empty where there are none. */
  readonly memoryFields: readonly string[]
  readonly note: string
}

export type RowMounting = 'through-hole' | 'surface-mount'

export interface CatalogueRow extends Sourced {
  readonly partNumber: string
  readonly package: string
  readonly mounting: RowMounting
}

/** Whether the part may be used where parts are mounted so. */
export const mountsAs = (row: { readonly mounting: RowMounting }, mounting: Mounting): boolean =>
  mounting === 'any' || row.mounting === mounting

/** Temperatures in degrees Celsius. */
export interface AmbientRange {
  readonly min: number
  readonly max: number
}

/** Whether the part is specified over the whole of `range`; without a range any part is. */
export const worksOver = (row: { readonly ambient: AmbientRange }, range: AmbientRange | undefined): boolean =>
  range === undefined || (row.ambient.min <= range.min && row.ambient.max >= range.max)

/**
 * What one tolerance does to one parameter of one element, u running from -1 (low) over 0 (nominal) to +1 (high):
 * `add`: nominal + |u| * (u < 0 ? low : high); `scale`: nominal * (u < 0 ? low : high) ** |u|.
 * Several effects on one parameter combine: every `scale` multiplies, then every `add` adds.
 */
export interface Effect {
  readonly element: string
  readonly parameter: string
  readonly how: 'add' | 'scale'
  readonly low: number
  readonly high: number
}

/** One independent way in which a bought part may stray from nominal. */
export interface Tolerance {
  /** `<partId>.<quantity>`, e.g. `R1.resistance`, `D1.Vz`, `Q1.hFE`. */
  readonly id: string
  readonly part: string
  readonly label: string
  readonly effects: readonly Effect[]
}

/** A part as the circuit sees it. */
export interface PlacedPart {
  readonly elements: readonly Element[]
  readonly tolerances: readonly Tolerance[]
}
