/** Newton's method on a compiled circuit at given temperatures. */
import type { CompiledCircuit, Layout, SolverWorkspace } from './circuit.ts'
import * as evaluateModule from './evaluate.ts'
import * as factorModule from './factor.ts'
import * as planModule from './plan.ts'

// taken out of their modules once: where a test runner resolves every import anew, these loops would wait for that
const { assemble, evaluate } = evaluateModule
const { factor, solveDense, substitute } = factorModule
const { ANCHOR, FIRST_UNKNOWN, SIZE, X } = planModule

export const CONVERGED = 0
export const ITERATION_LIMIT = 1
export const SINGULAR = 2
export const NON_FINITE = 3

/**
 * A state is the solution when the last step was below this, in volts: what is left after it is its square over a
 * junction's 50 mV, 2e-13 V.
 */
const LAST_STEP = 1e-7
/** Below this step, in volts, the next one re-uses the factors: the Jacobian has moved by less than 1 %. */
const CHORD_STEP = 1e-5
/** Current balance: so many amperes, and as much as so many volts on the node's own conductance draw. */
const BALANCE_AMPERES = 1e-12
const BALANCE_VOLTS = 5e-12
/** Shares of a node's voltage on its own conductance that rounding alone accounts for. */
const ROUNDING = 8 * Number.EPSILON
/** At a step that rounding explains, a balance as bad as this is accepted as the best there is, in amperes. */
const WORST_BALANCE = 1e-10
const LEAST_STEP = 1e-11
/** Longest step of any unknown in volts (amperes for a floating source's current). */
const LONGEST_STEP = 5

/**
 * Solves from the state in `ws.x`; true solutions only. On success `ws.out` holds the currents at the final state and
 * `ws.residual` the largest imbalance; on failure the state is wherever the last step led.
 */
export function newton(circuit: CompiledCircuit, ws: SolverWorkspace, most: number): number {
  const { layout, plan } = circuit
  const m = ws.doubles
  let step = Infinity
  let hasFactors = false
  let wasChord = false
  for (let iteration = 0; ; iteration += 1) {
    const isLimited = evaluate(plan, m, iteration === 0)
    if (m[ANCHOR]! !== 0) addAnchor(layout, ws)
    const worst = step <= LAST_STEP && !isLimited ? imbalance(plan, m, step) : -1
    if (worst >= 0) {
      ws.residual = worst
      ws.iterations += iteration
      return CONVERGED
    }
    if (iteration >= most) {
      ws.iterations += iteration
      return ITERATION_LIMIT
    }
    wasChord = hasFactors && !wasChord && !isLimited && step < CHORD_STEP
    if (!wasChord) {
      assemble(plan, m)
      hasFactors = factor(plan, m)
    }
    if (hasFactors) {
      substitute(plan, m)
    } else {
      assemble(plan, m)
      if (!solveDense(layout, ws)) {
        ws.iterations += iteration
        return SINGULAR
      }
    }
    step = takeStep(plan, m)
    if (step === Infinity) {
      ws.iterations += iteration
      return NON_FINITE
    }
  }
}

/** The largest imbalance of a state that the last step has brought to rest, or -1 where currents do not balance. */
function imbalance(plan: Int32Array, m: Float64Array, step: number): number {
  const size = plan[SIZE]!
  const end = plan[X]! + size
  let worst = 0
  let isBalanced = true
  let isRounding = true
  let isNear = step <= LEAST_STEP
  for (let k = plan[FIRST_UNKNOWN]!; k < end; k += 1) {
    const value = m[k + size]!
    const absolute = value < 0 ? -value : value
    const conductance = m[k + 3 * size]!
    if (absolute > worst) worst = absolute
    // each written so that NaN fails
    if (!(absolute <= BALANCE_AMPERES + BALANCE_VOLTS * conductance)) {
      isBalanced = false
      if (!(absolute <= ROUNDING * conductance * Math.abs(m[k]!))) isRounding = false
      if (!(absolute <= WORST_BALANCE)) isNear = false
    }
  }
  return isBalanced || isRounding || isNear ? worst : -1
}

/**
 * Moves every unknown along `dx`, the whole step shortened where its longest part is too long: linear relations between
 * nodes (a divider, a tied pair) hold along it, which clipping single unknowns would break. Returns the size of the
 * largest change asked for, or Infinity where one is no number.
 */
function takeStep(plan: Int32Array, m: Float64Array): number {
  const size = plan[SIZE]!
  const first = plan[FIRST_UNKNOWN]!
  const end = plan[X]! + size
  let step = 0
  let sum = 0
  for (let k = first; k < end; k += 1) {
    const change = m[k + 2 * size]!
    const absolute = change < 0 ? -change : change
    sum += absolute
    if (absolute > step) step = absolute
  }
  if (!(sum < Infinity)) return Infinity
  const share = step > LONGEST_STEP ? LONGEST_STEP / step : 1
  for (let k = first; k < end; k += 1) m[k]! -= share * m[k + 2 * size]!
  return step
}

/** Continuation: a conductance from every unknown node to its guess, added to the currents. */
function addAnchor(layout: Layout, ws: SolverWorkspace): void {
  const { firstUnknown, diagonalEntry, guess } = layout
  for (let k = firstUnknown; k < firstUnknown + diagonalEntry.length; k += 1) {
    ws.f[k]! += ws.doubles[ANCHOR]! * (ws.x[k]! - guess[k]!)
  }
}
