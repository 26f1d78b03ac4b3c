/** What parts may cost and how much board they take. Assumptions all: the study may put its own in their place. */
export { AREAS } from './areas.ts'
export { kindOf, type Kind } from './kinds.ts'
export { PRICES } from './prices.ts'
export type { AreaRow, PriceRow } from './row.ts'
