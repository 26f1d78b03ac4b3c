/**
 * Weighted ranking. Each weighted figure is normalised against the best of the designs that meet, or of all where none does:
 * `best / x` where less is better, `x / best` where more is, so the best scores 1 and twice as bad scores one half. A design that
 * falls short is no yardstick: what it does better still scores 1. Figures finer than their resolution count as the resolution.
 * The score is the weighted mean, 0 to 100; a contribution is a criterion's share of it. Weighted scoring after NASA Systems
 * Engineering Handbook section 6.8; the ratio normalisation is our own choice.
 */
import { FIGURES, type FigureDescriptor, type Figures, headlineOf } from '../figures/index.ts'
import type { Weights } from '../requirements/study.ts'
import type { TopologyName } from '../topologies/index.ts'

export interface RankingEntry {
  topology: TopologyName
  /** 0 to 100. */
  score: number
  /** Points by criterion; they sum to the score. */
  contributions: Record<string, number>
}

export interface Ranked {
  topology: TopologyName
  meets: boolean
  figures?: Figures
}

/** Best first; a design that falls short never stands above one that meets. */
export const rank = (designs: readonly Ranked[], weights: Weights): RankingEntry[] =>
  rankBy(designs, (name, { figures }) => figures && headlineOf(name, figures), weights)

/** The same of designs whose figures are read by `headline`; undefined where a design has no such figure. */
export function rankBy<D extends Pick<Ranked, 'topology' | 'meets'>>(
  designs: readonly D[],
  headline: (name: string, design: D) => number | undefined,
  weights: Weights,
): RankingEntry[] {
  const criteria = FIGURES.filter(({ name }) => (weights[name] ?? 0) > 0)
  const counts = yardsticks(designs)
  const total = criteria.reduce((sum, { name }) => sum + weights[name]!, 0)
  const entries = designs.map((design) => ({
    meets: design.meets,
    entry: { topology: design.topology, score: 0, contributions: {} as Record<string, number> },
  }))
  for (const criterion of criteria) {
    const { name } = criterion
    const values = designs.map((design) => headline(name, design))
    sharesAmong(values, counts, criterion)?.forEach((share, k) => {
      const points = (100 * weights[name]! * share) / total
      entries[k]!.entry.contributions[name] = points
      entries[k]!.entry.score += points
    })
  }
  return entries
    .toSorted((a, b) => Number(b.meets) - Number(a.meets) || b.entry.score - a.entry.score)
    .map(({ entry }) => entry)
}

/**
 * One figure of every design as the ranking takes it, in the order given: 1 for the best, 0 for a design that has no such
 * figure. Undefined where no design has it.
 */
export const sharesOf = (designs: readonly Ranked[], criterion: FigureDescriptor): number[] | undefined =>
  sharesAmong(
    designs.map(({ figures }) => figures && headlineOf(criterion.name, figures)),
    yardsticks(designs),
    criterion,
  )

/** Whose figures the others are held against. */
function yardsticks(designs: readonly Pick<Ranked, 'meets'>[]): boolean[] {
  const some = designs.some(({ meets }) => meets)
  return designs.map(({ meets }) => meets || !some)
}

function sharesAmong(
  headlines: readonly (number | undefined)[],
  counts: readonly boolean[],
  { better, resolution }: FigureDescriptor,
): number[] | undefined {
  const values = headlines.map((value) => (value === undefined ? undefined : Math.max(value, resolution ?? 0)))
  const known = values.filter((v) => v !== undefined)
  if (known.length === 0) return undefined
  const counted = values.filter((v, k) => v !== undefined && counts[k])
  const present = (counted.length > 0 ? counted : known) as number[]
  const best = better === 'less' ? Math.min(...present) : Math.max(...present)
  return values.map((value) => (value === undefined ? 0 : normalise(value, best, better)))
}

/** 1 for the best, towards 0 for the worse; a value on the wrong side of zero gets nothing. */
function normalise(value: number, best: number, better: 'less' | 'more'): number {
  if (value === best) return 1
  const share = better === 'less' ? best / value : value / best
  return Number.isFinite(share) ? Math.min(1, Math.max(0, share)) : 0
}
