/** A workspace's arrays: everything that changes between two solves, allocated once. */
import { AMPLIFIER_DERIVED } from '../devices/amplifier.ts'
import type { Layout, SolverWorkspace } from './circuit.ts'
import { type Memory, SCALE } from './plan.ts'

/** A workspace at the guess, with the given parameters, every junction at 25 degC. */
export function newSolverWorkspace(layout: Layout, memory: Memory, parameters: Float64Array): SolverWorkspace {
  const { size, nodeCount, partCount, firstUnknown } = layout
  const doubles = new Float64Array(memory.length)
  doubles[SCALE] = 1
  const view = (at: number, length: number): Float64Array => doubles.subarray(at, at + length)
  const entries = memory.matrix - memory.base
  const unknowns = size - firstUnknown
  const x = view(memory.x, size)
  x.set(layout.guess)
  return {
    parameters: parameters.slice(),
    stale: true,
    voltages: x.subarray(0, nodeCount),
    currents: view(memory.currents, layout.terminalFrom.length),
    junction: new Float64Array(partCount).fill(25),
    power: view(memory.power, partCount),
    iterations: 0,
    residual: 0,
    doubles,
    x,
    f: view(memory.f, size),
    dx: view(memory.dx, size),
    out: view(memory.out, layout.outLength),
    derived: view(memory.derived, layout.derivedLength),
    conductance: view(memory.conductance, layout.resistors.count),
    branch: view(memory.branch, layout.sources.branchRow.length),
    base: view(memory.base, entries),
    matrix: view(memory.matrix, entries),
    input: 0,
    load: 0,
    baseIsStale: true,
    isHard: false,
    dense: new Float64Array(unknowns * (unknowns + 1)),
    order: new Int32Array(unknowns),
    preparedAt: new Float64Array(partCount).fill(Number.NaN),
    good: layout.guess.slice(),
    start: layout.guess.slice(),
    before: new Float64Array(partCount),
    closed: new Float64Array(AMPLIFIER_DERIVED),
    longest: new Float64Array(partCount),
    thermal: new Float64Array(3 * partCount),
  }
}
