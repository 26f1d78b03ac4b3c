/**
 * Where each symbol goes, found from the netlist alone: the supply rail on top with whatever the load's current passes
 * through, ground below, columns between them from the feed at the left to the load at the right. A part's place follows from
 * what it joins, so a new variant of this family of circuits draws itself.
 */
import type { DrawnPart } from './parts.ts'
import { LOAD } from './parts.ts'
import type { Box, Turn } from './symbols.ts'
import {
  FLIPPED,
  LYING,
  LYING_BASE_UP,
  MIRRORED,
  PITCH,
  SYMBOLS,
  UPRIGHT,
  moved,
  turned,
  turnedBox,
} from './symbols.ts'
import type { Letters, Side, TextBlock, TextLine } from './text.ts'
import { blockBeside, inputTextBox, outputTextBox } from './text.ts'

/** The supply rail. */
const RAIL = 0

export interface Placed {
  readonly part: DrawnPart
  readonly turn: Turn
  readonly x: number
  readonly y: number
  readonly text: TextBlock
}

export interface Placement {
  readonly placed: readonly Placed[]
  /** Nodes along the supply rail, from the input to the output. */
  readonly rail: readonly string[]
  /** Height of the ground rail. */
  readonly ground: number
  /** Both rails reach from 0 to here. */
  readonly width: number
}

interface Slot {
  readonly part: DrawnPart
  readonly turn: Turn
  readonly y: number
  readonly side: Side
}

export interface Rails {
  readonly input: string
  readonly output: string
  readonly ground: string
}

/** How much room is left: between columns, and from one level of nodes to the next, which holds a symbol and wires around it. */
export interface Room {
  readonly gap: number
  readonly row: number
  readonly letters: Letters
}

export function placeParts(
  parts: readonly DrawnPart[],
  rails: Rails,
  linesOf: (part: DrawnPart) => readonly TextLine[],
  room: Room,
): Placement {
  const spine = spineOf(parts, rails)
  const levels = levelsOf(parts, spine, rails)
  const ground = room.row * levels.get(rails.ground)!
  const columns = columnsOf(parts, spine, rails, levels, room.row)
  const placed = spread(columns, linesOf, room, { rail: spine.nodes, node: rails.ground, height: ground })
  return {
    placed,
    rail: spine.nodes,
    ground,
    width: Math.max(...placed.map(({ x }) => x)),
  }
}

const isTransistor = ({ kind }: DrawnPart): boolean => kind === 'npn' || kind === 'pnp' || kind === 'darlington'
const isTwoEnded = ({ pins }: DrawnPart): boolean => Object.keys(pins).length === 2

/** A reference with a third pin, which a divider sets. */
const isAdjustable = (part: DrawnPart): boolean => part.kind === 'reference' && !isTwoEnded(part)

interface Spine {
  readonly parts: readonly DrawnPart[]
  /** One more than parts. */
  readonly nodes: readonly string[]
}

/** The way of the load's current from input to output: through as few parts as can be, a transistor at the input before all. */
function spineOf(parts: readonly DrawnPart[], { input, output, ground }: Rails): Spine {
  const best = new Map<string, { cost: number; spine: Spine }>([
    [input, { cost: 0, spine: { parts: [], nodes: [input] } }],
  ])
  // as many rounds as there are parts reach every node
  for (let round = 0; round < parts.length; round++) {
    for (const part of parts) {
      const [from, to, cost] = isTransistor(part)
        ? [part.pins['collector']!, part.pins['emitter']!, part.pins['collector'] === input ? 0.5 : 1]
        : part.kind === 'resistor'
          ? [part.pins['a']!, part.pins['b']!, 1]
          : []
      if (from === undefined || to === undefined || to === ground) continue
      const before = best.get(from)
      if (!before || before.spine.nodes.includes(to)) continue
      const total = before.cost + cost!
      if (total < (best.get(to)?.cost ?? Infinity))
        best.set(to, {
          cost: total,
          spine: { parts: [...before.spine.parts, part], nodes: [...before.spine.nodes, to] },
        })
    }
  }
  return best.get(output)?.spine ?? { parts: [], nodes: [input, output] }
}

/** A transistor that takes a base current away to the output: collector at the left, emitter at the rail, base above. */
const isHung = ({ pins }: DrawnPart, rail: readonly string[]): boolean =>
  rail.includes(pins['emitter']!) && !rail.includes(pins['collector']!) && !rail.includes(pins['base']!)

