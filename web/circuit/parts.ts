/** The parts of a circuit as they are drawn: one symbol a part, whatever elements the solver sees in it. */
import type { Bjt, Element } from '../../engine/devices/elements.ts'
import type { SymbolKind } from './symbols.ts'

export interface Circuit {
  readonly ground: string
  readonly elements: readonly Element[]
}

export interface DrawnPart {
  readonly id: string
  readonly kind: SymbolKind
  /** Node of each pin of the symbol. */
  readonly pins: Readonly<Record<string, string>>
}

/** The supply's part is drawn as the two terminals at the left. */
const SUPPLY = 'input'
export const LOAD = 'load'

/** Throws on a part that no symbol stands for: our own bug. */
export function drawnParts({ elements }: Circuit): DrawnPart[] {
  const ids = [...new Set(elements.map(({ part }) => part))].filter((id) => id !== SUPPLY)
  return ids.map((id) =>
    drawnPart(
      id,
      elements.filter(({ part }) => part === id),
      elements,
    ),
  )
}

function drawnPart(id: string, own: readonly Element[], all: readonly Element[]): DrawnPart {
  // a node inside a part, between a Darlington's two transistors say, is not seen from outside
  const isInner = (node: string) => all.every(({ part, nodes }) => part === id || !nodes.includes(node))
  const transistors = own.filter((e): e is Bjt => e.kind === 'npn' || e.kind === 'pnp')
  const [first] = transistors
  if (first) {
    const outer = (pin: number) => transistors.map(({ nodes }) => nodes[pin]!).find((node) => !isInner(node))!
    return {
      id,
      kind: transistors.length > 1 ? 'darlington' : first.kind,
      pins: { collector: outer(0), base: outer(1), emitter: outer(2) },
    }
  }
  for (const element of own) {
    switch (element.kind) {
      case 'amplifier': {
        const [plus, minus, output, supply, common] = element.nodes
        return { id, kind: 'amplifier', pins: { plus, minus, output, supply, common } }
      }
      case 'reference': {
        const [cathode, anode, reference] = element.nodes
        return { id, kind: 'reference', pins: { cathode, anode, ...(reference === cathode ? {} : { reference }) } }
      }
      case 'diode':
        return { id, kind: 'diode', pins: { anode: element.nodes[0], cathode: element.nodes[1] } }
      case 'resistor':
      case 'capacitor':
        return { id, kind: element.kind, pins: { a: element.nodes[0], b: element.nodes[1] } }
      case 'current-source':
        if (id === LOAD) return { id, kind: 'load', pins: { a: element.nodes[0], b: element.nodes[1] } }
        break
      default:
        break
    }
  }
  throw new Error(`circuit/parts: no symbol stands for ${id}`)
}

/** Nodes of the supply and of the load: between them the watts flow. */
export function railsOf({ elements }: Circuit): { input: string; output: string } {
  const nodesOf = (id: string): readonly string[] => elements.find((e) => e.id === id)?.nodes ?? []
  const [input] = nodesOf(SUPPLY)
  const [output] = nodesOf(LOAD)
  if (input === undefined || output === undefined) throw new Error('circuit/parts: no supply or no load')
  return { input, output }
}
