/** Solved points of many boards of one design; each is solved once and remembered, so that the search may ask freely. */
import {
  FROZEN,
  SETTLED,
  type State,
  type ThermalCode,
  type Workspace,
  copyState,
  newWorkspace,
  predict,
  refactor,
  setState,
  solvePoint,
  stateOf,
} from '../solve/index.ts'
import { type Board, type Observation, type ObservedCondition, allowedAt, observationOf } from './observation.ts'
import { type Prepared, setBoard, setParameters } from './prepare.ts'

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
   * The change of one reading for each unit of every tolerance, at the solved board `from`, into `into`: to first order, for
   * choosing what to solve. NaN where it cannot be told. `ofLimits`: whether a use or a stress is read.
   */
  readonly slopes: (
    read: Read,
    from: Board,
    condition: number,
    mode: ThermalCode,
    into: Float64Array,
    ofLimits?: boolean,
  ) => void
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

/** A solved board and those next to it: itself and each tolerance nudged, all a first-order step from the same factors. */
interface Near {
  readonly itself: Observation | undefined
  readonly nudged: readonly (Observation | undefined)[]
}

const NOWHERE: Near = { itself: undefined, nudged: [] }

/** Ratings are judged at settled temperatures, and of a fault that never settles at its first moment. */
const hasLimits = (mode: ThermalCode, { fault }: ObservedCondition): boolean => mode === SETTLED || fault

export function createObserver(prepared: Prepared, nominalInput: number, nominalLoad: number): Observer {
  const { circuit } = prepared
  const conditions: ObservedCondition[] = []
  const conditionIndex = new Map<string, number>()
  const nominal = newWorkspace(circuit)
  const ws = newWorkspace(circuit)
  const trial = newWorkspace(circuit)
  const base = newWorkspace(circuit)
  const starts: (Workspace | undefined)[] = []
  const allowed: Float64Array[] = []
  const seen = new Map<number, Observation>()
  /** By the same keys: the solutions, for starting from again. */
  const states = new Map<number, State>()
  const nears = new Map<number, Near>()
  const nearsWithLimits = new Map<number, Near>()
  const nudged = Float64Array.from(prepared.design.tolerances, () => 0)
  const changedParts = prepared.movedBy.map((moved) => [...new Set(moved.map(({ part }) => part))])
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

  const putBoard = (board: Board): void => {
    const key = keyOf(board)
    if (key === boardInPlace) return
    setBoard(prepared, ws, board)
    boardInPlace = key
  }

  const solve = (board: Board, index: number, mode: ThermalCode, junction?: readonly number[]): number => {
    const c = conditions[index]!
    const start = startAt(index)
    putBoard(board)
    copyState(start, ws)
    if (junction) ws.junction.set(junction)
    return solvePoint(circuit, ws, c.input, c.load, c.ambient, mode)
  }

  const allowedOf = (index: number): Float64Array => (allowed[index] ??= allowedAt(prepared, conditions[index]!))

  const read = (outcome: number, index: number, mode: ThermalCode): Observation => {
    const condition = conditions[index]!
    return observationOf(prepared, ws, outcome, condition, hasLimits(mode, condition) ? allowedOf(index) : undefined)
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
    if (made.outcome === 0) states.set(key, stateOf(ws))
    return made
  }

  const solveAgain = (board: Board, index: number, mode: ThermalCode): number =>
    solve(board, index, mode, mode === FROZEN ? frozenFrom(board, index).junction : undefined)

  const nearAt = (board: Board, index: number, mode: ThermalCode, ofLimits: boolean): Near => {
    const key = observationKey(board, index, mode)
    const found = (ofLimits ? undefined : nears.get(key)) ?? nearsWithLimits.get(key)
    if (found) return found
    // of the nominal board every limit will be asked for
    const withLimits = ofLimits || (keyOf(board) === 0 && hasLimits(mode, conditions[index]!))
    const made = nearTo(board, index, mode, withLimits)
    const all = withLimits ? nearsWithLimits : nears
    all.set(key, made)
    return made
  }

  const nearTo = (board: Board, index: number, mode: ThermalCode, withLimits: boolean): Near => {
    const held = mode === FROZEN ? nearAt(board, frozenAt(index), SETTLED, false) : undefined
    if (!solveBase(board, index, mode)) return NOWHERE
    const condition = conditions[index]!
    const may = withLimits ? allowedOf(index) : undefined
    nudged.set(board)
    trial.parameters.set(base.parameters)
    /** One step from the base to the parameters and, where they are held, the temperatures of the trial. */
    const step = (changed: readonly number[], temperatures: Observation | undefined): Observation | undefined => {
      if (held && !temperatures) return undefined
      trial.junction.set(temperatures ? temperatures.junction : base.junction)
      return predict(circuit, base, trial, condition.ambient, mode, changed)
        ? observationOf(prepared, trial, 0, condition, may)
        : undefined
    }
    const itself = step([], held?.itself)
    return {
      itself,
      nudged: Array.from(board, (_, j) => {
        const moved = prepared.movedBy[j]!
        nudged[j]! += NUDGE
        setParameters(circuit, moved, trial, nudged)
        nudged[j] = board[j]!
        const there = step(changedParts[j]!, held?.nudged[j])
        for (const { slot } of moved) trial.parameters[slot] = base.parameters[slot]!
        return there
      }),
    }
  }

  /** Solves the board into `base`, with the factors of its Jacobian. */
  const solveBase = (board: Board, index: number, mode: ThermalCode): boolean => {
    if (observe(board, index, mode).outcome !== 0) return false
    const c = conditions[index]!
    putBoard(board)
    base.parameters.set(ws.parameters)
    base.stale = true
    setState(base, states.get(observationKey(board, index, mode))!)
    // where it stands is the solution already: this only fills the arrays
    return (
      solvePoint(circuit, base, c.input, c.load, c.ambient, mode === SETTLED ? FROZEN : mode) === 0 &&
      refactor(circuit, base)
    )
  }

  const slopes: Observer['slopes'] = (read, from, index, mode, into, ofLimits = false) => {
    // of nominal parts alone nothing is nudged, and what is kept must do for all tolerances
    if (into.length === 0) return
    const { itself, nudged } = nearAt(from, index, mode, ofLimits)
    const here = itself ? read(itself) : NaN
    for (let j = 0; j < into.length; j++) {
      const there = nudged[j]
      into[j] = there ? (read(there) - here) / NUDGE : NaN
    }
  }

  return {
    prepared,
    conditions,
    condition,
    observe,
    slopes,
    solve: (board, index, mode) => ({ outcome: solveAgain(board, index, mode), ws }),
  }
}
