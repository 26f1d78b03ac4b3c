/** A workspace's arrays: everything that changes between two solves, allocated once. */
import type { Layout, SolverWorkspace } from './circuit.ts'

/** `entries`: matrix entries with fill. */
export function newSolverWorkspace(layout: Layout, parameters: Float64Array, entries: number): SolverWorkspace {
  const { size, nodeCount, partCount, unknowns, terminalFrom } = layout
  const x = layout.guess.slice()
  return {
    parameters: parameters.slice(),
    stale: true,
    voltages: x.subarray(0, nodeCount),
    currents: new Float64Array(terminalFrom.length),
    junction: new Float64Array(partCount).fill(25),
    power: new Float64Array(partCount),
    iterations: 0,
    residual: 0,
    x,
    f: new Float64Array(size),
    dx: new Float64Array(size),
    out: new Float64Array(layout.outLength),
    derived: new Float64Array(layout.derivedLength),
    conductance: new Float64Array(layout.resistors.count),
    input: 0,
    load: 0,
    scale: 1,
    base: new Float64Array(entries),
    baseIsStale: true,
    matrix: new Float64Array(entries),
    diagonal: new Float64Array(unknowns.length),
    dense: new Float64Array(unknowns.length * (unknowns.length + 1)),
    order: new Int32Array(2 * size),
    terminal: new Float64Array(5),
    last: new Float64Array(layout.diodes.count + 2 * layout.transistors.count + layout.amplifiers.count),
    preparedAt: new Float64Array(partCount).fill(Number.NaN),
    good: x.slice(),
    before: new Float64Array(partCount),
    anchor: 0,
    thermal: new Float64Array(3 * partCount),
  }
}
