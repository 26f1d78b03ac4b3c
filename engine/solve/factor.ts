/** Runs the elimination that the plan holds, and the dense one with partial pivoting that stands behind it. */
import type { Layout, SolverWorkspace } from './circuit.ts'
import * as planModule from './plan.ts'

// taken out of their modules once: where a test runner resolves every import anew, these loops would wait for that
const { BACK, FACTOR, FORWARD } = planModule

/** A multiplier above this says that the fixed order has met a pivot too small for it. */
const WILD = 1e8

/** Factors the matrix in place, pivots becoming their inverses; false where a pivot is too small or not finite. */
export function factor(plan: Int32Array, m: Float64Array): boolean {
  const end = plan[FACTOR + 1]!
  let wildest = 0
  let pc = plan[FACTOR]!
  while (pc < end) {
    const pivot = plan[pc]!
    const divisor = m[pivot]!
    const inverse = 1 / divisor
    if (!(inverse < Infinity && inverse > -Infinity)) return false
    m[pivot] = inverse
    let rows = plan[pc + 1]!
    pc += 2
    while (rows > 0) {
      rows -= 1
      const lower = plan[pc]!
      const stop = pc + 2 + 2 * plan[pc + 1]!
      pc += 2
      // divided, not multiplied by the inverse: a resistor between its own two entries then leaves nothing behind
      const multiplier = m[lower]! / divisor
      m[lower] = multiplier
      const size = multiplier < 0 ? -multiplier : multiplier
      if (size > wildest) wildest = size
      while (pc < stop) {
        m[plan[pc]!]! -= multiplier * m[plan[pc + 1]!]!
        pc += 2
      }
    }
  }
  // written so that NaN fails too
  return wildest < WILD
}

/** With a factored matrix: turns `f` into the Newton step in `dx`; `f` is used up. */
export function substitute(plan: Int32Array, m: Float64Array): void {
  let pc = plan[FORWARD]!
  const forwardEnd = plan[FORWARD + 1]!
  while (pc < forwardEnd) {
    const r = m[plan[pc]!]!
    const stop = pc + 2 + 2 * plan[pc + 1]!
    pc += 2
    while (pc < stop) {
      m[plan[pc]!]! -= m[plan[pc + 1]!]! * r
      pc += 2
    }
  }
  const backEnd = plan[BACK + 1]!
  while (pc < backEnd) {
    let sum = m[plan[pc]!]!
    const column = plan[pc + 1]!
    const inverse = m[plan[pc + 2]!]!
    const stop = pc + 4 + 2 * plan[pc + 3]!
    pc += 4
    while (pc < stop) {
      sum -= m[plan[pc]!]! * m[plan[pc + 1]!]!
      pc += 2
    }
    m[column] = sum * inverse
  }
}

/** Dense elimination with partial pivoting of the freshly assembled matrix against `f`; false where it is singular. */
export function solveDense(layout: Layout, ws: SolverWorkspace): boolean {
  const { entryRow, entryColumn, firstUnknown, size } = layout
  const { dense: a, order, f, dx, matrix } = ws
  const n = size - firstUnknown
  const width = n + 1
  a.fill(0)
  for (let e = 0; e < entryRow.length; e += 1) {
    a[(entryRow[e]! - firstUnknown) * width + entryColumn[e]! - firstUnknown] = matrix[e]!
  }
  for (let k = 0; k < n; k += 1) {
    a[k * width + n] = f[firstUnknown + k]!
    order[k] = k
  }
  for (let k = 0; k < n; k += 1) {
    let best = k
    for (let i = k + 1; i < n; i += 1) {
      if (Math.abs(a[order[i]! * width + k]!) > Math.abs(a[order[best]! * width + k]!)) best = i
    }
    const row = order[best]!
    order[best] = order[k]!
    order[k] = row
    const pivot = a[row * width + k]!
    if (!(Math.abs(pivot) > 0) || !Number.isFinite(pivot)) return false
    for (let i = k + 1; i < n; i += 1) {
      const other = order[i]! * width
      const multiplier = a[other + k]! / pivot
      if (multiplier === 0) continue
      for (let j = k; j <= n; j += 1) a[other + j]! -= multiplier * a[row * width + j]!
    }
  }
  for (let k = n - 1; k >= 0; k -= 1) {
    const row = order[k]! * width
    let sum = a[row + n]!
    for (let j = k + 1; j < n; j += 1) sum -= a[row + j]! * dx[firstUnknown + j]!
    dx[firstUnknown + k] = sum / a[row + k]!
  }
  return true
}
