/** The temperatures along a part's way to the air. */
import type { HeatNode, HeatStretch } from '../../topologies/define.ts'

export interface PathNode {
  at: HeatNode
  /** Degrees Celsius. */
  temperature: number
}

/** Kelvin per watt of all stretches together. */
export const resistanceOf = (path: readonly HeatStretch[]): number =>
  path.reduce((sum, { kelvinPerWatt }) => sum + kelvinPerWatt, 0)

/**
 * Temperatures from where the heat arises down to the ambient: each stretch takes watts times its kelvin per watt. 1.67 W from
 * 50 °C through 3 and 57 K/W: junction 150, case 145 °C.
 */
export function temperaturesOf(path: readonly HeatStretch[], heat: number, ambient: number): PathNode[] {
  const nodes: PathNode[] = [{ at: 'ambient', temperature: ambient }]
  for (const { from, kelvinPerWatt } of path.toReversed())
    nodes.push({ at: from, temperature: nodes.at(-1)!.temperature + heat * kelvinPerWatt })
  return nodes.toReversed()
}

/** Of a path, the resistance up to a node from the junction. */
export function resistanceTo(path: readonly HeatStretch[], node: HeatNode): number {
  const end = path.findIndex(({ to }) => to === node)
  return end === -1 ? resistanceOf(path) : resistanceOf(path.slice(0, end + 1))
}