/** Upper and lower node of a part that stands upright between two levels. */
function endsOf({ kind, pins }: DrawnPart, rail: readonly string[], ground: string): [upper: string, lower: string] {
  if (pins['cathode'] !== undefined) {
    const { cathode, anode } = pins as { cathode: string; anode: string }
    return rail.includes(anode) || cathode === ground ? [anode, cathode] : [cathode, anode]
  }
  if (kind === 'npn' || kind === 'pnp' || kind === 'darlington') return [pins['collector']!, pins['emitter']!]
  const { a, b } = pins as { a: string; b: string }
  return a === ground || rail.includes(b) ? [b, a] : [a, b]
}

/** How many parts deep each node lies under the supply rail; ground lies deepest. */
function levelsOf(parts: readonly DrawnPart[], spine: Spine, { ground }: Rails): Map<string, number> {
  const levels = new Map<string, number>(spine.nodes.map((node) => [node, 0]))
  for (const { pins } of parts) for (const node of Object.values(pins)) if (!levels.has(node)) levels.set(node, 1)
  const upright = parts.filter((part) => !spine.parts.includes(part) && part.kind !== 'amplifier')
  for (let round = 0; round < parts.length; round++)
    for (const part of upright) {
      const [upper, lower] = endsOf(part, spine.nodes, ground)
      if (spine.nodes.includes(lower)) continue
      levels.set(lower, Math.min(Math.max(levels.get(lower)!, levels.get(upper)! + 1), parts.length))
    }
  // a transistor that hangs under its base takes a level of its own
  const hung = upright.filter((part) => isTransistor(part) && isHung(part, spine.nodes))
  const deepest = Math.max(...levels.values(), ...hung.map(({ pins }) => levels.get(pins['base']!)! + 2))
  levels.set(ground, deepest)
  return levels
}

/** Columns from the left to the right. */
function columnsOf(
  parts: readonly DrawnPart[],
  spine: Spine,
  rails: Rails,
  levels: ReadonlyMap<string, number>,
  height: number,
): Slot[][] {
  const { input, output, ground } = rails
  const rows = levels.get(ground)!
  const rail = spine.nodes
  const left = new Set(parts.filter((part) => part.id !== LOAD && !spine.parts.includes(part)))
  const columns: Slot[][] = []
  const middleOf = (row: number) => height * (row - 0.5)

  /** The first part not placed yet that fits. */
  const take = (fits: (part: DrawnPart) => boolean): DrawnPart | undefined => {
    for (const part of left) {
      if (!fits(part)) continue
      left.delete(part)
      return part
    }
    return undefined
  }
  const ends = (part: DrawnPart) => endsOf(part, rail, ground)
  const joins = (upper: string, lower: (node: string) => boolean) => (part: DrawnPart) =>
    isTwoEnded(part) && ends(part)[0] === upper && lower(ends(part)[1])
  const isInner = (node: string) => node !== ground && !rail.includes(node)
  const upright = (part: DrawnPart, y: number, side: Side = 'right'): Slot => {
    const isFlipped = part.pins['cathode'] !== undefined && ends(part)[0] !== part.pins['cathode']
    return { part, turn: isFlipped ? FLIPPED : UPRIGHT, y, side }
  }
  /** What goes on from `node` to ground, in the lowest row. */
  const onward = (node: string): Slot[] => {
    const part = take(joins(node, (lower) => lower === ground))
    return part ? [upright(part, middleOf(rows))] : []
  }
  /** Columns of what hangs from a node of the rail and goes on to ground; what ends elsewhere comes first. */
  const hang = (from: string): void => {
    const found: Slot[][] = []
    for (let part = take(joins(from, isInner)); part; part = take(joins(from, isInner)))
      found.push([upright(part, middleOf(1)), ...onward(ends(part)[1])])
    columns.push(...found.toSorted((a, b) => a.length - b.length))
  }

  hang(input)
  for (let part = take(({ kind }) => kind === 'amplifier'); part; part = take(({ kind }) => kind === 'amplifier'))
    columns.push([{ part, turn: UPRIGHT, y: middleOf(2), side: 'aboveRight' }])

  spine.parts.forEach((part, k) => {
    const column: Slot[] = [{ part, turn: LYING, y: RAIL, side: 'above' }]
    columns.push(column)
    const base = part.pins['base']
    if (base === undefined) return
    const amplifying = take((p) => isTransistor(p) && p.pins['collector'] === base && isInner(p.pins['emitter']!))
    if (amplifying) {
      column.push({ part: amplifying, turn: MIRRORED, y: middleOf(2), side: 'left' })
      column.push(...onward(amplifying.pins['emitter']!))
    }
    const across = take(joins(base, isInner))
    if (across) column.push(upright(across, middleOf(2) + 5 * PITCH))
    // what senses the current, between this transistor and the next part of the rail
    const next = rail[k + 1]!
    if (next !== output) hang(next)
    const limiting = take((p) => isTransistor(p) && p.pins['collector'] === base && rail.includes(p.pins['emitter']!))
    if (limiting) {
      const depth = levels.get(limiting.pins['base']!)!
      columns.push([{ part: limiting, turn: LYING_BASE_UP, y: height * depth + 8 * PITCH, side: 'below' }])
    }
  })

  for (let part = take(isAdjustable); part; part = take(isAdjustable))
    columns.push([upright(part, (height * rows) / 2, 'left')])
  hang(output)
  const shunting = (p: DrawnPart) => isTransistor(p) && p.pins['collector'] === output && p.pins['emitter'] === ground
  for (let part = take(shunting); part; part = take(shunting))
    columns.push([{ part, turn: UPRIGHT, y: height * levels.get(part.pins['base']!)!, side: 'right' }])
  const across = joins(output, (lower) => lower === ground)
  const isFirst = (p: DrawnPart) => across(p) && p.kind !== 'capacitor'
  for (let part = take(isFirst); part; part = take(isFirst)) columns.push([upright(part, (height * rows) / 2)])
  for (let part = take(across); part; part = take(across)) columns.push([upright(part, (height * rows) / 2)])

  // whatever joins nodes in a way not met so far stands in a column of its own
  for (const part of left) {
    const upper = isTwoEnded(part) || isTransistor(part) ? levels.get(ends(part)[0])! : 1
    columns.push([upright(part, middleOf(Math.min(upper + 1, rows)))])
  }
  const load = parts.find(({ id }) => id === LOAD)
  if (load) columns.push([upright(load, (height * rows) / 2)])
  return columns
}

