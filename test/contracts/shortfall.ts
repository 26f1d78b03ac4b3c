/** Solves the corner of a shortfall again from what the comparison prints, and reads off what the shortfall is about. */
import type { Corner, Design, Point, Requirements, Shortfall } from '../../engine/index.ts'
import { type OwnSolution, solveOurs } from '../reference/own/solver.ts'

type Circuit = NonNullable<Design['circuit']>

function solveAgain(circuit: Circuit, corner: Corner, point: Point): OwnSolution {
  const { condition, junction, nodeVoltages } = point
  return solveOurs(circuit, { condition, junction, overrides: corner.overrides, near: nodeVoltages })
}

/**
 * The values that `achieved` may be: one for the output and the regulations; for a part's current or voltage the magnitude at
 * each of its terminals or between each two of its nodes, since the comparison does not say which of them is rated.
 */
export function achievedAgain(design: Design, shortfall: Shortfall, requirements: Requirements): number[] {
  const { circuit } = design
  const { corner, requirement } = shortfall
  if (circuit === undefined || corner === undefined) return []
  const here = solveAgain(circuit, corner, corner.point)
  const outputOf = (solution: OwnSolution) => solution.nodeVoltages[outputNode(circuit)] ?? NaN
  const swing = () =>
    corner.against ? Math.abs(outputOf(here) - outputOf(solveAgain(circuit, corner, corner.against))) : NaN
  if (requirement.startsWith('output.')) return [outputOf(here)]
  if (requirement === 'limits.outputRipple') return [swing()]
  if (requirement.startsWith('limits.') && requirement !== 'limits.survivesShort') {
    return [swing() / requirements.output.voltage]
  }
  const [part = '', quantity = ''] = requirement.split('.')
  const all = requirement === 'limits.survivesShort' ? design.parts.map(({ id }) => id) : [part]
  // a part that no current flows through has no power to compare
  return all
    .flatMap((id) => stressesOf(circuit, here, corner.point, id, quantity))
    .filter((value) => !Number.isNaN(value))
}

const outputNode = (circuit: Circuit): string => circuit.elements.find(({ id }) => id === 'load')!.nodes[0]

function stressesOf(circuit: Circuit, solution: OwnSolution, point: Point, part: string, quantity: string): number[] {
  const own = circuit.elements.filter((element) => element.part === part)
  const power = solution.power[part] ?? NaN
  // the printed circuit has no thermal resistances: the junction can only be read where it is printed
  const junction = point.junction[part] ?? NaN
  const currents = own.flatMap(({ id }) => solution.currents[id]!.map(Math.abs))
  const nodes = [...new Set(own.flatMap((element): readonly string[] => element.nodes))]
  const voltages = nodes.flatMap((a, k) =>
    nodes.slice(k + 1).map((b) => Math.abs(solution.nodeVoltages[a]! - solution.nodeVoltages[b]!)),
  )
  if (quantity === 'power') return [power]
  if (quantity === 'junction') return [junction]
  if (quantity === 'voltage') return voltages
  return quantity === 'current' || quantity === 'safeArea' ? currents : [power, junction, ...currents, ...voltages]
}
