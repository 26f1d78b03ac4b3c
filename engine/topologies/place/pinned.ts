/** Parts that the user pinned. */
import type { Need } from '../define.ts'

/** The part number pinned at this place; a pinned value is none. */
export function pinnedNumber(need: Need, id: string): string | undefined {
  const pinned = need.pins[id]
  return typeof pinned === 'string' ? pinned : undefined
}

/** The value pinned at this place; a pinned part number is none. */
export function pinnedValue(need: Need, id: string): number | undefined {
  const pinned = need.pins[id]
  return typeof pinned === 'number' ? pinned : undefined
}

/** The pinned row alone, no row where the list has no such part; undefined without a pin. */
export function pinnedRows<Row>(
  need: Need,
  id: string,
  find: (partNumber: string) => Row | undefined,
): Row[] | undefined {
  const number = pinnedNumber(need, id)
  return number === undefined ? undefined : [find(number)].filter((row) => row !== undefined)
}
