/** Draws a map on a canvas: winners as colours with their markers, filled-in cells hatched, where each stops meeting, lines of equal margin. */
import type { MapPicture } from '../../store/map.ts'
import { MARKS, type TopologyMark } from '../../charts/marks.ts'
import type { Theme } from '../../look/theme.ts'
import { isKnown, marginAt, meetsAt, winnerOf } from './words.ts'

/** Points of margin at which a line is drawn. */
export const MARGIN_LINES = [5, 15, 30] as const

/** CSS pixels between the markers of a region, and of the hatch. */
const MARKER_STEP = 46
const HATCH_STEP = 6

/** Row 0 lies at the bottom. `width` and `height` in CSS pixels; the context is scaled already. */
export function drawMap(
  context: CanvasRenderingContext2D,
  picture: MapPicture,
  theme: Theme,
  width: number,
  height: number,
): void {
  const columns = picture.question.x.count
  const rows = picture.question.y.count
  const w = width / columns
  const h = height / rows
  const { codes, filled } = picture
  context.clearRect(0, 0, width, height)
  context.fillStyle = theme.sunk
  context.fillRect(0, 0, width, height)
  // on whole pixels: cells of one colour must not show a seam
  const left = (column: number): number => Math.round(column * w)
  const top = (row: number): number => Math.round(height - (row + 1) * h)
  /** One rectangle for each run of cells in a row that are alike: a canvas takes thousands of single ones to heart. */
  const eachRun = (
    isIn: (cell: number) => boolean,
    take: (x: number, y: number, w: number, h: number) => void,
  ): void => {
    for (let row = 0; row < rows; row++) {
      let begun = -1
      for (let column = 0; column <= columns; column++) {
        const goesOn = column < columns && isIn(column + row * columns)
        if (goesOn && begun < 0) begun = column
        if (goesOn || begun < 0) continue
        take(left(begun), top(row), left(column) - left(begun), top(row - 1) - top(row))
        begun = -1
      }
    }
  }

  for (let k = 0; k < MARKS.length; k++) {
    context.fillStyle = theme[MARKS[k]!.token]
    eachRun(
      (cell) => winnerOf(codes[cell]!) === k,
      (...box) => context.fillRect(...box),
    )
  }

  // hatch: lines of one continuous pattern, clipped to the cells that were filled in
  context.save()
  context.beginPath()
  eachRun(
    (cell) => filled[cell] === 1,
    (...box) => context.rect(...box),
  )
  context.clip()
  context.beginPath()
  for (let at = -height; at < width; at += HATCH_STEP) {
    context.moveTo(at, height)
    context.lineTo(at + height, 0)
  }
  context.globalAlpha = 0.28
  context.strokeStyle = theme.page
  context.lineWidth = 1
  context.stroke()
  context.restore()

  const edges = (differ: (a: number, b: number) => boolean): void => {
    context.beginPath()
    for (let row = 0; row < rows; row++)
      for (let column = 0; column < columns; column++) {
        const cell = column + row * columns
        if (column + 1 < columns && differ(cell, cell + 1)) {
          context.moveTo(left(column + 1), top(row))
          context.lineTo(left(column + 1), top(row) + h)
        }
        if (row + 1 < rows && differ(cell, cell + columns)) {
          context.moveTo(left(column), top(row))
          context.lineTo(left(column) + w, top(row))
        }
      }
  }

  context.globalAlpha = 0.75
  context.strokeStyle = theme.inverse
  context.lineWidth = 1
  const margins = Float64Array.from(codes, (_, cell) => marginAt(picture, cell))
  for (const level of MARGIN_LINES) {
    edges((a, b) => winnerOf(codes[a]!) === winnerOf(codes[b]!) && (margins[a]! - level) * (margins[b]! - level) < 0)
    context.stroke()
  }
  context.globalAlpha = 1

  MARKS.forEach((mark, k) => {
    edges((a, b) => isKnown(codes[a]!) && isKnown(codes[b]!) && meetsAt(codes[a]!, k) !== meetsAt(codes[b]!, k))
    context.setLineDash([])
    context.lineCap = 'butt'
    context.strokeStyle = theme.page
    context.lineWidth = 5
    context.stroke()
    context.setLineDash(mark.dash === 'solid' ? [] : [...mark.dash])
    context.lineCap = 'round'
    context.strokeStyle = theme[mark.token]
    context.lineWidth = mark.width
    context.stroke()
  })
  context.setLineDash([])

  for (let y = MARKER_STEP / 2; y < height; y += MARKER_STEP)
    for (let x = MARKER_STEP / 2; x < width; x += MARKER_STEP) {
      const cell = Math.floor(x / w) + Math.floor((height - y) / h) * columns
      const mark = MARKS[winnerOf(codes[cell] ?? 255)]
      if (mark) drawMarker(context, mark, x, y, theme.page)
    }
}

function drawMarker(context: CanvasRenderingContext2D, mark: TopologyMark, x: number, y: number, colour: string): void {
  context.fillStyle = colour
  context.beginPath()
  if (mark.marker === 'circle') context.arc(x, y, 4.5, 0, 2 * Math.PI)
  else if (mark.marker === 'square') context.rect(x - 4, y - 4, 8, 8)
  else {
    context.moveTo(x, y - 5)
    context.lineTo(x + 5, y + 4)
    context.lineTo(x - 5, y + 4)
  }
  context.fill()
}
