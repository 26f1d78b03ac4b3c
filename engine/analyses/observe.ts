/** What is read off one solved point of one board; each is solved once and remembered, so that the search may ask freely. */
import {
  FROZEN,
  SETTLED,
  type ThermalCode,
  type Workspace,
  copyState,
  newWorkspace,
  solvePoint,
} from '../solve/index.ts'
import type { StressPoint } from '../topologies/define.ts'
import { efficiencyOf } from './efficiency.ts'
import { type Prepared, setBoard } from './prepare.ts'

/** Input in volts, load in amperes, ambient in degrees Celsius; `fault` points are held against the maker's ratings, not the derated ones. */
export interface ObservedCondition {
  readonly input: number
  readonly load: number
  readonly ambient: number
  readonly fault: boolean
}

/** One entry a tolerance: -1 low, 0 nominal, +1 high. */
export type Board = Int8Array

export interface Observation {
  /** Outcome code of the solve; every number below is meaningless unless it is 0. */
  readonly outcome: number
  readonly output: number
  readonly heat: number
  readonly inputCurrent: number
  readonly efficiency: number
  /** By limit: share of the (derated, or in a fault the maker's) rating that is used; above 1 it is exceeded. */
  readonly use: Float64Array
  /** By limit: the stress itself. */
  readonly stress: Float64Array
  readonly junction: Float64Array
}

export interface Observer {
  readonly prepared: Prepared
  readonly conditions: readonly ObservedCondition[]
  /** Index of a condition; the same numbers give the same index. */
  readonly condition: (input: number, load: number, ambient: number, fault?: boolean) => number
  /**
   * Frozen temperatures are those that this board settles to at nominal input and load, at the condition's own ambient.
   */
  readonly observe: (board: Board, condition: number, mode: ThermalCode) => Observation
  /** Solves once more and leaves the full state in the observer's workspace, for reading a whole point. */
  readonly solve: (board: Board, condition: number, mode: ThermalCode) => { outcome: number; ws: Workspace }
}

/** The share of a limit that is used at one solved point. */
export function useOf(
  prepared: Prepared,
  index: number,
  ws: Workspace,
  ambient: number,
  fault: boolean,
  at: StressPoint,
): number {
  const { limit, stress, at: read } = prepared.limits[index]!
  read(ws, at)
  const allowed = (fault ? limit.inFault : limit.derated)(ambient, at)
  const value = stress(ws)
  if (limit.sense === 'min') return value <= 0 ? Infinity : allowed / value
  return allowed <= 0 ? (value <= 0 ? 0 : Infinity) : Math.max(0, value) / allowed
}

/** The board as a number in base three. */
function keyOf(board: Board): number {
  let key = 0
  for (let j = board.length - 1; j >= 0; j--) key = key * 3 + (board[j]! < 0 ? 2 : board[j]!)
  return key
}

/** Conditions are few (a few dozen); 4096 leaves room in the key for any of them and for the mode. */
const observationKey = (board: Board, index: number, mode: ThermalCode): number =>
  keyOf(board) * 4096 + index * 4 + mode

export function createObserver(prepared: Prepared, nominalInput: number, nominalLoad: number): Observer {
  const { circuit, limits } = prepared
  const conditions: ObservedCondition[] = []
  const conditionIndex = new Map<string, number>()
  const nominal = newWorkspace(circuit)
  const ws = newWorkspace(circuit)
  const starts: (Workspace | undefined)[] = []
  const seen = new Map<number, Observation>()
  const at: StressPoint = { voltage: 0, power: 0, junction: 0 }
  let boardInPlace = 0
  let nominalSolved = false

  /** The nominal board's settled solution at this condition: where every other board's solve begins, so that order cannot matter. */
  const startAt = (index: number): Workspace => {
    const found = starts[index]
    if (found) return found
    const c = conditions[index]!
    if (!nominalSolved) {
      solvePoint(circuit, nominal, nominalInput, nominalLoad, 25, SETTLED)
      nominalSolved = true
    }
    const start = newWorkspace(circuit)
    copyState(nominal, start)
    solvePoint(circuit, start, c.input, c.load, c.ambient, SETTLED)
    starts[index] = start
    return start
  }

  const solve = (board: Board, index: number, mode: ThermalCode, junction?: Float64Array): number => {
    const c = conditions[index]!
    const start = startAt(index)
    const key = keyOf(board)
    if (key !== boardInPlace) {
      setBoard(prepared, ws, board)
      boardInPlace = key
    }
    copyState(start, ws)
    if (junction) ws.junction.set(junction)
    return solvePoint(circuit, ws, c.input, c.load, c.ambient, mode)
  }

  const read = (outcome: number, index: number): Observation => {
    const c = conditions[index]!
    const use = new Float64Array(limits.length)
    const stress = new Float64Array(limits.length)
    if (outcome !== 0)
      return {
        outcome,
        output: NaN,
        heat: NaN,
        inputCurrent: NaN,
        efficiency: NaN,
        use: use.fill(NaN),
        stress: stress.fill(NaN),
        junction: ws.junction.slice(),
      }
    for (let k = 0; k < limits.length; k++) {
      stress[k] = limits[k]!.stress(ws)
      use[k] = useOf(prepared, k, ws, c.ambient, c.fault, at)
    }
    let heat = 0
    for (const part of prepared.heatParts) heat += ws.power[part]!
    const output = ws.voltages[prepared.output]!
    const inputCurrent = -ws.currents[prepared.inputTerminal]!
    return {
      outcome,
      output,
      heat,
      inputCurrent,
      efficiency: efficiencyOf(c.input * inputCurrent, heat),
      use,
      stress,
      junction: ws.junction.slice(),
    }
  }

  const condition = (input: number, load: number, ambient: number, fault = false): number => {
    const name = `${input} ${load} ${ambient} ${fault}`
    let index = conditionIndex.get(name)
    if (index === undefined) {
      index = conditions.push({ input, load, ambient, fault }) - 1
      conditionIndex.set(name, index)
    }
    return index
  }

  /** The point whose temperatures a frozen solve at this condition keeps. */
  const frozenFrom = (board: Board, index: number): Observation =>
    observe(board, condition(nominalInput, nominalLoad, conditions[index]!.ambient), SETTLED)

  const make = (board: Board, index: number, mode: ThermalCode): Observation => {
    if (mode !== FROZEN) return read(solve(board, index, mode), index)
    const from = frozenFrom(board, index)
    return from.outcome === 0 ? read(solve(board, index, mode, from.junction), index) : from
  }

  const observe = (board: Board, index: number, mode: ThermalCode): Observation => {
    const key = observationKey(board, index, mode)
    const found = seen.get(key)
    if (found) return found
    const made = make(board, index, mode)
    seen.set(key, made)
    return made
  }

  return {
    prepared,
    conditions,
    condition,
    observe,
    solve(board, index, mode) {
      const junction = mode === FROZEN ? frozenFrom(board, index).junction : undefined
      return { outcome: solve(board, index, mode, junction), ws }
    },
  }
}
