/** Every variant draws itself from its own netlist: all of it, without one thing lying on another. */
import { describe, expect, test } from 'vitest'
import type { Element, Netlist } from '../../engine/devices/elements.ts'
import { isUnbuilt, needOf, sizeVariant } from '../../engine/sizing/size.ts'
import type { DesignPart } from '../../engine/topologies/define.ts'
import { TOPOLOGIES } from '../../engine/topologies/index.ts'
import { type Drawing, drawCircuit, pinsOf, symbolBox, textBox } from '../../web/circuit/layout.ts'
import { BRIEF_LETTERING, fullLettering } from '../../web/circuit/lettering.ts'
import type { Wire } from '../../web/circuit/route.ts'
import { type Box, isOverlapping } from '../../web/circuit/symbols.ts'
import { exampleStudies } from '../fixtures/studies/examples.ts'
import { generateStudies } from '../fixtures/studies/generate.ts'

const PATIENCE = 240_000

interface Case {
  readonly name: string
  readonly circuit: Netlist
  readonly parts: readonly Pick<DesignPart, 'id' | 'value' | 'partNumber'>[]
}

/** Every variant that can be built, as sized for the examples and a few invented studies; one of each wiring is enough. */
function cases(): Case[] {
  const found = new Map<string, Case>()
  for (const study of [...exampleStudies(), ...generateStudies(5, 3)])
    for (const { name, variants } of TOPOLOGIES)
      for (const variant of variants) {
        const sized = sizeVariant(variant, needOf(study.requirements))
        if (isUnbuilt(sized)) continue
        const { netlist: circuit, parts } = sized.proof.design
        const wiring = circuit.elements.map(({ id, nodes }) => `${id}(${nodes.join()})`).join(' ')
        const one = { name: `${name}, ${variant.name}: ${parts.map(({ id }) => id).join(' ')}`, circuit, parts }
        if (!found.has(wiring)) found.set(wiring, one)
      }
  return [...found.values()]
}

const resistor = (id: string, nodes: [string, string]): Element => ({
  kind: 'resistor',
  id,
  part: id,
  nodes,
  ohms: 1e3,
})

/** A limiter whose base sees a share of the sensed voltage: a circuit that no variant above has. */
function foldedBack({ name, circuit, parts }: Case): Case[] {
  const limiting = circuit.elements.find((e) => e.kind === 'npn' && e.nodes[1] === 'sense' && e.nodes[2] === 'out')
  if (!limiting) return []
  const elements = circuit.elements.map((element): Element => {
    if (element.part !== limiting.part) return element
    return { ...element, nodes: element.nodes.map((node) => (node === 'sense' ? 'fold' : node)) } as unknown as Element
  })
  return [
    {
      name: `${name}, folded back`,
      circuit: {
        ...circuit,
        elements: [...elements, resistor('R8', ['sense', 'fold']), resistor('R9', ['fold', '0'])],
      },
      parts: [...parts, { id: 'R8', value: 1e3 }, { id: 'R9', value: 1e3 }],
    },
  ]
}

const isHorizontal = ({ from, to }: Wire): boolean => from.y === to.y
const boxOf = ({ from, to }: Wire): Box => ({ left: from.x, top: from.y, right: to.x, bottom: to.y })
const holds = (wire: Wire, x: number, y: number): boolean =>
  x >= wire.from.x && x <= wire.to.x && y >= wire.from.y && y <= wire.to.y
const isTouching = (a: Wire, b: Wire): boolean =>
  a.from.x <= b.to.x && b.from.x <= a.to.x && a.from.y <= b.to.y && b.from.y <= a.to.y
const isEnd = ({ from, to }: Wire, x: number, y: number): boolean =>
  (from.x === x && from.y === y) || (to.x === x && to.y === y)

/** Wires that hang together with the first of a net, through shared points. */
function connected(wires: readonly Wire[]): Set<Wire> {
  const seen = new Set(wires.slice(0, 1))
  for (const wire of seen) for (const other of wires) if (isTouching(wire, other)) seen.add(other)
  return seen
}

