/**
 * The last resort for a circuit with one amplifier. Its loop is opened: a plain source behind the amplifier's output resistance
 * stands in for it, and what is left has no gain to go astray on. The source is moved until the amplifier, at the voltages that
 * it then sees, would deliver the same current; next to that Newton's method solves the true circuit. The search halves the
 * distance between a source too low and one too high, which neither a flat saturation nor a sharp corner can lead astray.
 */
import {
  amplifierMiddle,
  amplifierReach,
  closeAmplifier,
  evaluateAmplifier,
  openAmplifier,
  shiftAmplifier,
} from '../devices/amplifier.ts'
import type { CompiledCircuit, SolverWorkspace } from './circuit.ts'
import { CONVERGED, newton } from './newton.ts'
import { AMPLIFIERS, ANCHOR, TERMINAL, TRUSTED } from './plan.ts'

/** Newton's iterations for the first point of the open loop, for each next one, and for the true circuit beside its solution. */
const FIRST_ITERATIONS = 120
const NEXT_ITERATIONS = 40
const NEAR_ITERATIONS = 12
/** Shares of the source's reach: the first step, and the least before the way counts as blocked. */
const FIRST_STEP = 1 / 32
const LEAST_STEP = 1e-8
/** Volts between the ends of the search at which the true circuit is first tried, and then each time they are so much closer. */
const TRIED_WITHIN = 1e-6
const CLOSER = 1e-2
/** Volts that rounding alone leaves between the ends. */
const CLOSEST = 1e-14
const SOLVES = 500
/** Where the search does not begin from the given state, it begins from everything off, with the source at so many places between the supplies. */
const EMPTY_STARTS = 4

/** The true circuit from where the workspace stands, its amplifier taken at its word from the first. */
export function solveNear(circuit: CompiledCircuit, ws: SolverWorkspace): number {
  const m = ws.doubles
  m[ANCHOR] = 0
  m[TRUSTED] = 1
  const code = newton(circuit, ws, NEAR_ITERATIONS)
  m[TRUSTED] = 0
  return code
}

/**
 * From where the workspace stands, or else from everything off; sources must be set. False where there is not one amplifier,
 * or where the open loop has no solution on the way.
 */
export function closeLoop(circuit: CompiledCircuit, ws: SolverWorkspace): boolean {
  const { plan, layout } = circuit
  if (layout.amplifiers.count !== 1) return false
  const m = ws.doubles
  const { closed } = ws
  const record = plan[AMPLIFIERS]!
  const d = plan[record + 5]!
  const vP = m[plan[record + 3]!]!
  const vM = m[plan[record + 4]!]!
  const reach = amplifierReach(m, d, vP, vM)
  const middle = amplifierMiddle(m, d, vP, vM)
  const standing = m[plan[record + 2]!]! - middle
  m[ANCHOR] = 0
  openAmplifier(m, d, closed)
  let isClosed = search(circuit, ws, d, Math.max(-reach, Math.min(reach, standing)), reach)
  for (let k = 0; !isClosed && k < EMPTY_STARTS; k += 1) {
    ws.x.fill(0, layout.firstUnknown)
    isClosed = search(circuit, ws, d, vM + ((vP - vM) * k) / EMPTY_STARTS - middle, reach)
  }
  closeAmplifier(m, d, closed)
  return isClosed
}

function solveOpen(circuit: CompiledCircuit, ws: SolverWorkspace, d: number, shift: number, most: number): boolean {
  shiftAmplifier(ws.doubles, d, ws.closed, shift)
  return newton(circuit, ws, most) === CONVERGED
}

/** After a solve of the open loop: whether the amplifier would deliver more than the source does. */
function wouldDeliverMore({ plan }: CompiledCircuit, ws: SolverWorkspace): boolean {
  const m = ws.doubles
  const record = plan[AMPLIFIERS]!
  const scratch = plan[TERMINAL]!
  const o = plan[record + 6]!
  for (let t = 0; t < 5; t += 1) m[scratch + t] = m[plan[record + t]!]!
  const delivered = -m[o + 2]!
  evaluateAmplifier(ws.closed, 0, m, scratch, m, o)
  return -m[o + 2]! > delivered
}

/** Moves the source from `from`, volts above the middle of the swing, to where the amplifier agrees; at most `reach` either way. */
function search(circuit: CompiledCircuit, ws: SolverWorkspace, d: number, from: number, reach: number): boolean {
  if (!solveOpen(circuit, ws, d, from, FIRST_ITERATIONS)) return false
  ws.good.set(ws.x)
  const isUpward = wouldDeliverMore(circuit, ws)
  const sense = isUpward ? 1 : -1
  let near = from
  /** The nearest known source beyond the one that is looked for. */
  let far = Infinity * sense
  let step = FIRST_STEP * reach
  let tryWithin = TRIED_WITHIN
  for (let solves = 0; solves < SOLVES; solves += 1) {
    const gap = Math.abs(far - near)
    if (gap <= tryWithin) {
      closeAmplifier(ws.doubles, d, ws.closed)
      const isSolved = solveNear(circuit, ws) === CONVERGED
      if (isSolved) return true
      openAmplifier(ws.doubles, d, ws.closed)
      if (gap <= CLOSEST) return false
      ws.x.set(ws.good)
      tryWithin = Math.max(CLOSEST, gap * CLOSER)
    }
    const room = gap < Infinity ? 0.5 * gap : reach - sense * near
    if (room <= 0) return false
    const aim = near + sense * Math.min(step, room)
    if (!solveOpen(circuit, ws, d, aim, NEXT_ITERATIONS)) {
      ws.x.set(ws.good)
      step = 0.25 * Math.min(step, room)
      if (step < LEAST_STEP * reach) return false
    } else if (wouldDeliverMore(circuit, ws) === isUpward) {
      near = aim
      ws.good.set(ws.x)
      step *= 2
    } else {
      far = aim
      ws.x.set(ws.good)
    }
  }
  return false
}
