/** The catalogue row behind a part number, whatever its family: for analyses that start from a finished design. */
import { CAPACITORS, type CapacitorRow } from './capacitor/index.ts'
import { HEATSINKS, type HeatsinkRow } from './heatsink/index.ts'
import { AMPLIFIERS, type AmplifierRow } from './op-amp/index.ts'
import { DIODES, type DiodeRow } from './reference-diode/index.ts'
import { RESISTORS, type ResistorRow } from './resistor/index.ts'
import { REFERENCES, type ReferenceRow } from './shunt-reference/index.ts'
import { TRANSISTORS, type TransistorRow } from './transistor/index.ts'

export type FoundPart =
  | { readonly family: 'resistor'; readonly row: ResistorRow }
  | { readonly family: 'capacitor'; readonly row: CapacitorRow }
  | { readonly family: 'reference-diode'; readonly row: DiodeRow }
  | { readonly family: 'transistor'; readonly row: TransistorRow }
  | { readonly family: 'op-amp'; readonly row: AmplifierRow }
  | { readonly family: 'shunt-reference'; readonly row: ReferenceRow }
  | { readonly family: 'heatsink'; readonly row: HeatsinkRow }

/** Every row of the catalogue with its family. */
export const CATALOGUE: readonly FoundPart[] = [
  ...RESISTORS.map((row) => ({ family: 'resistor', row }) as const),
  ...CAPACITORS.map((row) => ({ family: 'capacitor', row }) as const),
  ...DIODES.map((row) => ({ family: 'reference-diode', row }) as const),
  ...TRANSISTORS.map((row) => ({ family: 'transistor', row }) as const),
  ...AMPLIFIERS.map((row) => ({ family: 'op-amp', row }) as const),
  ...REFERENCES.map((row) => ({ family: 'shunt-reference', row }) as const),
  ...HEATSINKS.map((row) => ({ family: 'heatsink', row }) as const),
]

const byNumber: ReadonlyMap<string, FoundPart> = new Map(CATALOGUE.map((found) => [found.row.partNumber, found]))

/** Undefined for a part that is not bought from this catalogue. */
export const findPart = (partNumber: string | undefined): FoundPart | undefined =>
  partNumber === undefined ? undefined : byNumber.get(partNumber)
