/** Fixed resistors. */
export { pickResistor, type ResistorChoice, type ResistorNeed, type ResistorShortage } from './pick.ts'
export {
  placeResistor,
  resistorFactor,
  resistorPowerAt,
  resistorShare,
  resistorTcr,
  type ResistorDerating,
  type ResistorOptions,
} from './place.ts'
export type { ResistorRow, TcrStep } from './row.ts'
export { RESISTORS } from './rows.ts'
