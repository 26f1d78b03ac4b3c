/** What sizings share with one another. */
import type { Observer } from '../analyses/observe.ts'
import type { Prepared } from '../analyses/prepare.ts'
import type { Recall } from '../analyses/search.ts'
import type { Refusal, Variant } from '../topologies/index.ts'
import type { Contender, Glanced } from './contenders.ts'

/** What a sizing may share with another of the same requirements, the limits of regulation and ripple aside: no part depends on those. */
export interface Bench {
  /** Every candidate built so far, by variant. */
  readonly built: Map<Variant, Contender[] | Refusal>
  /** A circuit of each wiring met in a variant, whatever it was sized for: others of that wiring cost little to compile. */
  readonly wired: Map<Variant, Prepared[]>
  /** Solved points of each design that was put to the proof. */
  readonly observers: Map<Prepared, Observer>
  /** What lean sizings of like requirements have found. */
  readonly nearby?: Nearby | undefined
}

/** Found under like requirements; lean sizings fill it in and read it. */
export interface Nearby {
  /** How each candidate ranked at first sight, by variant; at least so badly, where it was no contender. */
  readonly ranks: Map<Variant, Map<string, Glanced>>
  /** What the searches of its proof found, by variant and active parts. */
  readonly recalls: Map<Variant, Map<string, Recall>>
}

export const newNearby = (): Nearby => ({ ranks: new Map(), recalls: new Map() })

/** `like`: a bench of other requirements, for its wirings; `nearby`: of like ones. */
export const newBench = (like?: Bench, nearby?: Nearby): Bench => ({
  built: new Map(),
  wired: like?.wired ?? new Map(),
  observers: new Map(),
  nearby,
})

/** Designs of one variant with the same active parts differ in values alone: their tolerances act alike. */
export function recallOf(variant: Variant, { design }: Prepared, { nearby }: Bench): Recall | undefined {
  if (!nearby) return undefined
  const ofVariant = nearby.recalls.get(variant) ?? new Map<string, Recall>()
  nearby.recalls.set(variant, ofVariant)
  const active = new Set(design.netlist.elements.flatMap(({ kind, part }) => (kind === 'resistor' ? [] : [part])))
  const named = design.parts.map(({ id, partNumber }) => (active.has(id) ? `${id} ${partNumber}` : id))
  const key = [design.tolerances.length, ...named].join()
  const recall: Recall = ofVariant.get(key) ?? new Map()
  ofVariant.set(key, recall)
  return recall
}
