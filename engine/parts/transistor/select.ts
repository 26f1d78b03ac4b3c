/** Questions to the catalogue. */
import type { Mounting } from '../../requirements/study.ts'
import { mountsAs } from '../define.ts'
import type { TransistorRow } from './row.ts'
import { TRANSISTORS } from './rows.ts'

/** Every field that is given must hold; volts and amperes are full ratings, so derate before asking. */
export interface TransistorQuery {
  readonly polarity?: 'npn' | 'pnp'
  readonly darlington?: boolean
  readonly mounting?: Mounting
  readonly package?: string
  /** Least VCEO. */
  readonly VCEO?: number
  /** Least IC,max. */
  readonly Ic?: number
  /** Least power at a case temperature of 25 °C, or in still air where the sheet has no other, watts. */
  readonly power?: number
}

/** The transistors that fit, the smaller (power, then current) first. */
export function transistors(query: TransistorQuery = {}): TransistorRow[] {
  return TRANSISTORS.filter(
    (row) =>
      (query.polarity === undefined || row.polarity === query.polarity) &&
      (query.darlington === undefined || row.darlington === query.darlington) &&
      mountsAs(row, query.mounting ?? 'any') &&
      (query.package === undefined || row.package === query.package) &&
      row.VCEO >= (query.VCEO ?? 0) &&
      row.Ic_max >= (query.Ic ?? 0) &&
      headlinePower(row) >= (query.power ?? 0),
  ).toSorted((a, b) => headlinePower(a) - headlinePower(b) || a.Ic_max - b.Ic_max)
}

/** The row of a part number, or undefined. */
export function findTransistor(partNumber: string): TransistorRow | undefined {
  return TRANSISTORS.find((row) => row.partNumber === partNumber)
}

/** Watts at a case temperature of 25 °C, or in still air where the sheet has no other: says how large the package is. */
export function headlinePower(row: TransistorRow): number {
  return row.Pcase ?? row.Pambient
}
