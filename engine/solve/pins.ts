/** Which nodes the sources of voltage pin to a known voltage. */
import type { Netlist, VoltageSource } from '../devices/elements.ts'

/** A compile error is always a wrong netlist of ours. */
export function refuse(message: string): never {
  throw new Error(`engine/solve: ${message}`)
}

export interface Pin {
  readonly node: string
  readonly from: string
  /** +1 where the pinned node is the source's plus, -1 where it is its minus. */
  readonly sign: number
  readonly source: VoltageSource
}

/**
 * Walks from the ground along the sources: a source with one end at a known voltage pins its other end, in an order in
 * which every pin's `from` is known before it. What is left floats.
 */
export function pinNodes(netlist: Netlist): { pins: Pin[]; floating: VoltageSource[] } {
  const floating = netlist.elements.filter((e): e is VoltageSource => e.kind === 'voltage-source')
  const known = new Set([netlist.ground])
  const pins: Pin[] = []
  for (;;) {
    const at = floating.findIndex(({ nodes }) => known.has(nodes[0]) || known.has(nodes[1]))
    if (at < 0) return { pins, floating }
    const source = floating.splice(at, 1)[0]!
    const [plus, minus] = source.nodes
    if (known.has(plus) && known.has(minus)) refuse(`${source.id} closes a loop of voltage sources`)
    pins.push(
      known.has(minus) ? { node: plus, from: minus, sign: 1, source } : { node: minus, from: plus, sign: -1, source },
    )
    known.add(pins.at(-1)!.node)
  }
}
