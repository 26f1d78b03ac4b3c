/** Shunt voltage references, adjustable and fixed. */
export { placeReference, referenceModel, referenceTolerances } from './model.ts'
export type { ReferenceRow } from './row.ts'
export { REFERENCES } from './rows.ts'
export { findReference, referencesFor, type ReferenceQuery } from './select.ts'
