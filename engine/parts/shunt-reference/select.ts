/** Questions to the catalogue. */
import type { Mounting } from '../../requirements/study.ts'
import { type AmbientRange, mountsAs, worksOver } from '../define.ts'
import type { ReferenceRow } from './row.ts'
import { REFERENCES } from './rows.ts'

export interface ReferenceQuery {
  /** Volts that must be held: an adjustable one serves any from its reference voltage to its cathode's limit. Both included. */
  readonly vMin: number
  readonly vMax: number
  readonly mounting: Mounting
  /** Ambient in degrees Celsius that the part must be specified for; left out, any part will do. */
  readonly ambient?: AmbientRange
}

/** The references that fit, tightest at 25 degC first, then in order of the catalogue. */
export function referencesFor(query: ReferenceQuery): ReferenceRow[] {
  const { vMin, vMax, mounting, ambient } = query
  return REFERENCES.filter(
    (row) =>
      mountsAs(row, mounting) &&
      (row.adjustable
        ? row.vref.nominal <= vMax && row.cathodeVoltageMax >= vMin
        : row.vref.nominal >= vMin && row.vref.nominal <= vMax) &&
      worksOver(row, ambient),
  ).toSorted((a, b) => spread(a) - spread(b))
}

function spread({ vref }: ReferenceRow): number {
  return (vref.max - vref.min) / vref.nominal
}

/** The row of a part number, or undefined. */
export function findReference(partNumber: string): ReferenceRow | undefined {
  return REFERENCES.find((row) => row.partNumber === partNumber)
}
