/**
 * The solver's door, as types. A circuit is compiled once into flat typed arrays; a workspace holds what changes from one
 * solve to the next. Nothing is allocated by `solvePoint`.
 */
import type { Netlist } from '../devices/elements.ts'

/** Names of the outcomes; an outcome's code is its index here, and 0 alone is success. */
export const OUTCOMES = [
  'converged',
  'iterationLimit',
  'singular',
  'nonFinite',
  'continuationStalled',
  'thermalRunaway',
] as const
export type OutcomeName = (typeof OUTCOMES)[number]

/** Codes of the thermal modes that `solvePoint` takes. */
export const SETTLED = 0
export const FROZEN = 1
export const COLD = 2
export type ThermalCode = typeof SETTLED | typeof FROZEN | typeof COLD

export interface CompileOptions {
  /** Kelvin per watt from each part's junction (or body) to ambient, by part id; a part left out stays at ambient. */
  readonly thermalResistance: Readonly<Record<string, number>>
  /** Volts by node near the wanted solution: where a cold start begins and the branch that it must land on. */
  readonly guess: Readonly<Record<string, number>>
}

export interface Circuit {
  readonly netlist: Netlist
  /** Node names; index 0 is the ground. */
  readonly nodes: readonly string[]
  /** Part ids in the order of `Workspace.junction` and `Workspace.power`. */
  readonly parts: readonly string[]
  /** Nominal element parameters, all elements one after another. */
  readonly parameters: Float64Array
  /** Where each element's terminal currents begin in `Workspace.currents`, in the order of `netlist.elements`. */
  readonly terminals: Int32Array
  /** Index of a node in `nodes` and `Workspace.voltages`. Throws on an unknown name: that is our own bug. */
  node(name: string): number
  part(id: string): number
  /** Index of an element in `netlist.elements`. */
  element(id: string): number
  /** Where an element's parameter lies in `parameters`: `ohms`, `tc1`, `value`, or a model parameter by its published name. */
  slot(elementId: string, parameter: string): number
}

export interface Workspace {
  /** This workspace's own copy of the parameters; after changing any, set `stale`. */
  readonly parameters: Float64Array
  stale: boolean
  /** Volts by node, ground first. */
  readonly voltages: Float64Array
  /** Amperes into each terminal of each element (see `Circuit.terminals`), valid after a converged solve. */
  readonly currents: Float64Array
  /** Degrees Celsius by part. */
  readonly junction: Float64Array
  /** Watts by part, valid after a converged solve: the sum over its elements of terminal voltage times current. */
  readonly power: Float64Array
  iterations: number
  /** Largest node current imbalance of the last solve, in amperes. */
  residual: number
}
