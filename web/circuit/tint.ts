/** How deep a part is tinted: by its most used rating at its worst corner. Warm is heat; any other stress is a shade of ink. */
import type { Part } from '../../engine/compare/comparison.ts'
import { ratingUses } from '../panels/parts/uses.ts'

export interface Tint {
  readonly isHeat: boolean
  /** From 0, hardly used, to 3, close to the rating. */
  readonly depth: 0 | 1 | 2 | 3
  /** Beyond what the derating policy leaves. */
  readonly isOver: boolean
}

export const DEPTHS = [0, 1, 2, 3] as const

/** Shares of the rating at which the next depth begins. Equal steps, so that the depth can be read back. */
const STEP = 0.25

/** Undefined where no rating of it is under stress. */
export function tintOf(part: Part): Tint | undefined {
  const [most] = ratingUses(part)
  if (!most) return undefined
  const depth = Math.min(Math.max(Math.floor(most.use / STEP), 0), DEPTHS.length - 1) as Tint['depth']
  return { isHeat: most.isHeat, depth, isOver: part.margin < 0 }
}
