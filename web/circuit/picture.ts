/**
 * A drawn circuit as a tree of SVG elements in plain data: the page renders it, a file is written from it. Classes carry all
 * colours, so that both can be styled.
 */
import { formatQuantity } from '../../engine/units/index.ts'
import { type Markup, markup } from '../look/markup.ts'
import type { Drawing, NodeText } from './layout.ts'
import { symbolBox, textBox } from './layout.ts'
import type { Live, LivePart } from './live.ts'
import { LOAD } from './parts.ts'
import type { Placed } from './place.ts'
import type { Box, Turn } from './symbols.ts'
import { SYMBOLS } from './symbols.ts'
import type { Letters, TextLine } from './text.ts'
import { textWidth } from './text.ts'
import type { Tint } from './tint.ts'

export interface PictureChoice {
  readonly live?: Live | undefined
  readonly tints?: ReadonlyMap<string, Tint> | undefined
  /** Id of a part that is lit. */
  readonly highlight?: string | undefined
  /** Says a part aloud; parts can be reached by keyboard where it is given. */
  readonly labelOf?: ((id: string) => string) | undefined
  /** The output is outside of what is required. */
  readonly isOutside?: boolean
}

/** How far the ground of a part reaches beyond its symbol and its text, and its shade beyond its symbol. */
const REACH = 3
const SHADE = 1

/** From the top of a line to its baseline, as a share of the line. */
const BASELINE = 0.79

export function pictureOf(drawing: Drawing, choice: PictureChoice = {}): Markup[] {
  const { placed, wires, dots, terminals, groundMark, nodeTexts } = drawing
  const { x, y } = groundMark
  return [
    // under the wires, so that no shade hides the end of one
    ...placed.map((one) => groundOf(one, choice)),
    markup('g', { class: 'wires' }, [
      ...wires.map(({ net, from, to }) =>
        markup('path', { class: 'wire', 'data-node': net, d: `M${from.x},${from.y}L${to.x},${to.y}` }),
      ),
      markup('path', {
        class: 'wire',
        d: `M${x},${y}V${y + 6}M${x - 7},${y + 6}H${x + 7}M${x - 4},${y + 9}H${x + 4}M${x - 1.5},${y + 12}H${x + 1.5}`,
      }),
      ...dots.map((dot) => markup('circle', { class: 'dot', cx: dot.x, cy: dot.y, r: 2.4 })),
      ...terminals.map((spot) => markup('circle', { class: 'terminal', cx: spot.x, cy: spot.y, r: 3 })),
    ]),
    ...placed.map((one) => partShape(one, drawing.letters, choice)),
    ...(choice.live ? nodeTexts.map((text) => nodeShape(text, drawing, choice.live!, choice.isOutside === true)) : []),
  ]
}

const matrix = ({ xx, xy, yx, yy }: Turn, x: number, y: number): string => `matrix(${xx} ${yx} ${xy} ${yy} ${x} ${y})`

const rect = (name: string, { left, top, right, bottom }: Box, by = 0): Markup =>
  markup('rect', {
    class: name,
    x: left - by,
    y: top - by,
    width: right - left + 2 * by,
    height: bottom - top + 2 * by,
    rx: by > 0 ? 2 : 0,
  })

const tintClass = ({ isHeat, depth, isOver }: Tint): string =>
  `tint ${isHeat ? 'heat' : 'ink'}${depth}${isOver ? ' over' : ''}`

const litClass = (name: string, id: string, highlight: string | undefined): string =>
  id === highlight ? `${name} lit` : name

/** What lies behind a part: its shade, and where the pointer is on it. */
function groundOf(one: Placed, { tints, highlight }: PictureChoice): Markup {
  const { id } = one.part
  const tint = tints?.get(id)
  return markup('g', { class: litClass('ground', id, highlight), 'data-part': id }, [
    rect('reach', symbolBox(one), REACH),
    rect('reach', textBox(one), REACH),
    ...(tint ? [rect(tintClass(tint), symbolBox(one), SHADE)] : []),
  ])
}

function partShape(one: Placed, letters: Letters, { live, highlight, labelOf }: PictureChoice): Markup {
  const { part, turn, x, y } = one
  const { outline, solid } = SYMBOLS[part.kind]
  const label = labelOf?.(part.id)
  return markup(
    'g',
    {
      class: litClass('part', part.id, highlight),
      'data-part': part.id,
      ...(label === undefined ? {} : { role: 'img', 'aria-label': label, tabindex: 0 }),
    },
    [
      markup('g', { transform: matrix(turn, x, y) }, [
        markup('path', { class: 'line', d: outline }),
        ...(solid ? [markup('path', { class: 'solid', d: solid })] : []),
      ]),
      ...textShapes(one, letters, live?.parts.get(part.id)),
    ],
  )
}

/** The text that stands in a line now: what the part is, or what it carries at the point shown. */
function lineText({ what, text }: TextLine, live: LivePart | undefined): string {
  if (what === 'current') return live?.current === undefined ? '' : formatQuantity(live.current, 'A')
  if (what === 'heat') return live?.heat === undefined ? '' : formatQuantity(live.heat, 'W')
  return text
}

function textShapes(one: Placed, { size, line }: Letters, live: LivePart | undefined): Markup[] {
  const { left, right, top } = textBox(one)
  const { lines, anchor } = one.text
  const x = anchor === 'start' ? left : anchor === 'end' ? right : (left + right) / 2
  return lines.flatMap((each, k) => {
    const text = lineText(each, live)
    if (text === '') return []
    const attributes = {
      class: each.what,
      x,
      y: round(top + (k + BASELINE) * line),
      'text-anchor': anchor,
      'font-size': size,
    }
    return [markup('text', attributes, [text])]
  })
}

function nodeShape(
  { node, anchor, box }: NodeText,
  { letters, output }: Drawing,
  live: Live,
  isOutside: boolean,
): Markup {
  const { left, right, top } = box
  const x = anchor === 'start' ? left : anchor === 'end' ? right : (left + right) / 2
  const y = round(top + BASELINE * letters.line)
  const volts = live.volts.get(node) ?? Number.NaN
  const text = markup('text', { class: 'volts', x, y, 'text-anchor': anchor, 'font-size': letters.size }, [
    formatQuantity(volts, 'V'),
  ])
  const isMarked = isOutside && node === output
  const name = `node${isMarked ? ' outside' : ''}`
  const width = textWidth(formatQuantity(volts, 'V'), letters)
  const from = anchor === 'start' ? left : right - width
  return markup('g', { class: name, 'data-node': node }, isMarked ? [text, wave(from, from + width, y + 5)] : [text])
}

/** A wavy underline. */
function wave(left: number, right: number, y: number): Markup {
  const bows = Math.max(Math.round((right - left) / 8), 1)
  const step = round((right - left) / bows / 2)
  return markup('path', {
    class: 'wave',
    d: `M${round(left)},${round(y)}${`q${round(step / 2)},-2.5 ${step},0t${step},0`.repeat(bows)}`,
  })
}

const round = (value: number): number => Math.round(value * 100) / 100

/** Whether a part of the drawing is bought with the design, or stands for what it feeds. */
export const isLoad = (id: string): boolean => id === LOAD
