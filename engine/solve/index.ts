/**
 * The solver's door. `compile` a netlist once, give every job a workspace of its own, and call `solvePoint`, which
 * allocates nothing and never throws for want of a solution.
 */
import type { Netlist } from '../devices/elements.ts'
import type { CompiledCircuit, SolverWorkspace } from './circuit.ts'
import { finish, setSources } from './condition.ts'
import { chooseElimination } from './eliminate.ts'
import { assemble, evaluate } from './evaluate.ts'
import { goToGuess, solveByOpenLoop, solveElectrical } from './ladder.ts'
import { layOut } from './layout.ts'
import { nameAll } from './names.ts'
import { CONVERGED, ITERATION_LIMIT } from './newton.ts'
import { refuse } from './pins.ts'
import { mapMemory, writePlan } from './plan.ts'
import { prepare } from './prepare.ts'
import { recompile } from './recompile.ts'
import { settle, THERMAL_RUNAWAY, UNSETTLED } from './settle.ts'
import { type Circuit, type CompileOptions, FROZEN, SETTLED, type ThermalCode, type Workspace } from './types.ts'
import { newSolverWorkspace } from './workspace.ts'

export { predict, refactor } from './predict.ts'
export { type Change, type Changeable, type Response, responder } from './respond.ts'
export * from './types.ts'

/**
 * Lays the netlist out in flat arrays and fixes the order of elimination. Throws on a netlist that is wrong in itself.
 * `like`: circuits that may be wired alike; the layout and the order of the first that is then serve again.
 */
export function compile(netlist: Netlist, options: CompileOptions, ...like: readonly (Circuit | undefined)[]): Circuit {
  for (const circuit of like) {
    const again = circuit && recompile(circuit as CompiledCircuit, netlist, options)
    if (again) return again
  }
  return compileAnew(netlist, options)
}

function compileAnew(netlist: Netlist, options: CompileOptions): Circuit {
  const { names, parameters, parameterAt } = nameAll(netlist)
  const layout = layOut(netlist, options, names, parameters, parameterAt)
  const trialMemory = mapMemory(layout, layout.entryRow.length)
  const trialPlan = writePlan(layout, trialMemory, undefined)
  const trial = newSolverWorkspace(layout, trialMemory, parameters)
  const input = netlist.elements.find((e) => e.id === 'input')
  const load = netlist.elements.find((e) => e.id === 'load')
  trial.input = input?.kind === 'voltage-source' ? input.value : 0
  trial.load = load?.kind === 'current-source' ? load.value : 0
  prepare(layout, trial)
  // at the guess, near it, and with everything off: one order must do for all
  const samples = [0, 1, 2].map((state) => {
    for (let k = layout.firstUnknown; k < layout.size; k += 1) {
      if (state === 1) trial.x[k]! += 0.2 * Math.sin(1 + k)
      if (state === 2) trial.x[k] = 0
    }
    setSources(layout, trial, 1)
    evaluate(trialPlan, trial.doubles, true)
    assemble(trialPlan, trial.doubles)
    return trial.matrix.slice()
  })
  const unknowns = Int32Array.from({ length: layout.size - layout.firstUnknown }, (_, k) => layout.firstUnknown + k)
  const elimination = chooseElimination(layout.entryRow, layout.entryColumn, unknowns, samples)
  const memory = mapMemory(layout, elimination.entries)

  const circuit: CompiledCircuit = {
    netlist,
    nodes: names.nodes,
    parts: names.parts,
    parameters,
    terminals: names.terminals,
    node: (name) => find(names.nodeIndex, 'node', name),
    part: (id) => find(names.partIndex, 'part', id),
    element: (id) => find(names.elementIndex, 'element', id),
    slot: (elementId, parameter) => find(names.slots, 'parameter', `${elementId}\n${parameter}`),
    layout,
    memory,
    plan: writePlan(layout, memory, elimination),
  }
  return circuit
}

