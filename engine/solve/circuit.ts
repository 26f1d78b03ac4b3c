/** What a compiled circuit and a workspace hold beyond their public face. All indices are into flat typed arrays. */
import type { Memory } from './plan.ts'
import type { Circuit, Workspace } from './types.ts'

/** All devices of one kind: `terminals` holds the places in `x` of their inner terminals, one device after another. */
export interface DeviceSet {
  readonly count: number
  readonly terminals: Int32Array
  readonly derivedAt: Int32Array
  readonly outAt: Int32Array
}

/** Resistors of the netlist first (`plainCount` of them), then the series resistances inside devices. */
export interface ResistorSet {
  readonly count: number
  readonly plainCount: number
  /** Where the current of each plain one is reported; that of a series resistance is its device's. */
  readonly outAt: Int32Array
  /** Two places in `x` each. */
  readonly ends: Int32Array
  readonly seriesParameterAt: Int32Array
  /** Four entries each, in the order aa, bb, ab, ba; -1 where the Jacobian has none. */
  readonly entries: Int32Array
}

/** What a part's temperature touches: kind codes and indices, part after part; part p owns start[p] to start[p + 1]. */
export interface Temperature {
  readonly start: Int32Array
  readonly kind: Uint8Array
  readonly index: Int32Array
  readonly parameterAt: Int32Array
}

/** Sources of voltage. A pinned node is at a known voltage from `from`; any other source has an unknown current. */
export interface Sources {
  readonly pinNode: Int32Array
  readonly pinFrom: Int32Array
  /** +1 where the pinned node is the source's plus, -1 where it is its minus. */
  readonly pinSign: Float64Array
  readonly pinValueAt: Int32Array
  readonly pinOut: Int32Array
  readonly branchPlus: Int32Array
  readonly branchMinus: Int32Array
  readonly branchRow: Int32Array
  readonly branchValueAt: Int32Array
  readonly branchOut: Int32Array
}

/** How unknowns are laid out, and where every element finds its own. `x` is [nodes, inner nodes, source currents]. */
export interface Layout {
  readonly size: number
  readonly nodeCount: number
  /** Places in `x` from here on are solved for; before it are the ground and the pinned nodes. */
  readonly firstUnknown: number
  readonly guess: Float64Array
  readonly derivedLength: number
  readonly outLength: number
  readonly partCount: number
  readonly diodes: DeviceSet
  readonly transistors: DeviceSet
  /** +1 or -1 by transistor. */
  readonly polarity: Float64Array
  readonly amplifiers: DeviceSet
  readonly references: DeviceSet
  readonly loads: DeviceSet
  readonly fixed: DeviceSet
  readonly resistors: ResistorSet
  readonly temperature: Temperature
  readonly sources: Sources
  /** Rows and columns (places in `x`) of the Jacobian's structural entries before fill. */
  readonly entryRow: Int32Array
  readonly entryColumn: Int32Array
  /** Entry and place in `out` of every device derivative that lands on an unknown row and column. */
  readonly stampEntry: Int32Array
  readonly stampFrom: Int32Array
  /** The diagonal entry of every unknown node; a floating source's current, after them, has none. */
  readonly diagonalEntry: Int32Array
  /** Four a floating source: its row on plus, plus on its row, the same for minus. */
  readonly branchEntries: Int32Array
  readonly branchSigns: Float64Array
  /** By terminal of every element: the place in `out` of its current, its node and its part. */
  readonly terminalFrom: Int32Array
  readonly terminalNode: Int32Array
  readonly terminalPart: Int32Array
  readonly thermalResistance: Float64Array
}

/** A row below a pivot: its place in `x`, its entry in the pivot's column, and pairs of entries (target, source) to update. */
export interface Below {
  readonly row: number
  readonly entry: number
  readonly updates: readonly number[]
}

export interface Pivot {
  /** Places in `x` of its equation and of its unknown. */
  readonly row: number
  readonly column: number
  readonly entry: number
  readonly below: readonly Below[]
  readonly right: readonly { readonly entry: number; readonly column: number }[]
}

/** The fixed elimination; its first entries are the layout's, fill follows. */
export interface Elimination {
  readonly entries: number
  readonly pivots: readonly Pivot[]
}

export interface CompiledCircuit extends Circuit {
  readonly layout: Layout
  readonly memory: Memory
  readonly plan: Int32Array
}

/** Arrays without a word of their own are views of `doubles`, which `plan.ts` describes. */
export interface SolverWorkspace extends Workspace {
  readonly doubles: Float64Array
  /** Unknowns and known voltages; `voltages` is its front. */
  readonly x: Float64Array
  /** By place in `x`: the sum of currents leaving a node into elements, or a floating source's error in volts. */
  readonly f: Float64Array
  readonly dx: Float64Array
  readonly out: Float64Array
  readonly derived: Float64Array
  readonly conductance: Float64Array
  readonly branch: Float64Array
  /** Constant part of the matrix, and the matrix itself. */
  readonly base: Float64Array
  readonly matrix: Float64Array
  /** The condition: volts of the element `input`, amperes of `load`. */
  input: number
  load: number
  baseIsStale: boolean
  /** The state was found by the last resort: the next solve from it is spared what is bound to fail again. */
  isHard: boolean
  /** Own array: the dense system. */
  readonly dense: Float64Array
  /** Own array: its rows in pivot order. */
  readonly order: Int32Array
  /** Own array: temperature by part for which `derived` holds. */
  readonly preparedAt: Float64Array
  /** Own array: the last state that a continuation can return to. */
  readonly good: Float64Array
  /** Own array: the state that a last resort begins at. */
  readonly start: Float64Array
  /** Own array: junctions on entry, put back after a failure. */
  readonly before: Float64Array
  /** Own array: an amplifier's derived values while its loop is open. */
  readonly closed: Float64Array
  /** Own array: the longest step of each part's temperature. */
  readonly longest: Float64Array
  /** Own array: three values a part for the temperature's own iteration. */
  readonly thermal: Float64Array
}
