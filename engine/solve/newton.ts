/** Newton's method on a compiled circuit at given temperatures. */
import type { CompiledCircuit, Layout, SolverWorkspace } from './circuit.ts'
import { addAnchor, assemble, evaluate, setKnown } from './evaluate.ts'
import { factor, solveDense, substitute } from './factor.ts'

export const CONVERGED = 0
export const ITERATION_LIMIT = 1
export const SINGULAR = 2
export const NON_FINITE = 3

/**
 * A state is the solution when the last step was below this, in volts: what is left after it is its square over a
 * junction's 50 mV, 1e-12 V.
 */
const LAST_STEP = 2e-7
/** Below this step, in volts, the next one re-uses the factors: the Jacobian has moved by less than 1 %. */
const CHORD_STEP = 1e-4
/** Current balance: so many amperes, and as much as so many volts on the node's own conductance draw. */
const BALANCE_AMPERES = 1e-12
const BALANCE_VOLTS = 5e-12
/** Shares of a node's voltage on its own conductance that rounding alone accounts for. */
const ROUNDING = 8 * Number.EPSILON
/** At a step that rounding explains, a balance as bad as this is accepted as the best there is, in amperes. */
const WORST_BALANCE = 1e-10
const LEAST_STEP = 1e-11
/**
 * A node that only a blocked junction feeds, as the output of an unloaded follower, has no voltage to the last digit: its
 * steps stay large while its currents are rounding and less. After so many iterations, so many such states running will do.
 */
const PATIENCE = 8
const QUIET_ENOUGH = 3
const QUIET_AMPERES = 1e-15
/** Longest step of any unknown in volts (amperes for a floating source's current). */
const LONGEST_STEP = 200

/**
 * Solves from the state in `ws.x`; true solutions only. On success `ws.out` holds the currents at the final state and
 * `ws.residual` the largest imbalance; on failure the state is wherever the last step led.
 */
export function newton(circuit: CompiledCircuit, ws: SolverWorkspace, most: number): number {
  const { layout, elimination } = circuit
  setKnown(layout, ws)
  let step = Infinity
  let hasFactors = false
  let wasChord = false
  let quiet = 0
  for (let iteration = 0; ; iteration += 1) {
    const isLimited = evaluate(layout, ws, iteration === 0)
    if (ws.anchor !== 0) addAnchor(layout, ws)
    if (step <= LAST_STEP && !isLimited && isSolution(layout, ws, step)) {
      ws.iterations += iteration
      return CONVERGED
    }
    if (iteration > PATIENCE) {
      quiet = !isLimited && isQuiet(layout, ws) ? quiet + 1 : 0
      if (quiet === QUIET_ENOUGH) {
        ws.iterations += iteration
        return CONVERGED
      }
    }
    if (iteration >= most) {
      ws.iterations += iteration
      return ITERATION_LIMIT
    }
    wasChord = hasFactors && !wasChord && !isLimited && step < CHORD_STEP
    if (!wasChord) {
      assemble(layout, ws)
      hasFactors = factor(elimination.factor, ws.matrix)
    }
    if (hasFactors) {
      substitute(elimination.forward, elimination.back, ws.matrix, ws.f, ws.dx)
    } else {
      assemble(layout, ws)
      if (!solveDense(circuit, ws)) {
        ws.iterations += iteration
        return SINGULAR
      }
    }
    step = takeStep(layout, ws)
    if (step === Infinity) {
      ws.iterations += iteration
      return NON_FINITE
    }
  }
}

/** Whether currents balance at every node as well as they can; leaves the largest imbalance in `ws.residual`. */
function isSolution(layout: Layout, ws: SolverWorkspace, step: number): boolean {
  const { unknowns } = layout
  const { f, x, diagonal } = ws
  let worst = 0
  let isBalanced = true
  let isRounding = true
  let isNear = step <= LEAST_STEP
  for (let k = 0; k < unknowns.length; k += 1) {
    const place = unknowns[k]!
    const value = f[place]!
    const size = value < 0 ? -value : value
    if (size > worst) worst = size
    // each written so that NaN fails
    if (!(size <= BALANCE_AMPERES + BALANCE_VOLTS * diagonal[k]!)) {
      isBalanced = false
      if (!(size <= ROUNDING * diagonal[k]! * Math.abs(x[place]!))) isRounding = false
      if (!(size <= WORST_BALANCE)) isNear = false
    }
  }
  ws.residual = worst
  return isBalanced || isRounding || isNear
}

/** Whether no node's imbalance can be told from rounding, whatever the step that led here. */
function isQuiet(layout: Layout, ws: SolverWorkspace): boolean {
  const { unknowns } = layout
  const { f, x, diagonal } = ws
  let worst = 0
  for (let k = 0; k < unknowns.length; k += 1) {
    const place = unknowns[k]!
    const size = Math.abs(f[place]!)
    if (!(size <= QUIET_AMPERES + ROUNDING * diagonal[k]! * Math.abs(x[place]!))) return false
    if (size > worst) worst = size
  }
  ws.residual = worst
  return true
}

/** Moves every unknown by its share of `dx`; the size of the largest change, or Infinity where one is no number. */
function takeStep(layout: Layout, ws: SolverWorkspace): number {
  const { unknowns } = layout
  const { x, dx } = ws
  let step = 0
  let sum = 0
  for (let k = 0; k < unknowns.length; k += 1) {
    const place = unknowns[k]!
    let change = dx[place]!
    const size = change < 0 ? -change : change
    sum += size
    if (size > step) step = size
    if (size > LONGEST_STEP) change = change > 0 ? LONGEST_STEP : -LONGEST_STEP
    x[place]! -= change
  }
  return sum < Infinity ? step : Infinity
}
