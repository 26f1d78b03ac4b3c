/** What a solution means: the current into every terminal and the power of every part. */
import type { Layout, SolverWorkspace } from './circuit.ts'

/** Fills `ws.currents` and `ws.power` from the final evaluation; destroys the balance of pinned nodes in `ws.f`. */
export function finish(layout: Layout, ws: SolverWorkspace): void {
  const { pinNode, pinFrom, pinSign, pinOut, branchRow, branchOut } = layout.sources
  const { x, f, out, currents, power } = ws
  for (let k = pinNode.length - 1; k >= 0; k -= 1) {
    // a pinned node's balance is closed by its source, which takes the same from its other end
    const missing = f[pinNode[k]!]!
    out[pinOut[k]!] = -pinSign[k]! * missing
    f[pinFrom[k]!]! += missing
  }
  for (let k = 0; k < branchRow.length; k += 1) out[branchOut[k]!] = x[branchRow[k]!]!
  const { terminalFrom, terminalSign, terminalNode, terminalPart } = layout
  for (let p = 0; p < power.length; p += 1) power[p] = 0
  for (let t = 0; t < terminalFrom.length; t += 1) {
    const i = terminalSign[t]! * out[terminalFrom[t]!]!
    currents[t] = i
    power[terminalPart[t]!]! += x[terminalNode[t]!]! * i
  }
}
