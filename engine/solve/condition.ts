/** The condition into a workspace, and out of it what a solution means. */
import type { Layout, SolverWorkspace } from './circuit.ts'
import * as planModule from './plan.ts'

// taken out of their modules once: where a test runner resolves every import anew, these loops would wait for that
const { CURRENTS, LOAD, POWER, SCALE, TERMINALS } = planModule

/** Sets what the sources fix, `scale` being the share of every source let through: 1 for the full circuit. */
export function setSources(layout: Layout, ws: SolverWorkspace, scale: number): void {
  const { pinNode, pinFrom, pinSign, pinValueAt, branchValueAt } = layout.sources
  const { x, doubles, branch, parameters, input, load } = ws
  doubles[LOAD] = load * scale
  doubles[SCALE] = scale
  x[0] = 0
  for (let k = 0; k < pinNode.length; k += 1) {
    const at = pinValueAt[k]!
    x[pinNode[k]!] = x[pinFrom[k]!]! + pinSign[k]! * scale * (at < 0 ? input : parameters[at]!)
  }
  for (let k = 0; k < branchValueAt.length; k += 1) {
    const at = branchValueAt[k]!
    branch[k] = scale * (at < 0 ? input : parameters[at]!)
  }
}

/** Fills `ws.currents` and `ws.power` from the final evaluation; uses up the balance of pinned nodes in `ws.f`. */
export function finish(layout: Layout, plan: Int32Array, ws: SolverWorkspace): void {
  const { pinNode, pinFrom, pinSign, pinOut, branchRow, branchOut } = layout.sources
  const { x, f, out, doubles: m } = ws
  for (let k = pinNode.length - 1; k >= 0; k -= 1) {
    // a pinned node's balance is closed by its source, which takes the same from its other end
    const missing = f[pinNode[k]!]!
    const i = -pinSign[k]! * missing
    out[pinOut[k]!] = i
    out[pinOut[k]! + 1] = -i
    f[pinFrom[k]!]! += missing
  }
  for (let k = 0; k < branchRow.length; k += 1) {
    out[branchOut[k]!] = x[branchRow[k]!]!
    out[branchOut[k]! + 1] = -x[branchRow[k]!]!
  }
  const powerEnd = plan[POWER]! + layout.partCount
  for (let k = plan[POWER]!; k < powerEnd; k += 1) m[k] = 0
  const end = plan[TERMINALS + 1]!
  let current = plan[CURRENTS]!
  for (let pc = plan[TERMINALS]!; pc < end; pc += 3) {
    const i = m[plan[pc]!]!
    m[current] = i
    current += 1
    m[plan[pc + 2]!]! += m[plan[pc + 1]!]! * i
  }
}
