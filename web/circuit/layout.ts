/** A circuit as a drawing: symbols, texts, wires, dots and where each node's voltage is written. Pure geometry, no colours. */
import type { Circuit, DrawnPart } from './parts.ts'
import { drawnParts, railsOf } from './parts.ts'
import type { Placed, Placement } from './place.ts'
import { placeParts } from './place.ts'
import type { Net, Pin, Routed, Spot, Wire } from './route.ts'
import { route } from './route.ts'
import type { Box } from './symbols.ts'
import { PITCH, SYMBOLS, isOverlapping, moved, turned, turnedBox } from './symbols.ts'
import type { Letters, TextLine } from './text.ts'
import { inputTextBox, outputTextBox, voltageSize } from './text.ts'

/** A node's voltage, beside one of its wires. */
export interface NodeText {
  readonly node: string
  readonly anchor: 'start' | 'middle' | 'end'
  readonly box: Box
}

export interface Drawing {
  readonly placed: readonly Placed[]
  readonly wires: Routed['wires']
  readonly dots: Routed['dots']
  /** The two open ends at the left, and where ground is marked. */
  readonly terminals: readonly Spot[]
  readonly groundMark: Spot
  readonly nodeTexts: readonly NodeText[]
  readonly ground: string
  readonly input: string
  readonly output: string
  readonly letters: Letters
  readonly extent: Box
}

/** More room is tried where a wire finds no way. */
const ROOMS = [
  { gap: 14, row: 72 },
  { gap: 20, row: 72 },
  { gap: 20, row: 84 },
  { gap: 30, row: 96 },
  { gap: 48, row: 132 },
]
const MARGIN = 8

/** What stands beside each symbol, and how large. */
export interface Lettering {
  readonly letters: Letters
  readonly linesOf: (part: DrawnPart) => readonly TextLine[]
}

export const symbolBox = ({ part, turn, x, y }: Placed): Box => moved(turnedBox(turn, SYMBOLS[part.kind].box), x, y)
export const textBox = ({ text, x, y }: Placed): Box => moved(text.box, x, y)

/** Where each pin stands, in units of the diagram. */
export function pinsOf(placed: Placed): (Pin & { pin: string; node: string })[] {
  const { part, turn, x, y } = placed
  const { top, bottom } = symbolBox(placed)
  return Object.entries(part.pins).map(([pin, node]) => {
    const [dx, dy] = turned(turn, SYMBOLS[part.kind].pins[pin]!)
    const faces = y + dy === top ? 'up' : y + dy === bottom ? 'down' : 'side'
    return { pin, node, x: x + dx, y: y + dy, faces }
  })
}

/** Throws where no way is found for a wire, which a property of the layout excludes. */
export function drawCircuit(circuit: Circuit, { letters, linesOf }: Lettering): Drawing {
  const parts = drawnParts(circuit)
  const rails = { ...railsOf(circuit), ground: circuit.ground }
  for (const room of ROOMS) {
    const placement = placeParts(parts, rails, linesOf, { ...room, letters })
    const routed = routeAll(placement, rails, letters)
    if (routed) return finish(placement, routed, rails, letters)
  }
  throw new Error('circuit/layout: a wire finds no way')
}

interface Rails {
  readonly input: string
  readonly output: string
  readonly ground: string
}

const gridSpot = ({ x, y }: Spot): Spot => ({ x: Math.round(x / PITCH), y: Math.round(y / PITCH) })
const gridPin = (pin: Pin): Pin => ({ ...gridSpot(pin), faces: pin.faces })

const outputText = ({ width }: Placement, letters: Letters): Box => moved(outputTextBox(letters), width, 0)