function find(map: ReadonlyMap<string, number>, what: string, name: string): number {
  return map.get(name) ?? refuse(`no ${what} is called ${name.replace('\n', '.')}`)
}

/** A workspace at the guess, with nominal parameters and every junction at 25 degC. */
export function newWorkspace(circuit: Circuit): Workspace {
  const { layout, memory, parameters } = circuit as CompiledCircuit
  return newSolverWorkspace(layout, memory, parameters)
}

/** Copies the solution (voltages, inner unknowns, junctions) of one workspace to another of the same circuit; not its parameters. */
export function copyState(from: Workspace, to: Workspace): void {
  ;(to as SolverWorkspace).x.set((from as SolverWorkspace).x)
  ;(to as SolverWorkspace).isHard = (from as SolverWorkspace).isHard
  to.junction.set(from.junction)
}

/** A solution set aside: all that `copyState` copies. */
export interface State {
  readonly x: readonly number[]
  readonly isHard: boolean
  readonly junction: readonly number[]
}

/** To be put into a workspace of the same circuit by `setState`. */
export function stateOf(ws: Workspace): State {
  const { x, isHard, junction } = ws as SolverWorkspace
  return { x: listOf(x), isHard, junction: listOf(junction) }
}

// a loop: the built-in copies cost more than such short arrays take
function listOf(values: Float64Array): number[] {
  const list: number[] = []
  for (let k = 0; k < values.length; k += 1) list.push(values[k]!)
  return list
}

export function setState(ws: Workspace, { x, isHard, junction }: State): void {
  const work = ws as SolverWorkspace
  work.x.set(x)
  work.isHard = isHard
  work.junction.set(junction)
}

/**
 * Solves one operating point from where the workspace stands: `input` in volts is the value of the element `input`,
 * `load` in amperes that of `load`, `ambient` in degC. SETTLED finds the junctions with the point, FROZEN takes
 * `ws.junction` as it stands, COLD sets every junction to ambient. Returns an outcome's code (see `OUTCOMES`); only after 0
 * do voltages, currents, power, junctions and residual mean anything, and they then belong to one state. After a
 * failure the workspace is back at the guess, its junctions as they were.
 */
export function solvePoint(
  circuit: Circuit,
  ws: Workspace,
  input: number,
  load: number,
  ambient: number,
  mode: ThermalCode,
): number {
  const compiled = circuit as CompiledCircuit
  const work = ws as SolverWorkspace
  const { layout } = compiled
  work.input = input
  work.load = load
  work.iterations = 0
  if (mode === SETTLED) return solveSettled(compiled, work, ambient)
  if (mode !== FROZEN) work.junction.fill(ambient)
  prepare(layout, work)
  let code = work.isHard ? ITERATION_LIMIT : solveElectrical(compiled, work)
  if (code !== CONVERGED) {
    code = solveByOpenLoop(compiled, work)
    work.isHard = code === CONVERGED
  }
  if (code === CONVERGED) finish(layout, compiled.plan, work)
  return code
}

function solveSettled(circuit: CompiledCircuit, ws: SolverWorkspace, ambient: number): number {
  ws.before.set(ws.junction)
  if (settle(circuit, ws, ambient, ws.isHard) === CONVERGED) return CONVERGED
  // a start too hot for this point looks like a runaway: only a start from cold can tell
  let code = settleFromCold(circuit, ws, ambient, false)
  ws.isHard = code !== CONVERGED
  if (code !== CONVERGED) code = settleFromCold(circuit, ws, ambient, true)
  if (code !== CONVERGED) {
    ws.isHard = false
    goToGuess(circuit.layout, ws)
    ws.junction.set(ws.before)
  }
  return code === UNSETTLED ? THERMAL_RUNAWAY : code
}

function settleFromCold(circuit: CompiledCircuit, ws: SolverWorkspace, ambient: number, isPatient: boolean): number {
  goToGuess(circuit.layout, ws)
  ws.junction.fill(ambient)
  return settle(circuit, ws, ambient, isPatient)
}
