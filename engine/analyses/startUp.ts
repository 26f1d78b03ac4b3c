/**
 * Start-up of a feedback design: with the output forced from 0 V up to its nominal value, the current that the circuit
 * delivers must stay above what the load takes, at every corner; otherwise the output can rest below its nominal value.
 */
import type { Element } from '../devices/elements.ts'
import type { Requirements } from '../requirements/study.ts'
import { COLD } from '../solve/index.ts'
import type { SizedDesign } from '../topologies/define.ts'
import { type Board, createObserver } from './observe.ts'
import { prepare } from './prepare.ts'
import { findWorst } from './worst.ts'

export interface StartUp {
  /** Amperes left over for charging the output capacitor at the worst corner and output voltage; not positive: it may not start. */
  surplus: number
  input: number
  ambient: number
  output: number
  board: Board
}

/** Shares of the nominal output at which the output is held: dense near zero, where a bias taken from the output is missing. */
const HELD = [0, 0.03, 0.1, 0.3, 0.6, 0.9]

export function proveStartUp(design: SizedDesign, requirements: Requirements): StartUp | undefined {
  const { input, output, load, ambient } = requirements
  const elements = design.netlist.elements.map((e): Element =>
    e.id === 'load' && e.kind === 'current-source'
      ? { kind: 'voltage-source', id: 'load', nodes: e.nodes, part: e.part, value: output.voltage }
      : e,
  )
  const forced = prepare({ ...design, netlist: { ...design.netlist, elements } })
  const terminal = forced.circuit.terminals[forced.circuit.element('load')]!
  const observer = createObserver(forced, input.nominal, output.voltage * 0.9)
  const corners = [input.min, input.max].flatMap((v) => [ambient.min, ambient.max].map((t) => ({ v, t })))
  let worst: StartUp | undefined
  const surplus = (board: Board, k: number): number => {
    const { v, t } = corners[k]!
    let least = Infinity
    for (const share of HELD) {
      const held = share * output.voltage
      const { outcome, ws } = observer.solve(board, observer.condition(v, held, t), COLD)
      if (outcome !== 0) return NaN
      const left = ws.currents[terminal]! - load.max * Math.tanh(held / 0.1)
      if (left < least) {
        least = left
        if (!worst || left < worst.surplus)
          worst = { surplus: left, input: v, ambient: t, output: held, board: board.slice() }
      }
    }
    return least
  }
  findWorst({ direction: -1, conditions: corners.length, value: surplus }, design.tolerances.length)
  return worst
}
