/**
 * Start-up of a feedback design: with the output forced from 0 V up to its nominal value, the current that the circuit
 * delivers must stay above what the load takes, at every corner; otherwise the output can rest below its nominal value.
 */
import type { Element } from '../devices/elements.ts'
import type { Requirements } from '../requirements/study.ts'
import { COLD, type Workspace, copyState, newWorkspace, solvePoint } from '../solve/index.ts'
import type { SizedDesign } from '../topologies/define.ts'
import type { Board } from './observe.ts'
import { type Prepared, guessAt, prepare, setBoard } from './prepare.ts'
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

/**
 * Where the nominal board delivers this many times the full load at every held output, no tolerance can take that away
 * (gain, the widest, spreads by less than three either way): then only the board of lowest output is solved beside it.
 */
const AMPLE = 5

/** `weakest`: the board that makes the output lowest. */
export function proveStartUp(design: SizedDesign, requirements: Requirements, weakest: Board): StartUp | undefined {
  const { input, output, load, ambient } = requirements
  const held = HELD.map((share) => holdAt(design, share * output.voltage))
  const corners = [input.min, input.max].flatMap((v) => [ambient.min, ambient.max].map((t) => ({ v, t })))
  let worst: StartUp | undefined
  let unsolved = 0
  const surplus = (board: Board, k: number): number => {
    const { v, t } = corners[k]!
    let least = Infinity
    for (const { volts, forced, ws, fresh, terminal } of held) {
      copyState(fresh, ws)
      setBoard(forced, ws, board)
      if (solvePoint(forced.circuit, ws, v, 0, t, COLD) !== 0) {
        unsolved++
        return NaN
      }
      const left = ws.currents[terminal]! - load.max * Math.tanh(volts / 0.1)
      if (left < least) least = left
      if (!worst || left < worst.surplus)
        worst = { surplus: left, input: v, ambient: t, output: volts, board: board.slice(), unsolved }
    }
    return least
  }
  const nominal = new Int8Array(design.tolerances.length)
  for (let k = 0; k < corners.length; k++) for (const board of [nominal, weakest]) surplus(board, k)
  const isAmple = worst !== undefined && unsolved === 0 && (worst as StartUp).surplus > AMPLE * load.max
  if (!isAmple) findWorst({ direction: -1, conditions: corners.length, value: surplus }, design.tolerances.length)
  return worst && { ...worst, unsolved }
}

interface Held {
  readonly volts: number
  readonly forced: Prepared
  readonly ws: Workspace
  readonly fresh: Workspace
  /** Index of the current that the circuit delivers into the held output. */
  readonly terminal: number
}

/** The circuit with its output held at `volts` by a source; what follows the output starts from there. */
function holdAt(design: SizedDesign, volts: number): Held {
  const elements = design.netlist.elements.map((e): Element =>
    e.id === 'load' && e.kind === 'current-source'
      ? { kind: 'voltage-source', id: 'load', nodes: e.nodes, part: e.part, value: volts }
      : e,
  )
  const forced = prepare({ ...design, guess: guessAt(design, volts), netlist: { ...design.netlist, elements } })
  const { circuit } = forced
  return {
    volts,
    forced,
    ws: newWorkspace(circuit),
    fresh: newWorkspace(circuit),
    terminal: circuit.terminals[circuit.element('load')]!,
  }
}
