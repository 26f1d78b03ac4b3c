/** Newton's method on a compiled circuit at given temperatures. */
import type { CompiledCircuit, SolverWorkspace } from './circuit.ts'
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
/** Longest step of any unknown in volts (amperes for a floating source's current). */
const LONGEST_STEP = 200

/**
 * Solves from the state in `ws.x`; true solutions only. On success `ws.out` holds the currents at the final state and
 * `ws.residual` the largest imbalance; on failure the state is wherever the last step led.
 */
export function newton(circuit: CompiledCircuit, ws: SolverWorkspace, most: number): number {
  const { layout, elimination } = circuit
  const { unknowns } = layout
  const { x, f, dx, rhs, diagonal, matrix } = ws
  const count = unknowns.length
  setKnown(layout, ws)
  let step = Infinity
  let hasFactors = false
  let wasChord = false
  for (let iteration = 0; ; iteration += 1) {
    const isLimited = evaluate(layout, ws, iteration === 0)
    if (ws.anchor !== 0) addAnchor(layout, ws)
    const isChord: boolean = hasFactors && !wasChord && step < CHORD_STEP && step > LAST_STEP && !isLimited
    if (!isChord && !(step <= LAST_STEP && hasFactors)) {
      assemble(layout, ws)
      hasFactors = false
    }
    wasChord = isChord
    let worst = 0
    let isBalanced = true
    let isRounding = true
    for (let k = 0; k < count; k += 1) {
      const place = unknowns[k]!
      const value = f[place]!
      rhs[place] = value
      const size = value < 0 ? -value : value
      if (size > worst) worst = size
      if (!(size <= BALANCE_AMPERES + BALANCE_VOLTS * diagonal[k]!)) {
        isBalanced = false
        if (!(size <= ROUNDING * diagonal[k]! * Math.abs(x[place]!))) isRounding = false
      }
    }
    if (!isLimited) {
      if (step <= LAST_STEP && (isBalanced || isRounding || (step <= LEAST_STEP && worst <= WORST_BALANCE))) {
        ws.residual = worst
        ws.iterations += iteration
        return CONVERGED
      }
    }
    if (iteration >= most) {
      ws.iterations += iteration
      return Number.isFinite(worst) ? ITERATION_LIMIT : NON_FINITE
    }
    if (!isChord) {
      if (hasFactors) assemble(layout, ws)
      hasFactors = factor(elimination.factor, matrix)
    }
    if (hasFactors) {
      substitute(elimination.forward, elimination.back, matrix, rhs, dx)
    } else {
      assemble(layout, ws)
      if (!solveDense(circuit, ws)) {
        ws.iterations += iteration
        return SINGULAR
      }
    }
    step = 0
    for (let k = 0; k < count; k += 1) {
      const place = unknowns[k]!
      let change = dx[place]!
      const size = change < 0 ? -change : change
      if (size > step) step = size
      if (size > LONGEST_STEP) change = change > 0 ? LONGEST_STEP : -LONGEST_STEP
      x[place]! -= change
    }
    if (!Number.isFinite(step)) {
      ws.iterations += iteration
      return NON_FINITE
    }
  }
}
