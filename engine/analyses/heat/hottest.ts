/** Where a part is at its worst for one reading of its temperature: settled, over every corner and the unloaded output. */
import { COLD, OUTCOMES, SETTLED } from '../../solve/index.ts'
import type { DesignPart } from '../../topologies/define.ts'
import type { Board, Observation, ObservedCondition } from '../observation.ts'
import type { Observer } from '../observe.ts'
import type { Proof } from '../prove.ts'
import { findWorst } from '../worst.ts'

export interface WorstHeat {
  readonly value: number
  readonly board: Board
  readonly condition: number
}

/** A corner at which no temperature settles, and the part that its own first heat, all still cold, would make the hottest. */
export interface Runaway {
  /** Absent where not even the cold start has a solution. */
  part?: string
  condition: { input: number; load: number; ambient: number }
  /** True where it is the shorted output. */
  shorted: boolean
}

const RUNAWAY = OUTCOMES.indexOf('thermalRunaway')

/** Everything inside the requirements at which ratings are judged. */
const stressed = ({ conditions }: Proof): number[] => [...conditions.corners, ...conditions.unloaded]

/** The worst of a reading (+1 the highest, -1 the lowest); undefined where no corner settles. */
export function worstOf(
  proof: Proof,
  read: (seen: Observation, condition: ObservedCondition) => number,
  direction: 1 | -1,
): WorstHeat | undefined {
  const among = stressed(proof)
  const { observer } = proof
  const worst = findWorst(
    {
      direction,
      conditions: among.length,
      value(board, k) {
        const seen = observer.observe(board, among[k]!, SETTLED)
        return seen.outcome === 0 ? read(seen, observer.conditions[among[k]!]!) : NaN
      },
      slopes: (from, k, into) =>
        observer.slopes((seen) => read(seen, observer.conditions[among[k]!]!), from, among[k]!, SETTLED, into, true),
    },
    proof.design.tolerances.length,
  )
  return worst && { value: worst.value, board: worst.board, condition: among[worst.condition]! }
}

/** Every condition, in service and with the output shorted, that was found without a settled temperature. */
export function runawaysOf(proof: Proof): Runaway[] {
  const found: Runaway[] = []
  const { observer, shortCircuit } = proof
  const add = (of: Observer, board: Board, index: number, shorted: boolean): void => {
    const seen = of.observe(board, index, SETTLED)
    if (seen.outcome !== RUNAWAY) return
    const part = hottestAtFirst(of, board, index)
    const { input, load, ambient } = of.conditions[index]!
    found.push({ ...(part === undefined ? {} : { part }), condition: { input, load, ambient }, shorted })
  }
  for (const { board, condition, mode } of proof.unsolved) if (mode === SETTLED) add(observer, board, condition, false)
  const nominal = new Int8Array(proof.design.tolerances.length)
  for (const index of shortCircuit.observer.conditions.keys())
    if (shortCircuit.observer.conditions[index]!.fault) add(shortCircuit.observer, nominal, index, true)
  return found
}

function hottestAtFirst(observer: Observer, board: Board, index: number): string | undefined {
  const { outcome, ws } = observer.solve(board, index, COLD)
  if (outcome !== 0) return undefined
  const { circuit, design } = observer.prepared
  const rise = ({ id, thermalResistance = 0 }: DesignPart): number =>
    thermalResistance > 0 ? thermalResistance * ws.power[circuit.part(id)]! : 0
  return design.parts.reduce((most, part) => (rise(part) > rise(most) ? part : most)).id
}
