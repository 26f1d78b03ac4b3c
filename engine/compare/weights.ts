/**
 * How far each weight may move, the others as they are, before another design comes first. A score is the weighted mean of
 * shares, so two designs are level where `Σ w·(share of the one - share of the other)` is zero: one straight line in each weight,
 * with a limit in closed form.
 */
import { FIGURES } from '../figures/index.ts'
import { FIGURE_NAMES, WEIGHT_RANGE } from '../requirements/index.ts'
import type { Weights } from '../requirements/study.ts'
import type { TopologyName } from '../topologies/index.ts'
import { type Ranked, rank, sharesOf } from './ranking.ts'

/** One figure's weight and the range in which the leader stays first. */
export interface WeightLimit {
  figure: string
  weight: number
  /** Lowest and highest weight at which the leader is first, within what a weight may be; at a limit two designs are level. */
  from: number
  to: number
  /** Who is first just below `from` and just above `to`; absent where the weight may go no further. */
  below?: TopologyName
  above?: TopologyName
}

export interface WeightLimits {
  /** Who is first; absent where nothing is weighed. */
  leader?: TopologyName
  /** True where no weighting can change the leader: it alone meets the requirements. */
  isSettled: boolean
  /** Every figure that may be weighed and that some design has, in the order of the figures. */
  limits: WeightLimit[]
}

/** Weights are chosen by people: a line this flat never crosses within what a weight may be. */
const LEVEL = 1e-12

export function weightLimits(designs: readonly Ranked[], weights: Weights): WeightLimits {
  const criteria = FIGURES.filter(({ name }) => FIGURE_NAMES.includes(name)).flatMap((figure) => {
    const shares = sharesOf(designs, figure)
    return shares ? [{ figure: figure.name, weight: weights[figure.name] ?? 0, shares }] : []
  })
  const first = rank(designs, weights)[0]
  const lead = designs.findIndex(({ topology }) => topology === first?.topology)
  if (lead < 0 || !Object.values(weights).some((weight) => weight > 0)) return { isSettled: false, limits: [] }
  const rivals = designs.flatMap(({ meets }, k) => (k !== lead && meets === designs[lead]!.meets ? [k] : []))
  const ahead = ({ shares }: { shares: number[] }, rival: number): number => shares[lead]! - shares[rival]!

  const limits = criteria.map((criterion): WeightLimit => {
    const { figure, weight } = criterion
    const limit: WeightLimit = { figure, weight, from: WEIGHT_RANGE.min, to: WEIGHT_RANGE.max }
    for (const rival of rivals) {
      const slope = ahead(criterion, rival)
      if (Math.abs(slope) < LEVEL) continue
      const others = criteria.reduce((sum, c) => (c === criterion ? sum : sum + c.weight * ahead(c, rival)), 0)
      // whoever leads now leads at its own weight: rounding must not put the limit beyond it
      const level = -others / slope
      if (slope > 0 && Math.min(level, weight) > limit.from) {
        limit.from = Math.min(level, weight)
        limit.below = designs[rival]!.topology
      }
      if (slope < 0 && Math.max(level, weight) < limit.to) {
        limit.to = Math.max(level, weight)
        limit.above = designs[rival]!.topology
      }
    }
    return limit
  })
  return { leader: designs[lead]!.topology, isSettled: rivals.length === 0, limits }
}
