/** How far copper under a package helps. */
import type { BoardCopperRow } from './row.ts'
import { BOARD_COPPER } from './rows.ts'

const areaOf = (row: BoardCopperRow): number => row.area ?? 0

/** What is published of a package and may be built on, the least copper first. */
export function boardCopper(housing: string): BoardCopperRow[] {
  return BOARD_COPPER.filter((row) => row.package === housing && row.isDoubtful !== true).toSorted(
    (a, b) => areaOf(a) - areaOf(b),
  )
}

/**
 * Kelvin per watt from junction to ambient with `area` square metres of copper, by one source's rows (those of `like`'s source):
 * straight on logarithmic scales between two areas, the smaller area's value below the first one and the largest's beyond the last,
 * since nothing is published there. SOT-223 (Infineon), 450 mm²: 73 K/W.
 */
export function copperResistance(like: BoardCopperRow, area: number): number {
  const rows = boardCopper(like.package).filter((row) => row.source === like.source)
  const above = rows.findIndex((row) => areaOf(row) >= area)
  const right = rows[above === -1 ? rows.length - 1 : above] ?? like
  const left = above > 0 ? rows[above - 1] : undefined
  if (left === undefined || areaOf(right) === area) return right.thermalResistance
  // between a footprint without an area and the first area nothing is known: the worse of the two stands
  if (left.area === undefined) return left.thermalResistance
  const share = Math.log(area / left.area) / Math.log(areaOf(right) / left.area)
  return left.thermalResistance * (right.thermalResistance / left.thermalResistance) ** share
}

/** The row with the least copper that reaches `required` K/W from junction to ambient; undefined where none does. */
export function leastCopper(housing: string, required: number): BoardCopperRow | undefined {
  return boardCopper(housing).find((row) => row.thermalResistance <= required)
}
