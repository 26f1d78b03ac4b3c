/** Draws a map on a canvas: winners as colours with their markers, filled-in cells hatched, where each stops meeting, lines of equal margin. */
import { UNKNOWN, isKnown, marginAt, meetsAt, winnerOf } from '../../../engine/explore/cells.ts'
import type { MapPicture } from '../../store/map.ts'
import { MARKS, type TopologyMark } from '../../charts/marks.ts'
import type { Theme } from '../../look/theme.ts'
import { contours } from './contours.ts'

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

  const hatch = hatchOf(context, theme.page)
  if (hatch) {
    context.fillStyle = hatch
    context.globalAlpha = 0.28
    eachRun(
      (cell) => filled[cell] === 1,
      (...box) => context.fillRect(...box),
    )
  }

  const edges = (differ: (a: number, b: number) => boolean): void => {
    context.beginPath()
    for (const line of contours(columns, rows, differ))
      line.forEach(([column, row], k) => {
        if (k === 0) context.moveTo(left(column), top(row - 1))
        else context.lineTo(left(column), top(row - 1))
      })
  }

  context.globalAlpha = 0.75
  context.strokeStyle = theme.inverse
  context.lineWidth = 1
  const margins = Float64Array.from(codes, (_, cell) => marginAt(codes, picture.values, cell))
  for (const level of MARGIN_LINES) {
    edges((a, b) => winnerOf(codes[a]!) === winnerOf(codes[b]!) && (margins[a]! - level) * (margins[b]! - level) < 0)
    context.stroke()
  }
  context.globalAlpha = 1

  MARKS.forEach((mark, k) => {
    edges((a, b) => isKnown(codes[a]!) && isKnown(codes[b]!) && meetsAt(codes[a]!, k) !== meetsAt(codes[b]!, k))
    context.setLineDash([])
    context.lineCap = 'butt'
    context.lineJoin = 'round'
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
      const mark = MARKS[winnerOf(codes[cell] ?? UNKNOWN)]
      if (mark) drawMarker(context, mark, x, y, theme.page)
    }
}

/** A pattern of diagonal lines, as fine on any screen; undefined where there is nothing to draw it on. */
function hatchOf(context: CanvasRenderingContext2D, colour: string): CanvasPattern | undefined {
  const ratio = context.getTransform().a
  const size = Math.round(HATCH_STEP * ratio)
  const tile = document.createElement('canvas')
  tile.width = size
  tile.height = size
  const pen = tile.getContext('2d')
  if (!pen) return undefined
  pen.strokeStyle = colour
  pen.lineWidth = ratio
  pen.beginPath()
  // the line and its neighbours: their ends reach into the corners
  for (const at of [-size, 0, size]) {
    pen.moveTo(at, size)
    pen.lineTo(at + size, 0)
  }
  pen.stroke()
  const pattern = context.createPattern(tile, 'repeat')
  pattern?.setTransform(new DOMMatrix().scale(1 / ratio))
  return pattern ?? undefined
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
