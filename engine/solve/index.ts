/**
 * The solver's door. `compile` a netlist once, give every job a workspace of its own, and call `solvePoint`, which
 * allocates nothing and never throws for want of a solution.
 */
import type { Netlist } from '../devices/elements.ts'
import type { CompiledCircuit, SolverWorkspace } from './circuit.ts'
import { chooseElimination } from './eliminate.ts'
import { assemble, evaluate, setKnown } from './evaluate.ts'
import { finish } from './finish.ts'
import { solveElectrical } from './ladder.ts'
import { layOut } from './layout.ts'
import { nameAll, refuse } from './names.ts'
import { CONVERGED } from './newton.ts'
import { prepare } from './prepare.ts'
import { settle } from './settle.ts'
import { type Circuit, type CompileOptions, FROZEN, SETTLED, type ThermalCode, type Workspace } from './types.ts'
import { newSolverWorkspace } from './workspace.ts'

export * from './types.ts'

/** Lays the netlist out in flat arrays and fixes the order of elimination. Throws on a netlist that is wrong in itself. */
export function compile(netlist: Netlist, options: CompileOptions): Circuit {
  const { names, parameters, parameterAt } = nameAll(netlist)
  const layout = layOut(netlist, options, names, parameters, parameterAt)
  const trial = newSolverWorkspace(layout, parameters, layout.entryRow.length)
  const input = netlist.elements.find((e) => e.id === 'input')
  const load = netlist.elements.find((e) => e.id === 'load')
  trial.input = input?.kind === 'voltage-source' ? input.value : 0
  trial.load = load?.kind === 'current-source' ? load.value : 0
  prepare(layout, trial)
  // at the guess, near it, and with everything off: one order must do for all
  const samples = [0, 1, 2].map((state) => {
    for (const place of layout.unknowns) {
      if (state === 1) trial.x[place]! += 0.2 * Math.sin(1 + place)
      if (state === 2) trial.x[place] = 0
    }
    setKnown(layout, trial)
    evaluate(layout, trial, true)
    assemble(layout, trial)
    return trial.matrix.slice()
  })

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
    elimination: chooseElimination(layout.entryRow, layout.entryColumn, layout.unknowns, samples),
  }
  return circuit
}

function find(map: ReadonlyMap<string, number>, what: string, name: string): number {
  return map.get(name) ?? refuse(`no ${what} is called ${name.replace('\n', '.')}`)
}

/** A workspace at the guess, with nominal parameters and every junction at 25 degC. */
export function newWorkspace(circuit: Circuit): Workspace {
  const { layout, elimination, parameters } = circuit as CompiledCircuit
  return newSolverWorkspace(layout, parameters, elimination.entries)
}

/** Copies the solution (voltages, inner unknowns, junctions) of one workspace to another of the same circuit; not its parameters. */
export function copyState(from: Workspace, to: Workspace): void {
  ;(to as SolverWorkspace).x.set((from as SolverWorkspace).x)
  to.junction.set(from.junction)
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
  const code = solveElectrical(compiled, work)
  if (code === CONVERGED) finish(layout, work)
  return code
}

function solveSettled(circuit: CompiledCircuit, ws: SolverWorkspace, ambient: number): number {
  ws.before.set(ws.junction)
  if (settle(circuit, ws, ambient) === CONVERGED) return CONVERGED
  // a start too hot for this point looks like a runaway: only a start from cold can tell
  ws.x.set(circuit.layout.guess)
  ws.junction.fill(ambient)
  const code = settle(circuit, ws, ambient)
  if (code !== CONVERGED) {
    ws.x.set(circuit.layout.guess)
    ws.junction.set(ws.before)
  }
  return code
}
