/** Questions to the catalogue. */
import type { Mounting } from '../../requirements/study.ts'
import { mountsAs } from '../define.ts'
import { DIODES } from './catalogue.ts'
import type { DiodeRow } from './row.ts'

export interface DiodeQuery {
  /** Bounds of the nominal voltage, both included. */
  readonly vzMin: number
  readonly vzMax: number
  readonly mounting: Mounting
  /** Smallest acceptable largest current, A; default 0. */
  readonly current?: number
}

/** The diodes that fit, in rising nominal voltage, then rising test current (the smaller diode first). */
export function diodesFor(query: DiodeQuery): DiodeRow[] {
  return DIODES.filter(
    (row) =>
      row.vz.nominal >= query.vzMin &&
      row.vz.nominal <= query.vzMax &&
      mountsAs(row, query.mounting) &&
      row.currentMax >= (query.current ?? 0),
  ).toSorted((a, b) => a.vz.nominal - b.vz.nominal || a.test.current - b.test.current || a.power - b.power)
}

/** The row of a part number, or undefined. */
export function findDiode(partNumber: string): DiodeRow | undefined {
  return DIODES.find((row) => row.partNumber === partNumber)
}
