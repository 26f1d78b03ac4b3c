/**
 * Start-up of a feedback design: with the output forced from 0 V up to its nominal value, the current that the circuit
 * delivers must stay above what the load takes, at every corner; otherwise the output can rest below its nominal value.
 */
import type { Element } from '../devices/elements.ts'
import type { Requirements } from '../requirements/study.ts'
import { COLD, newWorkspace, solvePoint } from '../solve/index.ts'
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

export function proveStartUp(design: SizedDesign, requirements: Requirements): StartUp | undefined {
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
  const corners = [input.min, input.max].flatMap((v) => [ambient.min, ambient.max].map((t) => ({ v, t })))
  let worst: StartUp | undefined
  let unsolved = 0
  const surplus = (board: Board, k: number): number => {
    const { v, t } = corners[k]!
    setBoard(forced, ws, board)
    let least = Infinity
    for (const share of HELD) {
      const held = share * output.voltage
      ws.parameters[slot] = held
      ws.stale = true
      if (solvePoint(circuit, ws, v, 0, t, COLD) !== 0) {
        unsolved++
        return NaN
      }
      const left = ws.currents[terminal]! - load.max * Math.tanh(held / 0.1)
      if (left < least) least = left
      if (!worst || left < worst.surplus)
        worst = { surplus: left, input: v, ambient: t, output: held, board: board.slice(), unsolved }
    }
    return least
  }
  findWorst({ direction: -1, conditions: corners.length, value: surplus }, design.tolerances.length)
  return worst && { ...worst, unsolved }
}
