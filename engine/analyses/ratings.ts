/** Every rating of every part: what the maker allows, what the derating policy leaves, what the worst corner asks of it. */
import { DERATING, type FactorName, type FactorOrigin } from '../parts/derating/index.ts'
import { thermalName } from './point.ts'
import type { ThermalMode } from './point.ts'
import type { Proof } from './prove.ts'
import type { Found } from './search.ts'
import type { ObservedCondition } from './observation.ts'
import type { Observer } from './observe.ts'

export interface RatingUse {
  part: string
  /** `power`, `current`, `voltage`, `junction` and the like, as in the parts list. */
  quantity: string
  unit: string
  /** `min` where the stress must not fall below what is allowed. */
  sense: 'max' | 'min'
  /** What the maker allows. */
  rating: number
  /** What is left of it at the worst corner, by the derating policy; absent where nothing of it is in use there. */
  allowed?: number
  stress: number
  /** 1 - share used; negative where it is exceeded. */
  margin: number
  /** Where the stress is worst. */
  condition: { input: number; load: number; ambient: number }
  thermal: ThermalMode
  /** Which number of the policy derates it, and where that comes from; absent where the maker's rating stands whatever the policy. */
  rule?: { factor: FactorName } & FactorOrigin
}

/** One entry a rating, in the order of the parts list. */
export function ratingsOf({ observer, limits, requirements }: Proof): RatingUse[] {
  const { origins } = DERATING[requirements.derating]
  return observer.prepared.limits.map(({ part, limit }, k) => {
    const found = limits[k]!
    const { stress, allowed } = stressOf(observer, k, found)
    const { input, load, ambient }: ObservedCondition = observer.conditions[found.condition]!
    return {
      part,
      quantity: limit.quantity,
      unit: limit.unit,
      sense: limit.sense,
      rating: limit.rating,
      ...(Number.isFinite(allowed) ? { allowed } : {}),
      stress,
      margin: 1 - Math.min(found.value, 1e6),
      condition: { input, load, ambient },
      thermal: thermalName(found.mode),
      ...(limit.factor ? { rule: { factor: limit.factor, ...origins[limit.factor] } } : {}),
    }
  })
}

/** The stress at the corner found, and what was allowed there. */
export function stressOf(observer: Observer, index: number, found: Found): { stress: number; allowed: number } {
  const seen = observer.observe(found.board, found.condition, found.mode)
  const stress = seen.stress[index]!
  const use = seen.use[index]!
  const { sense } = observer.prepared.limits[index]!.limit
  return { stress, allowed: sense === 'max' ? (use > 0 ? stress / use : Infinity) : use * stress }
}
