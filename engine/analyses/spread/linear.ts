/**
 * How a solved point answers small changes once its temperatures have settled again. With the voltages gone out of the
 * solver's own derivatives, what is left is one equation a part: dT = dTa + Rth·(∂P/∂q + ∂P/∂T·dT), a small linear system.
 */
import {
  type Change,
  type Circuit,
  type Response,
  type Workspace,
  SETTLED,
  newWorkspace,
  responder,
  solvePoint,
} from '../../solve/index.ts'

export interface LinearPoint {
  /** The point itself; its voltages, currents and powers are those of the nominal board. */
  readonly at: Workspace
  /** Per unit of the change, settled; `warmer` is what it does to the ambient, kelvin per unit. */
  readonly respond: (change: Change, warmer?: number) => Response
}

/**
 * The nominal board at one condition; undefined where it has no solution or the solution no derivatives.
 * `thermalResistance`: kelvin per watt by part, in the circuit's order; 0 for a part that stays at ambient.
 */
export function linearAt(
  circuit: Circuit,
  thermalResistance: Float64Array,
  input: number,
  load: number,
  ambient: number,
): LinearPoint | undefined {
  const solved = (): Workspace | undefined => {
    const ws = newWorkspace(circuit)
    return solvePoint(circuit, ws, input, load, ambient, SETTLED) === 0 ? ws : undefined
  }
  const at = solved()
  const scratch = solved()
  const held = scratch && responder(circuit, scratch)
  if (!at || !held) return undefined
  const parts = thermalResistance.length
  /** What one kelvin more in each part does, all others held. */
  const byWarmth = Array.from({ length: parts }, (_, p) =>
    held((point, t) => {
      point.junction[p] = at.junction[p]! + t
    }),
  )
  const system = Array.from({ length: parts }, (_, p) =>
    Float64Array.from(byWarmth, ({ power }, q) => (p === q ? 1 : 0) - thermalResistance[p]! * power[p]!),
  )
  return {
    at,
    respond(change, warmer = 0) {
      const answer = held(change)
      const warmth = solveDense(
        system.map((row) => row.slice()),
        Float64Array.from(answer.power, (watts, p) => warmer + thermalResistance[p]! * watts),
      )
      byWarmth.forEach((each, p) => {
        for (const name of ['voltages', 'currents', 'power'] as const)
          for (let k = 0; k < answer[name].length; k++) answer[name][k]! += warmth[p]! * each[name][k]!
      })
      return answer
    },
  }
}

/** Gaussian elimination with partial pivoting; both arguments are used up. A singular system gives what is no number. */
function solveDense(rows: Float64Array[], right: Float64Array): Float64Array {
  const n = right.length
  for (let k = 0; k < n; k++) {
    let best = k
    for (let i = k + 1; i < n; i++) if (Math.abs(rows[i]![k]!) > Math.abs(rows[best]![k]!)) best = i
    ;[rows[k], rows[best]] = [rows[best]!, rows[k]!]
    ;[right[k], right[best]] = [right[best]!, right[k]!]
    for (let i = k + 1; i < n; i++) {
      const share = rows[i]![k]! / rows[k]![k]!
      if (share === 0) continue
      for (let j = k; j < n; j++) rows[i]![j]! -= share * rows[k]![j]!
      right[i]! -= share * right[k]!
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    for (let j = k + 1; j < n; j++) right[k]! -= rows[k]![j]! * right[j]!
    right[k]! /= rows[k]![k]!
  }
  return right
}
