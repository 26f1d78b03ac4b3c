/** Prices and board areas as the catalogue holds them: by kind of part, with where each comes from. */
import type { Confidence } from '../define.ts'

export interface PriceRow {
  /** Euro each; absent where nobody has put a figure to it: then it must be entered, and no total is made without it. */
  readonly price?: number
  /** Pieces that the price is for. */
  readonly quantity: number
  readonly date: string
  readonly source: string
  /** No price here is a quote. */
  readonly confidence: 'assumption'
  /** What it was set beside, a listing that somebody saw say. Never used as the price. */
  readonly note: string
}

export interface AreaRow {
  /** Square metres of board; absent where it is not known, or where each row of a heatsink has its own. */
  readonly area?: number
  readonly source: string
  readonly confidence: Confidence
  readonly note: string
}
