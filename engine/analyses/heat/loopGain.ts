/** How near a part is to thermal runaway. */
import { FROZEN, SETTLED, solvePoint } from '../../solve/index.ts'
import type { Board } from '../observation.ts'
import type { Observer } from '../observe.ts'

/** Kelvin by which the junction is moved either way: large against the solver's tolerance, small against the curvature of what it does. */
const STEP = 0.5

/**
 * Gain of the loop from a part's temperature to its heat and back: θ·dP/dTj, all other parts held. Below 1 a small warming dies
 * away, at 1 and above it grows: that is thermal runaway. Negative where warming lessens the heat. General relation
 * (dP/dTj < 1/θ for stability), from memory of the textbooks. Undefined where a neighbouring point has no solution.
 */
export function loopGain(
  observer: Observer,
  part: string,
  thermalResistance: number,
  board: Board,
  condition: number,
): number | undefined {
  const { circuit } = observer.prepared
  const index = circuit.part(part)
  const { input, load, ambient } = observer.conditions[condition]!
  const power: number[] = []
  for (const step of [-STEP, STEP]) {
    // solved anew each time: the frozen solve below leaves the observer's workspace beside the settled point
    const { outcome, ws } = observer.solve(board, condition, SETTLED)
    if (outcome !== 0) return undefined
    ws.junction[index] = ws.junction[index]! + step
    if (solvePoint(circuit, ws, input, load, ambient, FROZEN) !== 0) return undefined
    power.push(ws.power[index]!)
  }
  return (thermalResistance * (power[1]! - power[0]!)) / (2 * STEP)
}
