/** A circuit for a netlist that differs from a compiled one in its values alone: layout and elimination are kept. */
import type { Netlist } from '../devices/elements.ts'
import { DEVICES } from '../devices/index.ts'
import type { CompiledCircuit, Layout } from './circuit.ts'
import type { CompileOptions } from './types.ts'

/** The new circuit, or undefined where the two are not wired alike. */
export function recompile(
  like: CompiledCircuit,
  netlist: Netlist,
  options: CompileOptions,
): CompiledCircuit | undefined {
  const parameters = new Float64Array(like.parameters.length)
  if (!isWiredAlike(like.netlist, netlist) || !fillParameters(netlist, like.parameters, parameters)) return undefined
  const layout: Layout = {
    ...like.layout,
    guess: guessOf(like, options),
    thermalResistance: Float64Array.from(like.parts, (part) => options.thermalResistance[part] ?? 0),
  }
  return { ...like, netlist, parameters, layout }
}

function isWiredAlike(a: Netlist, b: Netlist): boolean {
  return (
    a.ground === b.ground &&
    a.elements.length === b.elements.length &&
    a.elements.every((one, k) => {
      const other = b.elements[k]!
      return (
        one.kind === other.kind &&
        one.id === other.id &&
        one.part === other.part &&
        one.nodes.every((node, n) => node === other.nodes[n])
      )
    })
  )
}

/** False where a series resistance is there in the one and not in the other: it would have a node of its own. */
function fillParameters(netlist: Netlist, before: Float64Array, into: Float64Array): boolean {
  let at = 0
  for (const element of netlist.elements) {
    const { parameters, series } = DEVICES[element.kind]
    const given = ('model' in element ? element.model : element) as unknown as Readonly<Record<string, unknown>>
    for (const name in parameters) {
      const value = given[name] ?? parameters[name]
      if (typeof value !== 'number' || Number.isNaN(value)) return false
      into[at] = value
      if ((value === 0) !== (before[at] === 0) && series.some(([, parameter]) => parameter === name)) return false
      at += 1
    }
  }
  return at === into.length
}

function guessOf({ nodes, layout }: CompiledCircuit, options: CompileOptions): Float64Array {
  const { nodeCount, resistors } = layout
  const guess = new Float64Array(layout.size)
  for (let k = 1; k < nodeCount; k += 1) guess[k] = options.guess[nodes[k]!] ?? 0
  // behind each series resistance lies an inner node, in the same order
  for (let k = resistors.plainCount; k < resistors.count; k += 1)
    guess[nodeCount + k - resistors.plainCount] = guess[resistors.ends[2 * k]!]!
  return guess
}
