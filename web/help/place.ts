/** Where a sheet of help goes: under its mark, or over it where there is no room below; never out of the page sideways. */
interface Box {
  readonly left: number
  readonly top: number
  readonly bottom: number
}

interface Room {
  readonly width: number
  readonly height: number
}

/** Kept free between the sheet and the edge of the page, in CSS pixels. */
const EDGE = 12
const GAP = 4

/** Left and top of the sheet in the window's coordinates, in CSS pixels. */
export function placed(mark: Box, sheet: Room, view: Room): { left: number; top: number } {
  const left = Math.max(EDGE, Math.min(mark.left, view.width - sheet.width - EDGE))
  const below = mark.bottom + GAP
  const above = mark.top - GAP - sheet.height
  const top = below + sheet.height > view.height - EDGE && above >= EDGE ? above : below
  return { left, top }
}
