/** Designs that no weighting of some figures can put first: another is at least as good in each of them and better in one (Pareto). */
import { FIGURES } from '../figures/index.ts'
import { FIGURE_NAMES } from '../requirements/index.ts'
import type { Weights } from '../requirements/study.ts'
import type { TopologyName } from '../topologies/index.ts'
import { type Ranked, sharesOf } from './ranking.ts'

export interface Domination {
  topology: TopologyName
  by: TopologyName
  /** `weighed`: in the figures that carry weight; `all`: in every figure that may. What holds of all is listed once, as that. */
  over: 'all' | 'weighed'
  /** Figures in which `by` is better, and in which neither is. */
  better: string[]
  level: string[]
}

/** A design that falls short dominates none that meets. Values are as fine as the ranking takes them. */
export function dominationsOf(designs: readonly Ranked[], weights: Weights): Domination[] {
  const weighed = FIGURE_NAMES.filter((name) => (weights[name] ?? 0) > 0)
  // here each is a yardstick: a share cut off at that of the best that meets would make unequal designs level
  const equals = designs.map((design) => ({ ...design, meets: true }))
  const found: Domination[] = []
  for (const [names, over] of [[FIGURE_NAMES, 'all'] as const, [weighed, 'weighed'] as const]) {
    const criteria = FIGURES.filter(({ name }) => names.includes(name)).flatMap((figure) => {
      const shares = sharesOf(equals, figure)
      return shares ? [{ name: figure.name, shares }] : []
    })
    designs.forEach((design, k) => {
      designs.forEach((other, by) => {
        if (by === k || (design.meets && !other.meets)) return
        if (criteria.some(({ shares }) => shares[k]! > shares[by]!)) return
        const better = criteria.filter(({ shares }) => shares[by]! > shares[k]!).map(({ name }) => name)
        if (better.length === 0) return
        if (found.some((known) => known.topology === design.topology && known.by === other.topology)) return
        const level = criteria.filter(({ name }) => !better.includes(name)).map(({ name }) => name)
        found.push({ topology: design.topology, by: other.topology, over, better, level })
      })
    })
  }
  return found
}
