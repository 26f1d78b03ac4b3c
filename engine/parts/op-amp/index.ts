/** Operational amplifiers. */
export { amplifierModel, amplifierTolerances, commonModeRange, placeAmplifier } from './model.ts'
export type { AmplifierRow, SwingPoint } from './row.ts'
export { AMPLIFIERS } from './rows.ts'
export { amplifiersFor, findAmplifier, type AmplifierQuery } from './select.ts'
