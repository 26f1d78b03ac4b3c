/** Boards by the thousand, each solved with settled temperatures. A slice of a run is the same numbers as the run's own slice. */
import {
  type Circuit,
  type Workspace,
  SETTLED,
  compile,
  copyState,
  newWorkspace,
  solvePoint,
} from '../../solve/index.ts'
import { type MovedParameter, movedParameters, setBoard } from '../prepare.ts'
import { drawerOf } from './draw.ts'
import type { Draw, SpreadProblem } from './problem.ts'

/** By sample, in their order. */
export interface Samples {
  /** Output in volts; NaN where the board has no solution. */
  readonly values: Float64Array
  /** Codes of `OUTCOMES`; 0 is success. */
  readonly outcomes: Uint8Array
}

/** A problem compiled once, with its nominal solution, from which every sample starts. */
interface Opened {
  readonly circuit: Circuit
  readonly moved: readonly MovedParameter[]
  readonly output: number
  readonly start: Workspace
  readonly ws: Workspace
}

function open(problem: SpreadProblem): Opened {
  const { input, load, ambient } = problem
  const circuit = compile(problem.netlist, problem)
  const start = newWorkspace(circuit)
  // without a nominal solution the start stays at the guess, which will do as well
  solvePoint(circuit, start, input.nominal, load.nominal, ambient.nominal, SETTLED)
  return {
    circuit,
    moved: movedParameters(problem, circuit),
    output: circuit.node(problem.output),
    start,
    ws: newWorkspace(circuit),
  }
}

export interface Sampler {
  /** Samples `from` to `from + count - 1`. */
  take(from: number, count: number): Samples
}

/** Solves the boards of one draw. Each starts from the nominal solution and never from its neighbour. */
export function samplerOf(problem: SpreadProblem, draw: Draw): Sampler {
  const opened = open(problem)
  const { circuit, output, start, ws } = opened
  const { drawn, sample } = drawerOf(problem, draw)
  return {
    take(from, count) {
      const values = new Float64Array(count)
      const outcomes = new Uint8Array(count)
      for (let n = 0; n < count; n++) {
        sample(from + n)
        setBoard(opened, ws, drawn.board)
        copyState(start, ws)
        const outcome = solvePoint(circuit, ws, drawn.input, drawn.load, drawn.ambient, SETTLED)
        outcomes[n] = outcome
        values[n] = outcome === 0 ? ws.voltages[output]! : NaN
      }
      return { values, outcomes }
    },
  }
}
