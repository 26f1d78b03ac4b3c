/** Numbers for names: nodes, parts, elements and their parameters. */
import type { Netlist, VoltageSource } from '../devices/elements.ts'
import { DEVICES } from '../devices/index.ts'
import { type Pin, pinNodes, refuse } from './pins.ts'

export interface Names {
  readonly nodes: string[]
  readonly parts: string[]
  readonly nodeIndex: Map<string, number>
  readonly partIndex: Map<string, number>
  readonly elementIndex: Map<string, number>
  readonly slots: Map<string, number>
  readonly terminals: Int32Array
  readonly pins: readonly Pin[]
  readonly floating: readonly VoltageSource[]
}

/**
 * Numbers parts and elements in their order of appearance, nodes likewise but for the ground and the pinned ones, which
 * come first, and copies the parameters.
 */
export function nameAll(netlist: Netlist): { names: Names; parameters: Float64Array; parameterAt: Int32Array } {
  const { pins, floating } = pinNodes(netlist)
  const nodes = [netlist.ground, ...pins.map((pin) => pin.node)]
  const nodeIndex = new Map(nodes.map((node, k) => [node, k]))
  const parts: string[] = []
  const partIndex = new Map<string, number>()
  const elementIndex = new Map<string, number>()
  const slots = new Map<string, number>()
  const values: number[] = []
  const terminals: number[] = []
  const parameterAt: number[] = []
  let terminal = 0
  for (const element of netlist.elements) {
    if (elementIndex.has(element.id)) refuse(`two elements are called ${element.id}`)
    elementIndex.set(element.id, elementIndex.size)
    terminals.push(terminal)
    terminal += element.nodes.length
    for (const node of element.nodes) {
      if (nodeIndex.has(node)) continue
      nodeIndex.set(node, nodes.length)
      nodes.push(node)
    }
    if (!partIndex.has(element.part)) {
      partIndex.set(element.part, parts.length)
      parts.push(element.part)
    }
    parameterAt.push(values.length)
    const given: Readonly<Record<string, unknown>> =
      'model' in element ? { ...element.model } : (element as unknown as Record<string, unknown>)
    for (const [name, preset] of Object.entries(DEVICES[element.kind].parameters)) {
      const value = given[name] ?? preset
      if (typeof value !== 'number' || Number.isNaN(value)) refuse(`${element.id} has no number for ${name}`)
      slots.set(`${element.id}\n${name}`, values.length)
      values.push(value)
    }
  }
  terminals.push(terminal)
  return {
    names: {
      nodes,
      parts,
      nodeIndex,
      partIndex,
      elementIndex,
      slots,
      terminals: Int32Array.from(terminals),
      pins,
      floating,
    },
    parameters: Float64Array.from(values),
    parameterAt: Int32Array.from(parameterAt),
  }
}
