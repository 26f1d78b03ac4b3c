/** Our solver, asked the same question in the same words as the independent one. */
import { compile, FROZEN, newWorkspace, OUTCOMES, SETTLED, solvePoint } from '../../../engine/solve/index.ts'
import type { Circuit, ThermalCode, Workspace } from '../../../engine/solve/index.ts'
import type { Netlist } from '../../../engine/devices/elements.ts'
import type { Situation } from '../independent/netlist.ts'
import type { Solution } from '../independent/solver.ts'

/** A solution and what else our solver knows of it. */
export interface OwnSolution extends Solution {
  readonly junction: Readonly<Record<string, number>>
  /** Watts by part, sources included. */
  readonly power: Readonly<Record<string, number>>
}

export interface Thermal {
  readonly mode: ThermalCode
  readonly thermalResistance: Readonly<Record<string, number>>
}

/**
 * Solves one circuit in one situation: at the situation's own junction temperatures, or, with `thermal`, at those that the
 * mode asks for. Throws where it does not converge, naming the outcome.
 */
export function solveOurs(netlist: Netlist, situation: Situation, thermal?: Thermal): OwnSolution {
  const { condition, junction = {}, overrides = {}, near = {} } = situation
  const circuit = compile(netlist, { thermalResistance: thermal?.thermalResistance ?? {}, guess: near })
  const ws = newWorkspace(circuit)
  for (const [id, changes] of Object.entries(overrides)) {
    for (const [parameter, value] of Object.entries(changes)) ws.parameters[circuit.slot(id, parameter)] = value
  }
  ws.stale = true
  ws.junction.fill(condition.ambient)
  for (const [part, celsius] of Object.entries(junction)) ws.junction[circuit.part(part)] = celsius
  const mode = thermal?.mode ?? FROZEN
  const code = solvePoint(circuit, ws, condition.input, condition.load, condition.ambient, mode)
  if (code !== 0) throw new Error(`our solver says ${OUTCOMES[code]}`)
  return readSolution(circuit, ws)
}

function readSolution(circuit: Circuit, ws: Workspace): OwnSolution {
  const currents: Record<string, number[]> = {}
  circuit.netlist.elements.forEach((element, index) => {
    const from = circuit.terminals[index]!
    currents[element.id] = [...ws.currents.subarray(from, from + element.nodes.length)]
  })
  const byPart = (values: Float64Array) => Object.fromEntries(circuit.parts.map((id, k) => [id, values[k]!]))
  return {
    nodeVoltages: Object.fromEntries(circuit.nodes.map((name, k) => [name, ws.voltages[k]!])),
    currents,
    junction: byPart(ws.junction),
    power: byPart(ws.power),
  }
}

export { FROZEN, SETTLED }
