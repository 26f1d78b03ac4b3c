/** Fixed resistors. */
export { pickResistor, type ResistorChoice, type ResistorNeed, type ResistorShortage } from './pick.ts'
export { placeResistor, resistorPowerAt, resistorTcr, type ResistorOptions } from './place.ts'
export type { ResistorRow, TcrStep } from './row.ts'
export { RESISTORS } from './rows.ts'
