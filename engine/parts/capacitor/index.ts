/** Capacitors. */
export {
  capacitanceAt,
  capacitorFactor,
  capacitorShare,
  pickCapacitor,
  placeCapacitor,
  type CapacitorChoice,
  type CapacitorDerating,
  type CapacitorNeed,
} from './pick.ts'
export type { CapacitorKind, CapacitorRow } from './row.ts'
export { CAPACITORS } from './rows.ts'