/** The best of a few orders in which the nets may be laid. */
function routeAll(placement: Placement, rails: Rails, letters: Letters): Routed | undefined {
  const { placed, rail, ground, width } = placement
  const pins = placed.flatMap(pinsOf)
  const nodes = [...new Set(pins.map(({ node }) => node))]
  const railSpots = new Map<string, readonly [Spot, Spot]>()
  for (const [k, node] of rail.entries()) {
    const onRail = pins.filter((pin) => pin.node === node && pin.y === 0).map(({ x }) => x)
    const from = k === 0 ? 0 : Math.min(...onRail)
    const to = k === rail.length - 1 ? width : Math.max(...onRail)
    if (from < to) railSpots.set(node, [gridSpot({ x: from, y: 0 }), gridSpot({ x: to, y: 0 })])
  }
  railSpots.set(rails.ground, [gridSpot({ x: 0, y: ground }), gridSpot({ x: width, y: ground })])
  const nets = nodes.map((name): Net => {
    const trunk = railSpots.get(name)
    return { name, pins: pins.filter(({ node }) => node === name).map(gridPin), ...(trunk ? { trunk } : {}) }
  })
  const boxes = placed.flatMap((one) => [symbolBox(one), textBox(one)])
  const field = {
    symbols: placed.map(symbolBox),
    texts: [...placed.map(textBox), inputTextBox(letters), outputText(placement, letters)],
    extent: {
      left: Math.min(0, ...boxes.map((b) => b.left)) - MARGIN,
      top: -6 * PITCH,
      right: Math.max(width, ...boxes.map((b) => b.right)) + MARGIN,
      bottom: ground + 2 * PITCH,
    },
  }
  const inner = nets.filter(({ trunk }) => !trunk)
  const railed = nets.filter(({ trunk }) => trunk)
  const bySize = inner.toSorted((a, b) => spanOf(a) - spanOf(b))
  let best: Routed | undefined
  for (const order of [
    [...railed, ...bySize],
    [...railed, ...bySize.toReversed()],
    [...bySize, ...railed],
    [...bySize.toReversed(), ...railed],
  ]) {
    const found = route(order, field)
    if (found && (!best || found.cost < best.cost)) best = found
  }
  return best
}

/** How far apart a net's pins lie. */
function spanOf({ pins }: Net): number {
  const xs = pins.map(({ x }) => x)
  const ys = pins.map(({ y }) => y)
  return Math.max(...xs) - Math.min(...xs) + Math.max(...ys) - Math.min(...ys)
}

function finish(placement: Placement, routed: Routed, rails: Rails, letters: Letters): Drawing {
  const { placed, ground } = placement
  const { wires, dots } = routed
  const groundMark = { x: 2 * PITCH, y: ground }
  const nodeTexts: NodeText[] = [
    { node: rails.input, anchor: 'start', box: inputTextBox(letters) },
    { node: rails.output, anchor: 'end', box: outputText(placement, letters) },
  ]
  const taken = [...placed.map(symbolBox), ...placed.map(textBox), ...nodeTexts.map(({ box }) => box)]
  taken.push({ left: groundMark.x - 8, top: ground, right: groundMark.x + 8, bottom: ground + 12 })
  const wireBoxes = wires.map(({ from, to }) => ({
    left: from.x - 1.5,
    top: from.y - 1.5,
    right: to.x + 1.5,
    bottom: to.y + 1.5,
  }))
  const inner = [...new Set(wires.map(({ net }) => net))].filter(
    (net) => net !== rails.input && net !== rails.output && net !== rails.ground,
  )
  for (const node of inner) {
    const free = spotsBeside(
      wires.filter(({ net }) => net === node),
      letters,
    ).find(({ box }) => ![...taken, ...wireBoxes].some((other) => isOverlapping(box, other)))
    if (!free) continue
    taken.push(free.box)
    nodeTexts.push({ node, ...free })
  }
  const all = [...taken, ...wireBoxes]
  return {
    placed,
    wires,
    dots,
    terminals: [
      { x: 0, y: 0 },
      { x: 0, y: ground },
    ],
    groundMark,
    nodeTexts,
    ...rails,
    letters,
    extent: {
      left: Math.min(...all.map((b) => b.left)) - MARGIN,
      top: Math.min(...all.map((b) => b.top)) - 2,
      right: Math.max(...all.map((b) => b.right)) + MARGIN,
      bottom: Math.max(...all.map((b) => b.bottom)) + 2,
    },
  }
}

const lengthOf = ({ from, to }: Wire): number => to.x - from.x + to.y - from.y

/** Places for a voltage along a net's wires, the longest first: over and under what lies, beside what stands. */
function spotsBeside(wires: Routed['wires'], letters: Letters): Pick<NodeText, 'anchor' | 'box'>[] {
  const { width, height } = voltageSize(letters)
  return wires
    .toSorted((a, b) => lengthOf(b) - lengthOf(a))
    .flatMap(({ from, to }) => {
      const spots: Pick<NodeText, 'anchor' | 'box'>[] = []
      const add = (anchor: NodeText['anchor'], left: number, top: number) =>
        spots.push({ anchor, box: { left, top, right: left + width, bottom: top + height } })
      if (from.y === to.y) {
        for (let x = from.x + 2; x <= Math.max(to.x - width - 2, from.x + 2); x += PITCH) {
          add('middle', x, from.y - height - 2)
          add('middle', x, from.y + 2)
        }
      } else {
        for (let y = from.y; y <= Math.max(to.y - height, from.y); y += PITCH) {
          add('start', from.x + 3, y)
          add('end', from.x - 3 - width, y)
        }
      }
      return spots
    })
}