function faultsOf(circuit: Netlist, drawing: Drawing): string[] {
  const { placed, wires, dots, nodeTexts } = drawing
  const faults: string[] = []
  const pins = placed.flatMap(pinsOf)

  // every connection of every element is a pin of its part's symbol, or inside of the part
  for (const { id, part, nodes } of circuit.elements) {
    if (part === 'input') continue
    const symbol = placed.find((one) => one.part.id === part)
    if (!symbol) faults.push(`${part} is not drawn`)
    for (const node of nodes) {
      const isInner = circuit.elements.every((e) => e.part === part || !e.nodes.includes(node))
      if (!isInner && !Object.values(symbol?.part.pins ?? {}).includes(node)) faults.push(`${id} is not at ${node}`)
    }
  }
  // pins of one node share a wire
  for (const node of new Set(pins.map((pin) => pin.node))) {
    const own = wires.filter(({ net }) => net === node)
    if (connected(own).size !== own.length) faults.push(`the wires of ${node} do not hang together`)
    for (const pin of pins.filter((one) => one.node === node))
      if (!own.some((wire) => holds(wire, pin.x, pin.y)))
        faults.push(`${node} does not reach ${pin.pin} at ${pin.x},${pin.y}`)
  }
  // nothing lies on anything
  const boxes: [string, Box][] = [
    ...placed.map((one): [string, Box] => [one.part.id, symbolBox(one)]),
    ...placed.map((one): [string, Box] => [`text of ${one.part.id}`, textBox(one)]),
    ...nodeTexts.map(({ node, box }): [string, Box] => [`voltage of ${node}`, box]),
  ]
  boxes.forEach(([name, box], k) => {
    for (const [other, theirs] of boxes.slice(k + 1))
      if (isOverlapping(box, theirs)) faults.push(`${name} lies on ${other}`)
    for (const wire of wires)
      if (isOverlapping(box, boxOf(wire))) faults.push(`a wire of ${wire.net} runs through ${name}`)
  })
  // wires lie across or upright; those of two nets cross at right angles, away from ends and dots
  for (const wire of wires)
    if (wire.from.x !== wire.to.x && wire.from.y !== wire.to.y) faults.push(`a wire of ${wire.net} is askew`)
  wires.forEach((a, k) => {
    for (const b of wires.slice(k + 1)) {
      if (a.net === b.net || !isTouching(a, b)) continue
      const [x, y] = isHorizontal(a) ? [b.from.x, a.from.y] : [a.from.x, b.from.y]
      if (isHorizontal(a) === isHorizontal(b) || isEnd(a, x, y) || isEnd(b, x, y))
        faults.push(`wires of ${a.net} and ${b.net} run together at ${x},${y}`)
    }
  })
  // a dot wherever three ways of one net meet, and nowhere else
  for (const { net, from, to } of wires)
    for (const { x, y } of [from, to]) {
      const own = wires.filter((wire) => wire.net === net && holds(wire, x, y))
      const ways = own.reduce((sum, wire) => sum + (isEnd(wire, x, y) ? 1 : 2), 0)
      const isPin = pins.some((pin) => pin.node === net && pin.x === x && pin.y === y)
      const hasDot = dots.some((dot) => dot.net === net && dot.x === x && dot.y === y)
      if (hasDot !== ways + (isPin ? 1 : 0) > 2) faults.push(`${hasDot ? 'a' : 'no'} dot of ${net} at ${x},${y}`)
    }
  return faults
}

const found = cases()

test('every variant of every topology is among the drawings', () => {
  const names = TOPOLOGIES.flatMap(({ name, variants }) => variants.map((variant) => `${name}, ${variant.name}`))
  for (const name of names) expect(found.some((one) => one.name.startsWith(`${name}:`))).toBe(true)
})

describe.each([...found, ...found.flatMap(foldedBack)])('$name', ({ circuit, parts }) => {
  test('is drawn whole and free of overlaps, with every voltage beside its wire', { timeout: PATIENCE }, () => {
    const drawing = drawCircuit(circuit, fullLettering(parts))
    expect(faultsOf(circuit, drawing)).toEqual([])
    const nodes = new Set(drawing.placed.flatMap(pinsOf).map(({ node }) => node))
    nodes.delete(circuit.ground)
    expect(new Set(drawing.nodeTexts.map(({ node }) => node))).toEqual(nodes)
  })
  test('is drawn whole and free of overlaps where only names stand beside the symbols', { timeout: PATIENCE }, () => {
    expect(faultsOf(circuit, drawCircuit(circuit, BRIEF_LETTERING))).toEqual([])
  })
  test('does not depend on the order in which the netlist lists it', { timeout: PATIENCE }, () => {
    const turned = { ...circuit, elements: circuit.elements.toReversed() }
    expect(faultsOf(turned, drawCircuit(turned, fullLettering(parts)))).toEqual([])
  })
})