/** The first column's distance from the input's terminal. */
const FIRST = 5 * PITCH

interface RailHeights {
  /** Nodes of the supply rail, which lies at 0. */
  readonly rail: readonly string[]
  /** The ground's node and height. */
  readonly node: string
  readonly height: number
}

/** The straight ways from a part to the rails that it hangs from or stands on: they are kept free. */
function leadsOf({ part, turn, y }: Slot, { rail, node, height }: RailHeights): Box[] {
  const { box, pins } = SYMBOLS[part.kind]
  const { top, bottom } = moved(turnedBox(turn, box), 0, y)
  return Object.entries(part.pins).flatMap(([pin, at]) => {
    const [dx, dy] = turned(turn, pins[pin]!)
    if (rail.includes(at) && y + dy === top && top > 0) return [{ left: dx - 3, top: 0, right: dx + 3, bottom: top }]
    if (at === node && y + dy === bottom) return [{ left: dx - 3, top: bottom, right: dx + 3, bottom: height }]
    return []
  })
}

/** Sets the columns side by side, each as far left as what stands beside it lets it. */
function spread(
  columns: readonly Slot[][],
  linesOf: (part: DrawnPart) => readonly TextLine[],
  { gap, letters }: Room,
  rails: RailHeights,
): Placed[] {
  const placed: Placed[] = []
  const before: { x: number; boxes: Box[] }[] = []
  columns.forEach((column, k) => {
    const texts = column.map(({ part, turn, side }) =>
      blockBeside(turnedBox(turn, SYMBOLS[part.kind].box), side, linesOf(part), letters),
    )
    const boxes = column.flatMap(({ part, turn, y }, j) => [
      moved(turnedBox(turn, SYMBOLS[part.kind].box), 0, y),
      moved(texts[j]!.box, 0, y),
    ])
    boxes.push(...column.flatMap((slot) => leadsOf(slot, rails)))
    // the output's voltage stands above the load
    if (k === columns.length - 1) boxes.push(outputTextBox(letters))
    let x = k === 0 ? FIRST : before.at(-1)!.x + 4 * PITCH
    for (const box of boxes) {
      if (box.top < 0) x = Math.max(x, inputTextBox(letters).right + gap - box.left)
      x = Math.max(x, 3 * PITCH - box.left)
      for (const other of before)
        for (const theirs of other.boxes)
          if (theirs.top < box.bottom + PITCH && box.top < theirs.bottom + PITCH)
            x = Math.max(x, other.x + theirs.right + gap - box.left)
    }
    x = Math.ceil(x / PITCH) * PITCH
    before.push({ x, boxes })
    column.forEach(({ part, turn, y }, j) => placed.push({ part, turn, x, y, text: texts[j]! }))
  })
  return placed
}
