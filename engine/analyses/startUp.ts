/**
 * Start-up of a feedback design: with the output forced from 0 V up to its nominal value, the current that the circuit
 * delivers must stay above what the load takes, at every corner; otherwise the output can rest below its nominal value.
 */
import type { Element } from '../devices/elements.ts'
import type { Requirements } from '../requirements/study.ts'
import { COLD, copyState, newWorkspace, solvePoint } from '../solve/index.ts'
import type { SizedDesign } from '../topologies/define.ts'
import type { Board } from './observe.ts'
import { prepare, setBoard } from './prepare.ts'
import { findWorst } from './worst.ts'

export interface StartUp {
  /** Amperes left over for charging the output capacitor at the worst corner and output voltage; not positive: it may not start. */
  surplus: number
  input: number
  ambient: number
  output: number
  board: Board
  /** Forced points that have no solution: where there are any, start-up is not proven. */
  unsolved: number
}

/** Shares of the nominal output at which the output is held: dense near zero, where a bias taken from the output is missing. */
const HELD = [0.9, 0.6, 0.3, 0.1, 0.03, 0]

/** Steps in which a held output is approached that one step does not reach. */
const STEPS = 8

/**
 * Where the nominal board delivers this many times the full load at every held output, no tolerance can take that away
 * (gain, the widest, spreads by less than three either way): then only the board of lowest output is solved beside it.
 */
const AMPLE = 5

/** `weakest`: the board that makes the output lowest. */
export function proveStartUp(design: SizedDesign, requirements: Requirements, weakest: Board): StartUp | undefined {
  const { input, output, load, ambient } = requirements
  const elements = design.netlist.elements.map((e): Element =>
    e.id === 'load' && e.kind === 'current-source'
      ? { kind: 'voltage-source', id: 'load', nodes: e.nodes, part: e.part, value: output.voltage }
      : e,
  )
  const forced = prepare({ ...design, netlist: { ...design.netlist, elements } })
  const { circuit } = forced
  const terminal = circuit.terminals[circuit.element('load')]!
  const slot = circuit.slot('load', 'value')
  const ws = newWorkspace(circuit)
  const fresh = newWorkspace(circuit)
  const corners = [input.min, input.max].flatMap((v) => [ambient.min, ambient.max].map((t) => ({ v, t })))
  let worst: StartUp | undefined
  let unsolved = 0
  const good = newWorkspace(circuit)
  const solveAt = (held: number, v: number, t: number): boolean => {
    ws.parameters[slot] = held
    ws.stale = true
    return solvePoint(circuit, ws, v, 0, t, COLD) === 0
  }
  /** Down to `held` from the last solved output, in smaller steps where one step is too long. */
  const walkTo = (held: number, from: number, v: number, t: number): boolean => {
    if (solveAt(held, v, t)) return true
    copyState(good, ws)
    for (let step = 1; step <= STEPS; step++)
      if (!solveAt(from + ((held - from) * step) / STEPS, v, t)) return false
    return true
  }
  const surplus = (board: Board, k: number): number => {
    const { v, t } = corners[k]!
    copyState(fresh, ws)
    setBoard(forced, ws, board)
    let least = Infinity
    let last = output.voltage
    for (const share of HELD) {
      const held = share * output.voltage
      if (!walkTo(held, last, v, t)) {
        unsolved++
        return NaN
      }
      copyState(ws, good)
      last = held
      const left = ws.currents[terminal]! - load.max * Math.tanh(held / 0.1)
      if (left < least) least = left
      if (!worst || left < worst.surplus)
        worst = { surplus: left, input: v, ambient: t, output: held, board: board.slice(), unsolved }
    }
    return least
  }
  const nominal = new Int8Array(design.tolerances.length)
  for (let k = 0; k < corners.length; k++) for (const board of [nominal, weakest]) surplus(board, k)
  const isAmple = worst !== undefined && unsolved === 0 && (worst as StartUp).surplus > AMPLE * load.max
  if (!isAmple) findWorst({ direction: -1, conditions: corners.length, value: surplus }, design.tolerances.length)
  return worst && { ...worst, unsolved }
}
