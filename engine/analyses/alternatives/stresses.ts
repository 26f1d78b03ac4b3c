/** What the present design asks of one part, rating by rating, and what another part in its place would use of its own ratings. */
import type { DesignPart, Limit, StressPoint } from '../../topologies/define.ts'
import { shareUsed } from '../observation.ts'
import type { Observer } from '../observe.ts'
import type { Proof } from '../prove.ts'
import type { Found } from '../search.ts'

/** The stress behind one rating at its worst corner, in service or with the output shorted. */
export interface PlacedStress {
  readonly quantity: string
  readonly stress: number
  readonly at: Readonly<StressPoint>
  readonly ambient: number
  readonly fault: boolean
}

/** Every stress on a part: in service, and in a shorted output where the design must outlive one. */
export function stressesOn(proof: Proof, id: string): PlacedStress[] {
  const { observer, shortCircuit, requirements } = proof
  const judged: [Observer, readonly Found[]][] = [[observer, proof.limits]]
  if (requirements.limits.survivesShort) judged.push([shortCircuit.observer, shortCircuit.use])
  return judged.flatMap(([of, worst]) =>
    of.prepared.limits.flatMap((prepared, k) => {
      if (prepared.part !== id) return []
      const found = worst[k]
      return found ? (stressAt(of, k, found) ?? []) : []
    }),
  )
}

function stressAt(observer: Observer, index: number, { board, condition, mode }: Found): PlacedStress | undefined {
  const { outcome, ws } = observer.solve(board, condition, mode)
  if (outcome !== 0) return undefined
  const { limit, stress, at: read } = observer.prepared.limits[index]!
  const at: StressPoint = { voltage: 0, power: 0, junction: 0 }
  read(ws, at)
  const { ambient, fault } = observer.conditions[condition]!
  return { quantity: limit.quantity, stress: stress(ws), at, ambient, fault }
}

export interface Use {
  /** 1 - the largest share used of any rating; negative where one is exceeded. */
  readonly margin: number
  /** The rating behind it; absent where the part has none. */
  readonly quantity?: string
}

/**
 * The tightest rating of a part under the stresses of another one in the same place. Its own junction follows from the same
 * heat through its own thermal resistance, settled; all else is taken as it is in the present design. A rating of which the
 * present part says nothing cannot be judged and counts as exceeded: no part is offered on a guess.
 */
export function useUnder(
  stresses: readonly PlacedStress[],
  part: Pick<DesignPart, 'limits' | 'thermalResistance'>,
): Use {
  let most = 0
  let quantity: string | undefined
  for (const limit of part.limits) {
    const asked = stresses.filter((stress) => stress.quantity === limit.quantity)
    if (!asked.some(({ fault }) => !fault)) return { margin: -Infinity, quantity: limit.quantity }
    for (const stress of asked) {
      const share = shareOf(limit, stress, part.thermalResistance)
      if (share > most || quantity === undefined) {
        most = Math.max(most, share)
        quantity = limit.quantity
      }
    }
  }
  return { margin: 1 - most, ...(quantity === undefined ? {} : { quantity }) }
}

function shareOf(
  limit: Limit,
  { stress, at, ambient, fault }: PlacedStress,
  thermalResistance: number | undefined,
): number {
  const junction = thermalResistance === undefined ? at.junction : ambient + at.power * thermalResistance
  const here = { ...at, junction }
  const allowed = (fault ? limit.inFault : limit.derated)(ambient, here)
  return shareUsed(limit.sense, limit.measure.of === 'junction' ? junction : stress, allowed)
}
