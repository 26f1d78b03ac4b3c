/**
 * What a small change of parameters does to a solved point, without solving it again: a Newton step with the factors of the point
 * it starts from, and a second one where temperatures settle, at those that follow from the first, or where an amplifier's gain
 * makes the first one rough. For telling signs and sizes of slopes, never for a result.
 */
import type { CompiledCircuit, SolverWorkspace } from './circuit.ts'
import { finish, setSources } from './condition.ts'
import { assemble, evaluate } from './evaluate.ts'
import { factor, substitute } from './factor.ts'
import { AMPLIFIERS, ANCHOR } from './plan.ts'
import { prepare, prepareConstants } from './prepare.ts'
import { type Circuit, SETTLED, type ThermalCode, type Workspace } from './types.ts'

/** After a converged solve: leaves the factors of the Jacobian in the workspace; false where they cannot be had. */
export function refactor(circuit: Circuit, ws: Workspace): boolean {
  const { plan, layout } = circuit as CompiledCircuit
  const work = ws as SolverWorkspace
  work.doubles[ANCHOR] = 0
  setSources(layout, work, 1)
  evaluate(plan, work.doubles, false)
  assemble(plan, work.doubles)
  return factor(plan, work.doubles)
}

/**
 * From `base`, solved and refactored, to the parameters in `ws` (and, unless SETTLED, its junctions). `changed`: the parts whose
 * parameters differ from those of `base`; no others may. Fills voltages, currents, power and junctions of `ws`; false where a
 * number is not finite.
 */
export function predict(
  circuit: Circuit,
  base: Workspace,
  ws: Workspace,
  ambient: number,
  mode: ThermalCode,
  changed: readonly number[],
): boolean {
  const { plan, layout } = circuit as CompiledCircuit
  const from = base as SolverWorkspace
  const work = ws as SolverWorkspace
  const { partCount, thermalResistance } = layout
  const { junction, power } = work
  work.doubles.set(from.doubles)
  work.input = from.input
  work.load = from.load
  work.preparedAt.set(from.preparedAt)
  work.stale = false
  work.baseIsStale = false
  if (changed.length > 0) prepareConstants(layout, work)
  for (const part of changed) work.preparedAt[part] = Number.NaN
  if (mode === SETTLED) junction.set(from.junction)
  const steps = mode === SETTLED || plan[AMPLIFIERS]! < plan[AMPLIFIERS + 1]! ? 2 : 1
  for (let pass = 0; pass < steps; pass += 1) {
    step(work, layout, plan)
    if (mode !== SETTLED) continue
    for (let p = 0; p < partCount; p += 1) junction[p] = ambient + thermalResistance[p]! * power[p]!
  }
  for (let p = 0; p < partCount; p += 1) if (!Number.isFinite(power[p]!)) return false
  return true
}

function step(ws: SolverWorkspace, layout: CompiledCircuit['layout'], plan: Int32Array): void {
  const { doubles, x, dx } = ws
  prepare(layout, ws)
  setSources(layout, ws, 1)
  evaluate(plan, doubles, false)
  substitute(plan, doubles)
  for (let k = layout.firstUnknown; k < x.length; k += 1) x[k]! -= dx[k]!
  evaluate(plan, doubles, false)
  finish(layout, plan, ws)
}
