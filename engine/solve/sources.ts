/** Sources of voltage as places: the pinned nodes and those sources that need a current of their own. */
import type { VoltageSource } from '../devices/elements.ts'
import type { Sources } from './circuit.ts'
import type { Names } from './names.ts'

/** `outAt`: where each source's two terminal currents are reported; `branchesFrom`: the first floating source's unknown. */
export function layOutSources(names: Names, outAt: ReadonlyMap<string, number>, branchesFrom: number): Sources {
  const { pins, floating } = names
  const place = (node: string): number => names.nodeIndex.get(node)!
  const valueAt = (source: VoltageSource): number =>
    source.id === 'input' ? -1 : names.slots.get(`${source.id}\nvalue`)!
  return {
    pinNode: Int32Array.from(pins, (p) => place(p.node)),
    pinFrom: Int32Array.from(pins, (p) => place(p.from)),
    pinSign: Float64Array.from(pins, (p) => p.sign),
    pinValueAt: Int32Array.from(pins, (p) => valueAt(p.source)),
    pinOut: Int32Array.from(pins, (p) => outAt.get(p.source.id)!),
    branchPlus: Int32Array.from(floating, (s) => place(s.nodes[0])),
    branchMinus: Int32Array.from(floating, (s) => place(s.nodes[1])),
    branchRow: Int32Array.from(floating, (_, k) => branchesFrom + k),
    branchValueAt: Int32Array.from(floating, valueAt),
    branchOut: Int32Array.from(floating, (s) => outAt.get(s.id)!),
  }
}
