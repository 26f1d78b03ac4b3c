/** Microseconds an operating point: the solver alone on two small circuits, 10,000 points of the input, each from the one before. */
import { describe } from 'vitest'
import { compile, FROZEN, newWorkspace, OUTCOMES, SETTLED, solvePoint } from '../../engine/solve/index.ts'
import { FEEDBACK, FEEDBACK_OPTIONS, FOLLOWER, FOLLOWER_OPTIONS } from '../engine/solve/circuits.ts'
import { timed } from './timed.ts'

const POINTS = 10_000

describe.each([
  ['breakdown diode and follower', FOLLOWER, FOLLOWER_OPTIONS, 24, 0.04],
  ['op-amp, reference and pass transistor', FEEDBACK, FEEDBACK_OPTIONS, 12, 0.1],
] as const)('%s', (name, netlist, options, volts, amperes) => {
  const circuit = compile(netlist, options)
  for (const [mode, code] of [
    ['frozen', FROZEN],
    ['settled', SETTLED],
  ] as const) {
    const ws = newWorkspace(circuit)
    const sweep = (): void => {
      for (let k = 0; k < POINTS; k += 1) {
        const outcome = solvePoint(circuit, ws, volts * (0.8 + (0.4 * k) / POINTS), amperes, 25, code)
        if (outcome !== 0) throw new Error(`point ${k}: ${OUTCOMES[outcome]}`)
      }
    }
    timed(`${name}, ${mode}`, sweep, { time: 700, says: (ms) => `${((1000 * ms) / POINTS).toFixed(2)} µs a point` })
  }
})
