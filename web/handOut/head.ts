/** What stands over a copied plot: its title, and the names of the marks where the plot itself does not give them. */
import { MARKS } from '../charts/marks.ts'
import type { TopologyMark } from '../charts/marks.ts'
import type { Theme } from '../look/theme.ts'
import { escape } from './texts.ts'

/** Pixels: the size of the type, the height of a line, from one name of the key to the mark of the next. */
const [SIZE, LINE, GAP] = [14.5, 24, 24]

/** Letters of this face are somewhat less than half as wide as high. */
const widthOf = (text: string) => text.length * SIZE * 0.47

/** Square, triangle or circle, 10 pixels wide around a place. */
function shapeOf({ marker, token }: TopologyMark, x: number, y: number, paper: Readonly<Theme>): string {
  const fill = `fill="${paper[token]}"`
  if (marker === 'square') return `<rect x="${x - 4.5}" y="${y - 4.5}" width="9" height="9" ${fill}/>`
  if (marker === 'triangle') return `<polygon points="${x},${y - 5} ${x + 5},${y + 4.5} ${x - 5},${y + 4.5}" ${fill}/>`
  return `<circle cx="${x}" cy="${y}" r="5" ${fill}/>`
}

export function headOf(
  title: string,
  hasKey: boolean,
  edge: number,
  paper: Readonly<Theme>,
): { drawn: string; width: number; height: number } {
  const font = `font-family="${escape(paper.sans)}" font-size="${SIZE}" fill="${paper.ink}"`
  const name = `<text x="${edge}" y="${edge + SIZE}" ${font} font-weight="640">${escape(title)}</text>`
  let x = edge + 5
  let key = ''
  if (hasKey)
    for (const mark of MARKS) {
      const base = edge + LINE + SIZE
      key += `${shapeOf(mark, x, base - 5, paper)}<text x="${x + 11}" y="${base}" ${font}>${escape(mark.name)}</text>`
      x = Math.round(x + 11 + widthOf(mark.name) + GAP)
    }
  return {
    drawn: name + key,
    width: Math.max(widthOf(title), x - edge),
    height: (hasKey ? 2 : 1) * LINE + 12,
  }
}
