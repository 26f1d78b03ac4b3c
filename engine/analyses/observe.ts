/** Solved points of many boards of one design; each is solved once and remembered, so that the search may ask freely. */
import {
  FROZEN,
  SETTLED,
  type ThermalCode,
  type Workspace,
  copyState,
  newWorkspace,
  predict,
  refactor,
  solvePoint,
} from '../solve/index.ts'
import { type Board, type Observation, type ObservedCondition, observationOf } from './observation.ts'
import { type Prepared, setBoard } from './prepare.ts'

export interface Observer {
  readonly prepared: Prepared
  readonly conditions: readonly ObservedCondition[]
  /** Index of a condition; the same numbers give the same index. */
  readonly condition: (input: number, load: number, ambient: number, fault?: boolean) => number
  /**
   * Frozen temperatures are those that this board settles to at nominal input and load, at the condition's own ambient.
   */
  readonly observe: (board: Board, condition: number, mode: ThermalCode) => Observation
  /**
   * The change of one reading for each unit of one tolerance, at the solved board `from`: to first order, for choosing what
   * to solve. NaN where it cannot be told.
   */
  readonly slope: (read: Read, from: Board, tolerance: number, condition: number, mode: ThermalCode) => number
  /** Solves once more and leaves the full state in the observer's workspace, for reading a whole point. */
  readonly solve: (board: Board, condition: number, mode: ThermalCode) => { outcome: number; ws: Workspace }
}

export type Read = (seen: Observation) => number

/** How far a tolerance is moved to see where its effect goes: an amplifier's offset times its gain stays small, rounding smaller. */
const NUDGE = 1e-6

/** The board as a number in base three. */
function keyOf(board: Board): number {
  let key = 0
  for (let j = board.length - 1; j >= 0; j--) key = key * 3 + (board[j]! < 0 ? 2 : board[j]!)
  return key
}

/** Conditions are few (a few dozen); 4096 leaves room in the key for any of them and for the mode. */
const observationKey = (board: Board, index: number, mode: ThermalCode): number =>
  keyOf(board) * 4096 + index * 4 + mode

/** A solved board with the factors of its Jacobian, and what was seen next to it. */
interface Base {
  readonly ws: Workspace
  itself: Observation | undefined
  readonly nudged: (Observation | undefined)[]
}

/** Ratings are judged at settled temperatures, and of a fault that never settles at its first moment. */
const hasLimits = (mode: ThermalCode, { fault }: ObservedCondition): boolean => mode === SETTLED || fault

export function createObserver(prepared: Prepared, nominalInput: number, nominalLoad: number): Observer {
  const { circuit } = prepared
  const conditions: ObservedCondition[] = []
  const conditionIndex = new Map<string, number>()
  const nominal = newWorkspace(circuit)
  const ws = newWorkspace(circuit)
  const trial = newWorkspace(circuit)
  const starts: (Workspace | undefined)[] = []
  const seen = new Map<number, Observation>()
  const bases = new Map<number, Base | undefined>()
  const nudged = Float64Array.from(prepared.design.tolerances, () => 0)
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

  const read = (outcome: number, index: number, mode: ThermalCode): Observation => {
    const condition = conditions[index]!
    return observationOf(prepared, ws, outcome, condition, hasLimits(mode, condition))
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
  const frozenAt = (index: number): number => condition(nominalInput, nominalLoad, conditions[index]!.ambient)
  const frozenFrom = (board: Board, index: number): Observation => observe(board, frozenAt(index), SETTLED)

  const make = (board: Board, index: number, mode: ThermalCode): Observation => {
    if (mode !== FROZEN) return read(solve(board, index, mode), index, mode)
    const from = frozenFrom(board, index)
    return from.outcome === 0 ? read(solve(board, index, mode, from.junction), index, mode) : from
  }

  const observe = (board: Board, index: number, mode: ThermalCode): Observation => {
    const key = observationKey(board, index, mode)
    const found = seen.get(key)
    if (found) return found
    const made = make(board, index, mode)
    seen.set(key, made)
    return made
  }

  const solveAgain = (board: Board, index: number, mode: ThermalCode): number =>
    solve(board, index, mode, mode === FROZEN ? frozenFrom(board, index).junction : undefined)

  const baseAt = (board: Board, index: number, mode: ThermalCode): Base | undefined => {
    const key = observationKey(board, index, mode)
    if (bases.has(key)) return bases.get(key)
    const ws = solvedApart(board, index, mode)
    const base = ws && { ws, itself: undefined, nudged: [] }
    bases.set(key, base)
    return base
  }

  /** The board solved in a workspace of its own, with the factors of its Jacobian. */
  const solvedApart = (board: Board, index: number, mode: ThermalCode): Workspace | undefined => {
    if (solveAgain(board, index, mode) !== 0) return undefined
    const c = conditions[index]!
    const apart = newWorkspace(circuit)
    apart.parameters.set(ws.parameters)
    copyState(ws, apart)
    // where it stands is the solution already: this only fills the arrays
    const outcome = solvePoint(circuit, apart, c.input, c.load, c.ambient, mode === SETTLED ? FROZEN : mode)
    return outcome === 0 && refactor(circuit, apart) ? apart : undefined
  }

  /** The board with one tolerance nudged, or itself for `tolerance` -1, one Newton step from its own solution. */
  const near = (from: Board, tolerance: number, index: number, mode: ThermalCode): Observation | undefined => {
    const base = baseAt(from, index, mode)
    if (!base) return undefined
    const found = tolerance < 0 ? base.itself : base.nudged[tolerance]
    if (found) return found
    const held = mode === FROZEN ? near(from, tolerance, frozenAt(index), SETTLED) : undefined
    if (mode === FROZEN && !held) return undefined
    const c = conditions[index]!
    nudged.set(from)
    if (tolerance >= 0) nudged[tolerance]! += NUDGE
    setBoard(prepared, trial, nudged)
    trial.junction.set(held ? held.junction : base.ws.junction)
    if (!predict(circuit, base.ws, trial, c.ambient, mode)) return undefined
    const seenThere = observationOf(prepared, trial, 0, c, hasLimits(mode, c))
    if (tolerance < 0) base.itself = seenThere
    else base.nudged[tolerance] = seenThere
    return seenThere
  }

  const slope: Observer['slope'] = (read, from, tolerance, index, mode) => {
    const there = near(from, tolerance, index, mode)
    const here = there && near(from, -1, index, mode)
    return here ? (read(there) - read(here)) / NUDGE : NaN
  }

  return {
    prepared,
    conditions,
    condition,
    observe,
    slope,
    solve: (board, index, mode) => ({ outcome: solveAgain(board, index, mode), ws }),
  }
}
