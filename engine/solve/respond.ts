/**
 * How a solved point answers small changes: the derivatives of its voltages, currents and powers, from the Jacobian that
 * Newton's method solves with. With F(x, q) = 0 the balance of currents, dx/dq = -J⁻¹·∂F/∂q (implicit function theorem). J is
 * the devices' own derivatives, factored once for all changes; only how F itself moves with q is a difference, of currents
 * and not of solutions.
 */
import type { CompiledCircuit, SolverWorkspace } from './circuit.ts'
import { finish, setSources } from './condition.ts'
import { assemble, evaluate } from './evaluate.ts'
import { factor, solveDense, substitute } from './factor.ts'
import { ANCHOR } from './plan.ts'
import { prepare } from './prepare.ts'
import type { Circuit, Workspace } from './types.ts'

/** What can be changed of a solved point. */
export interface Changeable {
  /** After changing any, set `stale`. */
  readonly parameters: Float64Array
  stale: boolean
  /** Degrees Celsius by part: they stay as they are put, whatever the power does. */
  readonly junction: Float64Array
  input: number
  load: number
}

/** Per unit of the change, temperatures held; the arrays are laid out as a workspace's of the same names. */
export interface Response {
  readonly voltages: Float64Array
  readonly currents: Float64Array
  readonly power: Float64Array
}

/** Puts the change into the point `t` units far; called with small `t` of both signs, and with 0 at the end. */
export type Change = (point: Changeable, t: number) => void

/** How far either side of the point, in units of the change, before the voltages are known to move with it, and after. */
const FIRST_REACH = 1e-5
const REACH = 1e-3
/**
 * An amplifier's offset times its gain is far beyond what its output can do while the voltages do not follow it, so that the
 * first difference there is rough: it is taken again along with the voltages found. Twice does; the rest is for certainty.
 */
const REFINEMENTS = 4
/** In volts a unit of the change. */
const SETTLED_STEP = 1e-9

/**
 * A function from a change to the point's response. `ws` must have just been solved; it is used up, since changes are made
 * in it. Undefined where the point has no derivatives: a singular Jacobian, or an amplifier that rests on a rail.
 */
export function responder(circuit: Circuit, ws: Workspace): ((change: Change) => Response) | undefined {
  const { layout, plan } = circuit as CompiledCircuit
  const work = ws as SolverWorkspace
  const { doubles, f, dx, x, voltages, currents, power } = work
  const state = x.slice()
  const step = new Float64Array(x.length)

  /** Evaluates with the voltages `t` units along `step`; false where some device could not be taken at its word. */
  const look = (t: number): boolean => {
    prepare(layout, work)
    for (let k = layout.firstUnknown; k < x.length; k += 1) x[k] = state[k]! + t * step[k]!
    setSources(layout, work, 1)
    return !evaluate(plan, doubles, true)
  }
  doubles[ANCHOR] = 0
  if (!look(0)) return undefined
  assemble(plan, doubles)
  const isFactored = factor(plan, doubles)
  if (!isFactored) {
    assemble(plan, doubles)
    if (!solveDense(layout, work)) return undefined
  }

  /** The change of what `read` copies out, a unit of the change; `into` is overwritten. */
  const rate = (change: Change, reach: number, read: Float64Array, into: Float64Array): void => {
    change(work, reach)
    look(reach)
    into.set(read)
    change(work, -reach)
    look(-reach)
    for (let k = 0; k < into.length; k += 1) into[k] = (into[k]! - read[k]!) / (2 * reach)
  }
  const balance = new Float64Array(f.length)

  return (change) => {
    step.fill(0)
    for (let round = 0; round <= REFINEMENTS; round += 1) {
      rate(change, round === 0 ? FIRST_REACH : REACH, f, balance)
      f.set(balance)
      if (isFactored) substitute(plan, doubles)
      else solveDense(layout, work)
      let largest = 0
      for (let k = layout.firstUnknown; k < x.length; k += 1) {
        step[k]! -= dx[k]!
        largest = Math.max(largest, Math.abs(dx[k]!))
      }
      if (round > 0 && largest <= SETTLED_STEP) break
    }
    change(work, REACH)
    look(REACH)
    finish(layout, plan, work)
    const response = { voltages: voltages.slice(), currents: currents.slice(), power: power.slice() }
    change(work, -REACH)
    look(-REACH)
    finish(layout, plan, work)
    for (const [name, below] of Object.entries({ voltages, currents, power })) {
      const above = response[name as keyof Response]
      for (let k = 0; k < above.length; k += 1) above[k] = (above[k]! - below[k]!) / (2 * REACH)
    }
    change(work, 0)
    return response
  }
}
