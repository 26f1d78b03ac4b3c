/** Heatsinks in still air, and what lies between them and a case. */
export { interfaceOf, interfaceResistance, INTERFACES } from './interfaces.ts'
export { heatsinkResistanceAt, pickHeatsink, type HeatsinkChoice, type HeatsinkNeed } from './pick.ts'
export type { HeatsinkRow, InterfaceRow } from './row.ts'
export { HEATSINKS } from './rows.ts'
