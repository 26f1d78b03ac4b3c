/** What the run says, in words and figures. */
import type { BoardSummary } from '../../../engine/compare/boards.ts'
import { formatQuantity } from '../../../engine/units/index.ts'

/** `10,000`. */
export const countText = (count: number): string => String(count).replace(/\B(?=(?:\d{3})+$)/gu, ',')

export const volts = (value: number): string => formatQuantity(value, 'V')

/** `4.03 to 5.34 V`. */
export function rangeText(low: number, high: number): string {
  const [from, to] = [volts(low), volts(high)]
  const [bare = from] = from.split('\u202F')
  return from.slice(bare.length) === to.slice(to.indexOf('\u202F')) ? `${bare} to ${to}` : `${from} to ${to}`
}

/** Boards of a run, as a share of them; rounded so that the interval is never narrower than it is. */
const atLeast = (share: number, boards: number): number => Math.floor(share * boards + 1e-9)
const atMost = (share: number, boards: number): number => Math.ceil(share * boards - 1e-9)

const confidence = (share: number): string => `${formatQuantity(share, 'fraction', 2)} sure`

/** `997 of 1,000 boards inside, 95 % sure between 991 and 999`; undefined where no board has a solution. */
export function yieldText({ solved, yield: found }: BoardSummary): string | undefined {
  if (!found) return undefined
  const { inside, low, high } = found
  const all = countText(solved)
  const sure = confidence(found.confidence)
  if (inside === solved) return `all ${all} boards inside, ${sure} of at least ${countText(atLeast(low, solved))}`
  if (inside === 0) return `none of ${all} boards inside, ${sure} of at most ${countText(atMost(high, solved))}`
  const ends = `${countText(atLeast(low, solved))} and ${countText(atMost(high, solved))}`
  return `${countText(inside)} of ${all} boards inside, ${sure} between ${ends}`
}

/** `8 too low, 12 too high`; empty where none is. */
export function outsideText({ yield: found }: BoardSummary): string {
  if (!found) return ''
  const { below, above } = found
  return [below > 0 && `${countText(below)} too low`, above > 0 && `${countText(above)} too high`]
    .filter(Boolean)
    .join(', ')
}

/** `3 boards have no solution and are counted apart`; empty where all have. */
export function unsolvedText({ boards, solved }: BoardSummary): string {
  const without = boards - solved
  if (without === 0) return ''
  return `${countText(without)} ${without === 1 ? 'board has' : 'boards have'} no solution and ${without === 1 ? 'is' : 'are'} counted apart`
}
