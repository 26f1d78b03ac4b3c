/** Sources of voltage: which nodes they pin to a known voltage, and which of them need a current of their own. */
import type { Netlist, VoltageSource } from '../devices/elements.ts'
import type { Sources } from './circuit.ts'
import { type Names, refuse } from './names.ts'

/**
 * Walks from the ground along the sources: a source with one end at a known voltage pins its other end, in an order in
 * which every pin's `from` is known before it. What is left floats and gets a branch current as an unknown.
 */
export function layOutSources(
  netlist: Netlist,
  names: Names,
  outAt: ReadonlyMap<string, number>,
  branchesFrom: number,
): Sources {
  const waiting = netlist.elements.filter((e): e is VoltageSource => e.kind === 'voltage-source')
  const known = new Set([0])
  const pins: { node: number; from: number; sign: number; source: VoltageSource }[] = []
  for (let found = true; found;) {
    found = false
    for (let k = 0; k < waiting.length; k += 1) {
      const source = waiting[k]!
      const plus = names.nodeIndex.get(source.nodes[0])!
      const minus = names.nodeIndex.get(source.nodes[1])!
      if (known.has(plus) && known.has(minus)) refuse(`${source.id} closes a loop of voltage sources`)
      if (!known.has(plus) && !known.has(minus)) continue
      const pin = known.has(minus)
        ? { node: plus, from: minus, sign: 1, source }
        : { node: minus, from: plus, sign: -1, source }
      pins.push(pin)
      known.add(pin.node)
      waiting.splice(k, 1)
      found = true
      break
    }
  }
  const valueAt = (source: VoltageSource): number =>
    source.id === 'input' ? -1 : names.slots.get(`${source.id}\nvalue`)!
  const nodeAt = (source: VoltageSource, end: 0 | 1): number => names.nodeIndex.get(source.nodes[end])!
  return {
    pinNode: Int32Array.from(pins, (p) => p.node),
    pinFrom: Int32Array.from(pins, (p) => p.from),
    pinSign: Float64Array.from(pins, (p) => p.sign),
    pinValueAt: Int32Array.from(pins, (p) => valueAt(p.source)),
    pinOut: Int32Array.from(pins, (p) => outAt.get(p.source.id)!),
    branchPlus: Int32Array.from(waiting, (s) => nodeAt(s, 0)),
    branchMinus: Int32Array.from(waiting, (s) => nodeAt(s, 1)),
    branchRow: Int32Array.from(waiting, (_, k) => branchesFrom + k),
    branchValueAt: Int32Array.from(waiting, valueAt),
    branchOut: Int32Array.from(waiting, (s) => outAt.get(s.id)!),
  }
}
