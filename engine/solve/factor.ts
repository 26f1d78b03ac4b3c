/** Runs the elimination programs, and the dense elimination with partial pivoting that stands behind them. */
import type { CompiledCircuit, SolverWorkspace } from './circuit.ts'

/** A multiplier above this says that the fixed order has met a pivot too small for it. */
const WILD = 1e8

/** Factors `matrix` in place, pivots becoming their inverses; false where a pivot is too small or not finite. */
export function factor(program: Int32Array, matrix: Float64Array): boolean {
  const end = program.length
  let wildest = 0
  let pc = 0
  while (pc < end) {
    const pivot = program[pc]!
    const inverse = 1 / matrix[pivot]!
    if (!(inverse < Infinity && inverse > -Infinity)) return false
    matrix[pivot] = inverse
    let rows = program[pc + 1]!
    pc += 2
    while (rows > 0) {
      rows -= 1
      const lower = program[pc]!
      const stop = pc + 2 + 2 * program[pc + 1]!
      pc += 2
      const multiplier = matrix[lower]! * inverse
      matrix[lower] = multiplier
      const size = multiplier < 0 ? -multiplier : multiplier
      if (size > wildest) wildest = size
      while (pc < stop) {
        matrix[program[pc]!]! -= multiplier * matrix[program[pc + 1]!]!
        pc += 2
      }
    }
  }
  // written so that NaN fails too
  return wildest < WILD
}

/** With a factored matrix: turns `rhs` (by row) into the solution `dx` (by column), both by place in `x`. */
export function substitute(
  forward: Int32Array,
  back: Int32Array,
  matrix: Float64Array,
  rhs: Float64Array,
  dx: Float64Array,
): void {
  let pc = 0
  const forwardEnd = forward.length
  while (pc < forwardEnd) {
    const r = rhs[forward[pc]!]!
    const stop = pc + 2 + 2 * forward[pc + 1]!
    pc += 2
    while (pc < stop) {
      rhs[forward[pc]!]! -= matrix[forward[pc + 1]!]! * r
      pc += 2
    }
  }
  pc = 0
  const backEnd = back.length
  while (pc < backEnd) {
    let sum = rhs[back[pc]!]!
    const column = back[pc + 1]!
    const inverse = matrix[back[pc + 2]!]!
    const stop = pc + 4 + 2 * back[pc + 3]!
    pc += 4
    while (pc < stop) {
      sum -= matrix[back[pc]!]! * dx[back[pc + 1]!]!
      pc += 2
    }
    dx[column] = sum * inverse
  }
}

/** Dense elimination with partial pivoting of the freshly assembled `ws.matrix` against `ws.f`; false where it is singular. */
export function solveDense(circuit: CompiledCircuit, ws: SolverWorkspace): boolean {
  const { unknowns, entryRow, entryColumn, size } = circuit.layout
  const { dense: a, order, f, dx } = ws
  const m = unknowns.length
  const width = m + 1
  a.fill(0)
  for (let k = 0; k < m; k += 1) order[unknowns[k]!] = k
  for (let e = 0; e < entryRow.length; e += 1) {
    a[order[entryRow[e]!]! * width + order[entryColumn[e]!]!]! += ws.matrix[e]!
  }
  for (let k = 0; k < m; k += 1) a[k * width + m] = f[unknowns[k]!]!
  for (let k = 0; k < m; k += 1) order[size + k] = k
  for (let k = 0; k < m; k += 1) {
    let best = k
    for (let i = k + 1; i < m; i += 1) {
      if (Math.abs(a[order[size + i]! * width + k]!) > Math.abs(a[order[size + best]! * width + k]!)) best = i
    }
    const row = order[size + best]!
    order[size + best] = order[size + k]!
    order[size + k] = row
    const pivot = a[row * width + k]!
    if (!(Math.abs(pivot) > 0) || !Number.isFinite(pivot)) return false
    for (let i = k + 1; i < m; i += 1) {
      const other = order[size + i]! * width
      const multiplier = a[other + k]! / pivot
      if (multiplier === 0) continue
      for (let j = k; j <= m; j += 1) a[other + j]! -= multiplier * a[row * width + j]!
    }
  }
  for (let k = m - 1; k >= 0; k -= 1) {
    const row = order[size + k]! * width
    let sum = a[row + m]!
    for (let j = k + 1; j < m; j += 1) sum -= a[row + j]! * dx[unknowns[j]!]!
    dx[unknowns[k]!] = sum / a[row + k]!
  }
  return true
}
