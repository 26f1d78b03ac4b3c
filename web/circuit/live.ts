/** What a circuit carries at one operating point: read off a sweep at the cursor, or off a solved point. */
import type { Point, Table } from '../../engine/compare/comparison.ts'
import type { Circuit, DrawnPart } from './parts.ts'
import { drawnParts } from './parts.ts'
import type { SymbolKind } from './symbols.ts'
import { valueAt } from '../charts/columns.ts'

export interface LivePart {
  /** Amperes through it; absent where one number does not tell it (an amplifier) or none flows (a capacitor at rest). */
  readonly current?: number
  /** Watts; absent where it does not dissipate. */
  readonly heat?: number
  /** Volts across it: over the two ends, or from collector to emitter. */
  readonly across?: number
}

export interface Live {
  /** Volts by node, ground left out; NaN where the point has no solution. */
  readonly volts: ReadonlyMap<string, number>
  readonly parts: ReadonlyMap<string, LivePart>
}

/** The pin whose current is the part's, and the one to which its voltage is measured. */
const THROUGH: Partial<Record<SymbolKind, readonly [from: string, to: string]>> = {
  resistor: ['a', 'b'],
  load: ['a', 'b'],
  diode: ['cathode', 'anode'],
  reference: ['cathode', 'anode'],
  npn: ['collector', 'emitter'],
  pnp: ['collector', 'emitter'],
  darlington: ['collector', 'emitter'],
}

interface Readings {
  readonly volts: (node: string) => number
  /** Amperes into a part from a node. */
  readonly amperes: (part: string, node: string) => number
  readonly heat: (part: string) => number | undefined
}

function liveOf(circuit: Circuit, read: Readings): Live {
  const nodes = new Set(circuit.elements.flatMap((element) => [...element.nodes] as string[]))
  nodes.delete(circuit.ground)
  const volts = new Map([...nodes].map((node) => [node, read.volts(node)]))
  const at = (node: string): number => (node === circuit.ground ? 0 : (volts.get(node) ?? Number.NaN))
  const livePart = ({ id, kind, pins }: DrawnPart): LivePart => {
    // a capacitor at rest has none
    const heat = kind === 'capacitor' ? undefined : read.heat(id)
    const [from, to] = (THROUGH[kind] ?? []).map((pin) => pins[pin])
    if (from === undefined || to === undefined) return heat === undefined ? {} : { heat }
    return {
      current: Math.abs(read.amperes(id, from)),
      across: Math.abs(at(from) - at(to)),
      ...(heat === undefined ? {} : { heat }),
    }
  }
  return { volts, parts: new Map(drawnParts(circuit).map((part) => [part.id, livePart(part)])) }
}

/** At full load and an input in volts, between the points of the sweep; NaN outside of it. */
export function liveAt(circuit: Circuit, byInput: Table, input: number): Live {
  const { axis, columns } = byInput
  const read = (name: string): number => valueAt(axis, columns[name], input)
  return liveOf(circuit, {
    volts: (node) => read(`volts.${node}`),
    amperes: (part, node) => read(`amperes.${part}.${node}`),
    heat: (part) => (columns[`heat.${part}`] ? read(`heat.${part}`) : undefined),
  })
}

/** At a solved point. */
export function liveOfPoint(circuit: Circuit, point: Point): Live {
  return liveOf(circuit, {
    volts: (node) => point.nodeVoltages[node] ?? Number.NaN,
    amperes(part, node) {
      let sum = 0
      for (const element of circuit.elements)
        if (element.part === part)
          for (const [k, other] of element.nodes.entries()) if (other === node) sum += point.currents[element.id]![k]!
      return sum
    },
    heat: (part) => point.heat[part],
  })
}
