/** One proven design as the readings ask about it: its working, its parts, and solved points of it. */
import { SETTLED } from '../../solve/index.ts'
import type { WorkedLine } from '../../topologies/working.ts'
import { type Condition, type Point, type ThermalMode, cornerOf, pointOf, solvedPoint, thermalName } from '../point.ts'
import type { Proof } from '../prove.ts'
import { stressOf } from '../ratings.ts'
import type { Found } from '../search.ts'

/** A solved value and where it was read. */
export interface Read {
  readonly solved: number
  readonly condition: Condition
  readonly thermal: ThermalMode
  readonly isWorst: boolean
}

/** With the whole point behind it. */
export interface ReadAt extends Read {
  readonly point: Point
}

export interface Case {
  readonly proof: Proof
  readonly lines: readonly WorkedLine[]
  /** By hand; NaN where the working does not have it. */
  readonly hand: (symbol: string) => number
  /** The part that was bought with a value of the working. */
  readonly bought: (symbol: string) => string | undefined
  /** Id of a part by its kind of element, at given nodes where any are given. */
  readonly partWith: (kind: string, fits?: (nodes: readonly string[]) => boolean) => string | undefined
  /** Nodes of the part's first element of a kind that conducts. */
  readonly nodesOf: (part: string) => readonly string[]
  /** Settled, nominal parts but those tolerances (by id) that are at an end. */
  readonly at: (condition: Condition, ends?: Readonly<Record<string, 1 | -1>>) => Point | undefined
  readonly nominal: Condition
  /** The worst of one rating's stress over all corners. */
  readonly worst: (part: string | undefined, quantity: string) => ReadAt | undefined
  /** The same with the output shorted. */
  readonly shorted: (part: string | undefined, quantity: string) => ReadAt | undefined
  /** The shorted output's largest current, and the point where it flows. */
  readonly short: () => ReadAt | undefined
}

/** Amperes that flow into a part from one node. */
export const currentInto = ({ proof }: Case, point: Point, part: string, node: string): number => {
  let sum = 0
  for (const { id, part: of, nodes } of proof.design.netlist.elements)
    if (of === part) for (const [k, at] of nodes.entries()) if (at === node) sum += point.currents[id]![k]!
  return sum
}

export function caseOf(proof: Proof): Case {
  const { design, observer, requirements, limits, shortCircuit } = proof
  const { elements } = design.netlist
  const lines = design.worked.lines()
  const find = (symbol: string): WorkedLine | undefined => lines.find((line) => line.symbol === symbol)
  const { input, load, ambient } = requirements

  const limitOf = (part: string | undefined, quantity: string): number =>
    observer.prepared.limits.findIndex((each) => each.part === part && each.limit.quantity === quantity)
  const readOf = (from: Proof['observer'], index: number, found: Found): ReadAt | undefined => {
    const { stress } = stressOf(from, index, found)
    const corner = cornerOf(from, found)
    if (!corner) return undefined
    const { condition, thermal, point } = corner
    return { solved: stress, condition, thermal, isWorst: true, point }
  }

  return {
    proof,
    lines,
    hand: (symbol) => find(symbol)?.value ?? NaN,
    bought: (symbol) => find(symbol)?.part,
    partWith: (kind, fits = () => true) => elements.find((e) => e.kind === kind && fits(e.nodes))?.part,
    nodesOf: (part) => elements.find((e) => e.part === part)?.nodes ?? [],
    nominal: { input: input.nominal, load: load.nominal, ambient: ambient.nominal },
    at(condition, ends = {}) {
      const board = new Int8Array(design.tolerances.length)
      for (const [id, end] of Object.entries(ends)) board[design.tolerances.findIndex((t) => t.id === id)] = end
      const index = observer.condition(condition.input, condition.load, condition.ambient)
      return solvedPoint(observer, board, index, SETTLED)
    },
    worst(part, quantity) {
      const index = limitOf(part, quantity)
      return index < 0 ? undefined : readOf(observer, index, limits[index]!)
    },
    shorted(part, quantity) {
      const index = limitOf(part, quantity)
      if (index < 0 || !shortCircuit.settles) return undefined
      return readOf(shortCircuit.observer, index, shortCircuit.use[index]!)
    },
    short() {
      const { current, observer: of } = shortCircuit
      const { outcome, ws } = of.solve(current.board, current.condition, current.mode)
      if (outcome !== 0) return undefined
      const { input: v, load: i, ambient: t } = of.conditions[current.condition]!
      const condition = { input: v, load: i, ambient: t }
      const point = pointOf(of.prepared, ws, condition)
      return { solved: current.value, condition, thermal: thermalName(current.mode), isWorst: true, point }
    },
  }
}
