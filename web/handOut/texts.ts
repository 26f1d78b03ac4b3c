/** The text of the page as SVG: a text for each line that it is broken into, where that line stands. */
import { round } from './boxes.ts'
import type { Origin } from './boxes.ts'

export const escape = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;')

/** Between these a line may break: before a word and after its hyphens. No-break spaces are letters. */
const PIECES = /[^ \t\r\n-]+-*|-+/gu

interface Line {
  from: number
  to: number
  box: DOMRect
}

function boxAt(node: Text, from: number, to: number): DOMRect {
  const range = document.createRange()
  range.setStart(node, from)
  range.setEnd(node, to)
  return range.getBoundingClientRect()
}

function linesOf(node: Text): Line[] {
  const lines: Line[] = []
  for (const { 0: piece, index } of node.data.matchAll(PIECES)) {
    const box = boxAt(node, index, index + piece.length)
    const last = lines.at(-1)
    if (box.width === 0) continue
    if (last && Math.abs(last.box.top - box.top) < box.height / 2) {
      last.to = index + piece.length
      last.box = boxAt(node, last.from, last.to)
    } else lines.push({ from: index, to: index + piece.length, box })
  }
  return lines
}

let pen: CanvasRenderingContext2D | null = null

/** From the top of a box of text to its baseline. */
function baselineOf(style: CSSStyleDeclaration, height: number): number {
  pen ??= document.createElement('canvas').getContext('2d')!
  pen.font = style.font
  const { fontBoundingBoxAscent: above, fontBoundingBoxDescent: below } = pen.measureText('x')
  return (height - above - below) / 2 + above
}

/** The words in capitals where the page shows them so. */
function cased(text: string, node: Text, { textTransform }: CSSStyleDeclaration): string {
  if (textTransform === 'uppercase') return text.toUpperCase()
  const parent = node.parentElement
  const isFirst = parent !== null && parent.firstChild === node
  if (!isFirst || getComputedStyle(parent, '::first-letter').textTransform !== 'uppercase') return text
  return text.replace(/^\p{L}/u, (letter) => letter.toUpperCase())
}

/** A text for each line. The space towards the words before it is kept, so that the texts read on as they do on the page. */
export function textOf(node: Text, style: CSSStyleDeclaration, origin: Origin): string {
  return linesOf(node)
    .map((line, k) => {
      const before = line.from > 0 && /\s/u.test(node.data[line.from - 1]!) ? line.from - 1 : line.from
      const space = k === 0 && before < line.from ? boxAt(node, before, line.from) : undefined
      const hasSpace = space !== undefined && space.width > 0 && Math.abs(space.top - line.box.top) < 1
      const left = hasSpace ? space.left : line.box.left
      const words = node.data.slice(line.from, line.to).replaceAll(/[ \t\r\n]+/gu, ' ')
      const text = (hasSpace ? ' ' : '') + (k === 0 ? cased(words, node, style) : words)
      const y = line.box.top + baselineOf(style, line.box.height) - origin.top
      const numerals =
        style.fontVariantNumeric === 'normal' ? '' : ` style="font-variant-numeric:${style.fontVariantNumeric}"`
      return `<text xml:space="preserve" x="${round(left - origin.left)}" y="${round(y)}" textLength="${round(line.box.right - left)}" lengthAdjust="spacingAndGlyphs" fill="${style.color}" font-family="${escape(style.fontFamily)}" font-size="${style.fontSize}" font-weight="${style.fontWeight}" font-style="${style.fontStyle}"${numerals}>${escape(text)}</text>`
    })
    .join('')
}
