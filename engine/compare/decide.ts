/**
 * The lean form of the comparison, for maps and sweeps of the requirements: the same designs, verdicts and scores as `compare`,
 * without texts, curves and whatever nobody weighs. What is kept with room to spare is not followed to its last per cent: a
 * rating's corner is left unsolved, and the highest output unrefined, where first-order effects, made half as large again,
 * stay within what is asked. What nobody limits or weighs (line regulation, ripple, the worst efficiency) has no corner tried.
 * The searches left out are made up for where they could matter, since a corner without a solution may only be met by them:
 * before a design is said to meet, and before one that falls short is taken for closer than another.
 */
import { FIGURES, headlinesOf } from '../figures/index.ts'
import type { Study } from '../requirements/study.ts'
import type { Lean } from '../analyses/prove.ts'
import { type Bench, isUnbuilt, newBench, size } from '../sizing/size.ts'
import { TOPOLOGIES, type TopologyName } from '../topologies/index.ts'
import { type RankingEntry, rankBy } from './ranking.ts'
import { needFor } from './sizer.ts'

export interface DecidedDesign {
  topology: TopologyName
  variant: string
  verdict: 'meets' | 'falls-short'
  /**
   * The headline of each figure that is weighed, and always of efficiency and heat (its worst corner); without those that do not
   * apply.
   */
  figures: Record<string, number>
  /** 0 to 100. */
  score: number
}

export interface Decision {
  /** In the order shunt, series-pass, feedback. */
  designs: DecidedDesign[]
  /** Best first; those that meet before those that fall short. */
  ranking: TopologyName[]
  /** The best of those that meet; absent where none does. */
  winner?: TopologyName
}

/**
 * What one decision leaves for the next of the same caller: wirings, and what was sized where only limits of regulation or
 * ripple have changed since. It saves time and changes nothing.
 */
export interface Hint {
  asked: string
  bench: Bench
}

export const newHint = (): Hint => ({ asked: '', bench: newBench() })

/** The study must have passed `checkStudy`. `from` is read and then holds what this decision leaves. */
export function decide(study: Study, from: Hint = newHint()): Decision {
  const { requirements, weights, assumptions, pins } = study
  const { loadRegulation: _, lineRegulation: __, outputRipple: ___, ...limits } = requirements.limits
  const asked = JSON.stringify([{ ...requirements, limits }, pins])
  if (asked !== from.asked) from.bench = newBench(from.bench)
  from.asked = asked
  const weighs = (figure: string): boolean => (weights[figure] ?? 0) > 0
  const extent: Lean = {
    heat: true,
    loadRegulation: weighs('loadRegulation'),
    lineRegulation: weighs('lineRegulation'),
  }
  const names = FIGURES.filter(({ name }) => name === 'efficiency' || name === 'heat' || weighs(name)).map(
    ({ name }) => name,
  )
  const designs = TOPOLOGIES.map((topology): DecidedDesign => {
    const sized = size(topology, needFor(study, topology), from.bench, extent)
    const isMet = !isUnbuilt(sized) && sized.findings.length === 0
    return {
      topology: topology.name,
      variant: sized.variant.name,
      verdict: isMet ? 'meets' : 'falls-short',
      figures: isUnbuilt(sized) ? {} : headlinesOf(sized.proof, assumptions, names),
      score: 0,
    }
  })
  const ranking = rankBy(
    designs.map((design) => ({ ...design, meets: design.verdict === 'meets' })),
    (name, { figures }) => figures[name],
    weights,
  )
  for (const { topology, score } of ranking) designs.find((design) => design.topology === topology)!.score = score
  const best = designs.find(({ topology }) => topology === ranking[0]!.topology)!
  return {
    designs,
    ranking: ranking.map(({ topology }: RankingEntry) => topology),
    ...(best.verdict === 'meets' ? { winner: best.topology } : {}),
  }
}
