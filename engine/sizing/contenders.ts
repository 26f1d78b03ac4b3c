/** The candidates of a variant, built and ranked at first sight: which of them are worth a proof. */
import { type Prepared, prepare } from '../analyses/prepare.ts'
import {
  type Candidate,
  type Demands,
  type Need,
  type Refusal,
  type SizedDesign,
  type Variant,
  chooserFor,
  isRefusal,
} from '../topologies/index.ts'
import type { Bench } from './bench.ts'
import { glance } from './glance.ts'
import { unheldPin } from './pinned.ts'

/** A candidate at first sight. */
export interface Glanced {
  readonly rank: number
  /** The part numbers of its transistors: candidates that share them fail together, where heat is what fails. */
  readonly transistors: string
}

export interface Contender extends Glanced {
  readonly candidate: Candidate
  readonly prepared: Prepared
}

/** Candidates of one variant that are put to the proof, the most promising first. */
const PROOFS_PER_VARIANT = 3
/** A first look worse than this leaves nothing for a proof to save. */
export const PROMISING = 2.5

/** Of a variant whose best ranked worse than this under like requirements, nothing is built. */
const FAR = 2 * PROMISING + 0.5
/** How much a rank may change between like requirements: this many times as much, and so much more. */
const STRETCH = 1.3
const SHIFT = 0.3

const stretched = (rank: number): number => STRETCH * rank + SHIFT
const asItIs = (rank: number): number => rank

/**
 * Every candidate that can be built, the most promising at first sight first; why there is none otherwise. `isLean` ranks exactly
 * only those that come to be proven, the first few and the first of all, and leaves out what the bench knows to have ranked far
 * behind under like requirements: all of them where none came near.
 */
export function contendersOf(variant: Variant, need: Need, bench: Bench, isLean: boolean): Contender[] | Refusal {
  const known = isLean ? bench.nearby?.ranks.get(variant) : undefined
  if (known && known.size > 0 && Math.min(...Array.from(known.values(), ({ rank }) => rank)) > FAR) return []
  const candidates = variant.candidates(need)
  if (isRefusal(candidates)) return candidates
  const keyed = keyEach(candidates)
  if (!known) {
    const all = rankAll(variant, keyed, need, bench, isLean ? stretched : () => Infinity)
    if (isLean && Array.isArray(all))
      bench.nearby?.ranks.set(variant, new Map(all.map(({ key, rank, transistors }) => [key, { rank, transistors }])))
    return all
  }
  const cut = stretched(lastOfInterest([...known.values()]))
  const isNear = ({ key }: Keyed): boolean => (known.get(key)?.rank ?? 0) <= cut
  const near = rankAll(variant, keyed.filter(isNear), need, bench, asItIs)
  if (Array.isArray(near) && lastOfInterest(near) <= cut) return near
  // the near ones have become worse than they were: those left out may be better
  const left = keyed.filter((each) => !isNear(each))
  const far = rankAll(variant, left, need, bench, asItIs, Array.isArray(near) ? near : [])
  return isRefusal(far) ? near : far
}

const transistorsOf = ({ parts }: SizedDesign): string =>
  parts
    .filter(({ semiconductor }) => semiconductor?.kind === 'transistor')
    .map(({ partNumber }) => partNumber)
    .join()

interface Keyed {
  readonly key: string
  readonly candidate: Candidate
}

/** A name for each that holds from one set of requirements to the next. */
function keyEach(candidates: readonly Candidate[]): Keyed[] {
  const counts = new Map<string, number>()
  return candidates.map((candidate) => {
    const count = (counts.get(candidate.label) ?? 0) + 1
    counts.set(candidate.label, count)
    return { key: `${candidate.label} ${count}`, candidate }
  })
}

/**
 * Of candidates in their order those that are worth a proof: the first few, and where all of them have the same transistors, the
 * first with others.
 */
export function worthProving<T extends Glanced>(inOrder: readonly T[]): T[] {
  const few = inOrder.slice(0, PROOFS_PER_VARIANT)
  const isOther = hasOthersThan(few[0])
  return few.some(isOther) ? few : [...few, ...inOrder.filter(isOther).slice(0, 1)]
}

const hasOthersThan =
  (first: Glanced | undefined) =>
  ({ transistors }: Glanced): boolean =>
    transistors !== first?.transistors

/** The worst rank that still matters: of the last to be proven, and of the first of all. */
function lastOfInterest(glanced: readonly Glanced[]): number {
  const inOrder = glanced.toSorted((a, b) => a.rank - b.rank)
  const [first] = inOrder
  if (!first) return Infinity
  const worth = worthProving(inOrder)
  const isFull = worth.length >= PROOFS_PER_VARIANT
  const isSettled = isFull && (first.transistors === '' || worth.some(hasOthersThan(first)))
  return Math.min(isSettled ? worth.at(-1)!.rank : Infinity, Math.max(PROMISING, first.rank))
}

/** Ranks the candidates, together with those that are `ranked` already. `reach`: from a rank that still matters to the one up to which ranks are exact. */
function rankAll(
  variant: Variant,
  keyed: readonly Keyed[],
  need: Need,
  { wired }: Bench,
  reach: (rank: number) => number,
  ranked: readonly (Contender & Keyed)[] = [],
): (Contender & Keyed)[] | Refusal {
  let refusal: Refusal | undefined
  const wirings = wired.get(variant) ?? []
  wired.set(variant, wirings)
  const built = [...ranked]
  for (const { key, candidate } of keyed) {
    const design = build(variant, candidate, need, {})
    if (isRefusal(design)) {
      refusal ??= design
      continue
    }
    const prepared = prepare(design, ...wirings)
    if (!wirings.some(({ circuit }) => circuit.nodes === prepared.circuit.nodes)) wirings.push(prepared)
    const enough = reach(lastOfInterest(built))
    const rank = glance(prepared, need.requirements, enough)
    built.push({ key, candidate, prepared, rank, transistors: transistorsOf(design) })
  }
  return built.length === 0 ? (refusal ?? NOTHING_SOLVES) : built.toSorted((a, b) => a.rank - b.rank)
}

/** The design that a candidate comes to, or why none does; with pins one that holds to all of them. */
export function build(variant: Variant, candidate: Candidate, need: Need, demands: Demands): SizedDesign | Refusal {
  const design = candidate.build(variant.working.run(candidate.givens(), chooserFor(need)), demands)
  return isRefusal(design) ? design : (unheldPin(design, need.pins) ?? design)
}

/** What is said where circuits could be built but none of them has a solution. */
export const NOTHING_SOLVES: Refusal = {
  refused: true,
  requirement: 'solution',
  required: 1,
  achieved: 0,
  unit: '1',
  because:
    'No part in the list comes near these requirements, or no circuit built from them has a solution. Ask for less load current, or for a narrower input range.',
}
