/**
 * The ordered fallbacks: Newton from where the workspace stands, from the guess, from beside the guess, with every node held to its guess by a
 * conductance that is then taken away, and with the sources brought up from nothing. A continuation counts only when its
 * last solve was of the full circuit. Where all of that fails, `solveByOpenLoop` is the last resort, asked for by name: no point
 * that the ladder solves ever comes to it.
 */
import type { CompiledCircuit, Layout, SolverWorkspace } from './circuit.ts'
import { setSources } from './condition.ts'
import { CONVERGED, ITERATION_LIMIT, newton } from './newton.ts'
import { closeLoop, solveNear } from './openLoop.ts'
import { ANCHOR } from './plan.ts'

const CONTINUATION_STALLED = 4

/** Of 200,000 warm solves of invented studies 0.3 % needed more, and what does not end by then mostly goes round in circles. */
const WARM_ITERATIONS = 40
const COLD_ITERATIONS = 120
const CONTINUATION_ITERATIONS = 30
/**
 * A guess can lie where Newton goes round in circles; next to it, it mostly does not. So many places beside it are tried, so
 * many volts away, in directions that are the same every time.
 */
const NUDGES = 3
const NUDGE = 0.15
/** Siemens at which holding begins, and under which it is let go altogether. */
const FIRST_ANCHOR = 1e-1
const LAST_ANCHOR = 1e-13

/** One electrical solution at the present temperatures; an outcome's code. `isBrief`: from the two nearest starts alone. */
export function solveElectrical(circuit: CompiledCircuit, ws: SolverWorkspace, isBrief = false): number {
  const { layout } = circuit
  ws.doubles[ANCHOR] = 0
  setSources(layout, ws, 1)
  if (newton(circuit, ws, WARM_ITERATIONS) === CONVERGED) return CONVERGED
  goToGuess(layout, ws)
  if (newton(circuit, ws, COLD_ITERATIONS) === CONVERGED) return CONVERGED
  if (isBrief) return ITERATION_LIMIT
  for (let nudge = 1; nudge <= NUDGES; nudge += 1) {
    goToGuess(layout, ws)
    for (let k = layout.firstUnknown; k < ws.x.length; k += 1) ws.x[k]! += NUDGE * Math.sin(nudge + (2 * nudge - 1) * k)
    setSources(layout, ws, 1)
    if (newton(circuit, ws, COLD_ITERATIONS) === CONVERGED) return CONVERGED
  }
  const released = releaseAnchor(circuit, ws)
  if (released === CONVERGED) return CONVERGED
  const raised = raiseSources(circuit, ws)
  if (raised !== CONVERGED) goToGuess(layout, ws)
  return raised
}

/**
 * For what the ladder fails on: from where the workspace stands if that is next to a solution, then over the open loop, and only
 * then up the ladder again, which may hold at other temperatures. An outcome's code.
 */
export function solveByOpenLoop(circuit: CompiledCircuit, ws: SolverWorkspace): number {
  const { layout } = circuit
  setSources(layout, ws, 1)
  ws.start.set(ws.x)
  if (solveNear(circuit, ws) === CONVERGED) return CONVERGED
  ws.x.set(ws.start)
  if (closeLoop(circuit, ws)) return CONVERGED
  return solveElectrical(circuit, ws)
}

/** Every unknown at its guess, known voltages as the condition has them. */
export function goToGuess(layout: Layout, ws: SolverWorkspace): void {
  ws.x.set(layout.guess)
  setSources(layout, ws, 1)
}

function releaseAnchor(circuit: CompiledCircuit, ws: SolverWorkspace): number {
  goToGuess(circuit.layout, ws)
  ws.good.set(ws.x)
  let anchor = FIRST_ANCHOR
  let reached = Infinity
  let ratio = 10
  for (let solves = 0; solves < 100; solves += 1) {
    ws.doubles[ANCHOR] = anchor
    const code = newton(circuit, ws, CONTINUATION_ITERATIONS)
    if (code === CONVERGED) {
      if (anchor === 0) return CONVERGED
      ws.good.set(ws.x)
      reached = anchor
      ratio = Math.min(100, ratio * 2)
    } else {
      ws.x.set(ws.good)
      if (code !== ITERATION_LIMIT && reached === Infinity) break
      ratio = Math.sqrt(ratio)
      if (reached === Infinity || ratio < 1.02) break
    }
    anchor = reached / ratio < LAST_ANCHOR ? 0 : reached / ratio
  }
  ws.doubles[ANCHOR] = 0
  return CONTINUATION_STALLED
}

function raiseSources(circuit: CompiledCircuit, ws: SolverWorkspace): number {
  ws.x.fill(0)
  ws.good.set(ws.x)
  let reached = 0
  let share = 0.1
  let outcome = CONTINUATION_STALLED
  for (let solves = 0; solves < 200; solves += 1) {
    const aim = Math.min(1, reached + share)
    setSources(circuit.layout, ws, aim)
    const code = newton(circuit, ws, CONTINUATION_ITERATIONS)
    if (code === CONVERGED) {
      if (aim === 1) return CONVERGED
      ws.good.set(ws.x)
      reached = aim
      share = Math.min(0.5, share * 2)
    } else {
      if (reached === 0 && code !== ITERATION_LIMIT) outcome = code
      ws.x.set(ws.good)
      share *= 0.25
      if (share < 1e-5) break
    }
  }
  return outcome
}
