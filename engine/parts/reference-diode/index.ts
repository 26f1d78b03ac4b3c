/** Reference (zener) diodes. */
export { DIODES } from './catalogue.ts'
export { diodeModel, diodePowerAt, diodeTolerances, NOMINAL_IMPEDANCE, placeDiode } from './model.ts'
export type { DiodeFamily } from './published.ts'
export type { DiodeRow, Tempco } from './row.ts'
export { diodesFor, findDiode, type DiodeQuery } from './select.ts'
