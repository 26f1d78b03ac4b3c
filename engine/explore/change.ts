/**
 * What would have to change: for one topology, the smallest change of a single requirement with which it meets, or comes first.
 * Every trial sizes anew and proves in the lean form. All requirements are widened together, step by step, until one of the steps
 * does it; between the last step that did not and the one that did, the change is halved down to its grain. Sizing works in steps
 * of parts, so a smaller change between two trials can escape the search. What is found is proven whole, and holds; one grain less
 * does not.
 */
import type { TopologyName } from '../compare/comparison.ts'
import { type DecidedDesign, type Hint, decider, newHint, rankDecided } from '../compare/decide.ts'
import { type Ranked, rank } from '../compare/ranking.ts'
import { needFor } from '../compare/sizer.ts'
import { telling } from '../compare/telling.ts'
import { figuresOf } from '../figures/index.ts'
import type { Study } from '../requirements/study.ts'
import { isUnbuilt, size } from '../sizing/size.ts'
import { TOPOLOGIES, type Topology } from '../topologies/index.ts'
import { type Altered, type Edits, type RequirementValue, altered } from './altered.ts'
import { type Goal, type Mover, moversOf, togglesOf, valueAlong } from './movers.ts'

export type { Goal } from './movers.ts'

/** One change with which the goal is reached. */
export interface Change {
  path: string
  from: RequirementValue
  to: RequirementValue
  /** All values to put in force with it. */
  edits: Edits
  /** Share of the present value; temperatures of 100 K, the least load of the most. Absent for what is given up or taken on. */
  size?: number
  /** The nearest smaller change, with which the goal is still missed. Absent for what is given up or taken on. */
  missedAt?: number
  /** How all designs then stand, best first; where the change is for coming first. */
  standings?: Standing[]
}

export interface Standing {
  topology: TopologyName
  meets: boolean
  score: number
}

export interface ChangeAnswer {
  topology: TopologyName
  goal: Goal
  /** Numbers that do it, the smallest change first, then what could be given up or taken on; empty where none does. */
  changes: Change[]
  /** How far the numbers were moved, as a share, at most 0.8 but for what is allowed of a design; changes beyond it were not looked for. */
  reach: number
  /** Studies that were sized and proven for this answer. */
  trials: number
}

export interface ChangeQuestion {
  study: Study
  topology: TopologyName
  goal: Goal
}

/** Shares by which all numbers are widened together. */
const LADDER = [0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.4, 0.8, 1.6, 4, 15]

type Told = { done: number; total: number }

/** Yields after each topology that had to be sized. `total` is the most that it can come to. */
export function* changesFor({ study, topology, goal }: ChangeQuestion): Generator<Told, ChangeAnswer> {
  const movers = moversOf(study, goal)
  const toggles = togglesOf(study, goal)
  const total = movers.reduce((sum, { reach }) => sum + LADDER.filter((step) => step <= reach).length, toggles.length)
  let trials = 0
  const hint = newHint()
  const progress = (): Told => ({ done: Math.min(trials, total), total })
  const hold: Hold = function* (next) {
    trials++
    return yield* telling(reachGoal(next, topology, goal, hint), progress)
  }

  const given: Change[] = []
  for (const { path, from, to } of toggles) {
    const next = altered(study, path, to)
    if (!next || !(yield* hold(next.study))) continue
    const reached = yield* telling(proven(next.study, topology, goal), progress)
    if (reached) given.push({ path, from, to, edits: next.edits, ...reached })
  }

  /** Grains of the last step that missed the goal, by mover. */
  const missed = movers.map(() => 0)
  for (const [level, reach] of LADDER.entries()) {
    const found: Change[] = []
    for (const [k, mover] of movers.entries()) {
      if (reach > mover.reach) continue
      const grains = Math.max(level + 1, Math.round((reach * mover.scale) / mover.grain))
      const next = altered(study, mover.path, valueAlong(mover, grains))
      if (!next) continue
      if (!(yield* hold(next.study))) {
        missed[k] = grains
        continue
      }
      const held = yield* smallest(study, mover, missed[k]!, { grains, next }, hold)
      const reached = yield* telling(proven(held.next.study, topology, goal), progress)
      if (!reached) continue
      const { path, from, grain, scale } = mover
      found.push({
        path,
        from,
        to: valueAlong(mover, held.grains),
        edits: held.next.edits,
        size: (held.grains * grain) / scale,
        missedAt: valueAlong(mover, held.missed),
        ...reached,
      })
    }
    if (found.length > 0) {
      const changes = [...found.toSorted((a, b) => a.size! - b.size!), ...given]
      return { topology, goal, changes, reach, trials }
    }
  }
  return { topology, goal, changes: given, reach: LADDER.at(-1)!, trials }
}

type Hold = (next: Study) => Generator<Told, boolean>

/** So many grains along a mover, and the study that they come to. */
interface Moved {
  readonly grains: number
  readonly next: Altered
}

/** The fewest grains that still hold, between `missed` that do not and `held` that do; with the most that are known to miss. */
function* smallest(
  study: Study,
  mover: Mover,
  missed: number,
  held: Moved,
  hold: Hold,
): Generator<Told, Moved & { missed: number }> {
  let low = missed
  let high = held
  while (high.grains - low > 1) {
    const grains = (low + high.grains) >> 1
    const next = altered(study, mover.path, valueAlong(mover, grains))
    if (next && (yield* hold(next.study))) high = { grains, next }
    else low = grains
  }
  return { ...high, missed: low }
}

/** Whether a study reaches the goal, in the lean form. Yields after each topology sized. */
function* reachGoal(study: Study, wanted: TopologyName, goal: Goal, hint: Hint): Generator<void, boolean> {
  const decide = decider(study, hint)
  const own = decide(TOPOLOGIES.find(({ name }) => name === wanted)!)
  yield
  if (!own.meets || goal === 'meet') return own.meets
  const designs: DecidedDesign[] = []
  for (const topology of TOPOLOGIES) {
    if (topology.name === wanted) designs.push(own)
    else {
      designs.push(decide(topology))
      yield
    }
  }
  return rankDecided(designs, study)[0]!.topology === wanted
}

/** The same of the whole proof, with how the designs then stand; undefined where the goal is missed. */
function* proven(
  study: Study,
  wanted: TopologyName,
  goal: Goal,
): Generator<void, Pick<Change, 'standings'> | undefined> {
  const all: Ranked[] = []
  for (const topology of TOPOLOGIES) {
    if (goal === 'meet' && topology.name !== wanted) continue
    all.push(rankedOf(study, topology))
    yield
  }
  if (goal === 'meet') return all[0]!.meets ? {} : undefined
  const standings = rank(all, study.weights).map(({ topology, score }): Standing => ({
    topology,
    meets: all.find((one) => one.topology === topology)!.meets,
    score,
  }))
  const [first] = standings
  return first!.topology === wanted && first!.meets ? { standings } : undefined
}

function rankedOf(study: Study, topology: Topology): Ranked {
  const sized = size(topology, needFor(study, topology))
  if (isUnbuilt(sized)) return { topology: topology.name, meets: false }
  const figures = figuresOf(sized.proof, study.assumptions)
  return { topology: topology.name, meets: sized.findings.length === 0, ...(figures ? { figures } : {}) }
}
