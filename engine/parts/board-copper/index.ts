/** Copper of the board as a heatsink. */
export { boardCopper, copperResistance, leastCopper } from './copper.ts'
export type { BoardCopperRow } from './row.ts'
export { BOARD_COPPER } from './rows.ts'
