/**
 * The lean form of the comparison, for maps and sweeps of the requirements: which designs meet, their figures that are weighed
 * and their scores, all as `compare` has them, without texts, curves and whatever nobody weighs. Of a topology of which nothing
 * meets no closest attempt is worked out. What is kept with room to spare is not followed to its last per cent: a rating's
 * corner is left unsolved, and the highest output unrefined, where first-order effects, made half as large again, stay within
 * what is asked. What nobody limits or weighs (line regulation, ripple, the worst efficiency) has no corner tried; a corner
 * without a solution that only such a search would meet goes unseen. A design that leaves its output band or does not start is
 * proven no further than the first corner that shows it.
 */
import { FIGURES, headlinesOf } from '../figures/index.ts'
import type { Requirements, Study } from '../requirements/study.ts'
import type { Lean } from '../analyses/prove.ts'
import { type Bench, type Nearby, newBench, newNearby } from '../sizing/bench.ts'
import { sizeLean } from '../sizing/size.ts'
import { TOPOLOGIES, type Topology, type TopologyName } from '../topologies/index.ts'
import { type RankingEntry, rankBy } from './ranking.ts'
import { needFor } from './sizer.ts'

export interface DecidedDesign {
  topology: TopologyName
  meets: boolean
  /** What follows is absent where nothing meets. */
  variant?: string
  /** The headline of each figure that is weighed, and always of efficiency and heat (its worst corner); without those that do not apply. */
  figures?: Record<string, number>
  /** 0 to 100. */
  score?: number
}

export interface Decision {
  /** In the order shunt, series-pass, feedback. */
  designs: DecidedDesign[]
  /** Those that meet, the best first. */
  ranking: TopologyName[]
}

/**
 * What decisions leave for the next ones of the same caller: wirings, what was sized where only limits of regulation or ripple
 * have changed since, and by place which way each tolerance acted and which corner was the worst. Near such a place corners are
 * taken from there and solved anew.
 */
export interface Hint {
  asked: string
  bench: Bench
  places: Place[]
}

/** Requirements with their pins, and what was found for them or like ones. */
interface Place {
  readonly requirements: Requirements
  readonly pins: Study['pins']
  readonly nearby: Nearby
}

/** Places remembered; the oldest makes room. */
const PLACES = 64
/** Requirements are like others where no number differs by more than this share, and no temperature by more than so many kelvins. */
const LIKE_SHARE = 0.1
const LIKE_KELVINS = 10

export const newHint = (): Hint => ({ asked: '', bench: newBench(), places: [] })

function placeOf({ requirements, pins }: Study, places: Place[]): Place {
  const known = places.find((place) => areLike(place.pins, pins) && isLike(place.requirements, requirements))
  if (known) return known
  if (places.length === PLACES) places.shift()
  const place: Place = { requirements, pins, nearby: newNearby() }
  places.push(place)
  return place
}

/** Whatever limits only what is shown of a design leaves the design as it is. */
function isLike(a: Requirements, b: Requirements): boolean {
  const { limits: limitsOfA, ambient: ambientOfA, ...restOfA } = a
  const { limits: limitsOfB, ambient: ambientOfB, ...restOfB } = b
  return (
    limitsOfA.survivesShort === limitsOfB.survivesShort &&
    Math.abs(ambientOfA.min - ambientOfB.min) <= LIKE_KELVINS &&
    Math.abs(ambientOfA.max - ambientOfB.max) <= LIKE_KELVINS &&
    areLike(restOfA, restOfB)
  )
}

function areLike(a: unknown, b: unknown): boolean {
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) <= LIKE_SHARE * Math.max(Math.abs(a), Math.abs(b))
  if (typeof a !== 'object' || typeof b !== 'object' || !a || !b) return a === b
  const names = Object.keys(a)
  return (
    names.length === Object.keys(b).length &&
    names.every((name) => areLike((a as Record<string, unknown>)[name], (b as Record<string, unknown>)[name]))
  )
}

/** Decides one topology at a time, each without its score. `from` as for `decide`. */
export function decider(study: Study, from: Hint): (topology: Topology) => DecidedDesign {
  const { requirements, weights, assumptions, pins } = study
  const { loadRegulation: _, lineRegulation: __, outputRipple: ___, ...limits } = requirements.limits
  const asked = JSON.stringify([{ ...requirements, limits }, pins])
  if (asked !== from.asked) from.bench = newBench(from.bench, placeOf(study, from.places).nearby)
  from.asked = asked
  const weighs = (figure: string): boolean => (weights[figure] ?? 0) > 0
  const extent: Lean = {
    loadRegulation: weighs('loadRegulation'),
    lineRegulation: weighs('lineRegulation'),
  }
  const names = FIGURES.filter(({ name }) => name === 'efficiency' || name === 'heat' || weighs(name)).map(
    ({ name }) => name,
  )
  const { bench } = from
  return (topology) => {
    const sized = sizeLean(topology, needFor(study, topology), bench, extent)
    if (!sized) return { topology: topology.name, meets: false }
    const figures = headlinesOf(sized.proof, assumptions, names)
    return { topology: topology.name, meets: true, variant: sized.variant.name, figures }
  }
}

/** The study must have passed `checkStudy`. `from` is read and then holds what this decision leaves. */
export function decide(study: Study, from: Hint = newHint()): Decision {
  const designs = TOPOLOGIES.map(decider(study, from))
  const ranking = rankDecided(designs, study)
  for (const { topology, score } of ranking) designs.find((design) => design.topology === topology)!.score = score
  return { designs, ranking: ranking.map(({ topology }) => topology) }
}

/** Those that meet, the best first. */
export const rankDecided = (designs: readonly DecidedDesign[], { weights }: Study): RankingEntry[] =>
  rankBy(
    designs.filter(({ meets }) => meets),
    (name, { figures }) => figures?.[name],
    weights,
  )
