/**
 * Sizes one topology: variants from the simplest up, in each the most promising candidates; every one that is built is
 * solved at every corner, revised where the solved circuit asks more of a part than the hand calculation did, and the first
 * that meets every requirement is taken. Where none does, the closest attempt is kept, with what it lacks.
 */
import { type Prepared, prepare } from '../analyses/prepare.ts'
import { type Band, type Extent, type Lean, type Proof, isUnprovable, prove, proveBand } from '../analyses/prove.ts'
import { DERATING } from '../parts/derating/index.ts'
import type { Requirements } from '../requirements/study.ts'
import {
  type Candidate,
  type Demand,
  type Demands,
  type Need,
  type Pins,
  type Refusal,
  type SizedDesign,
  type Topology,
  type Variant,
  chooserFor,
  isRefusal,
} from '../topologies/index.ts'
import { stressOf } from '../analyses/ratings.ts'
import type { Observer } from '../analyses/observe.ts'
import type { Recall } from '../analyses/search.ts'
import { type Finding, judge, judgeOutput } from './judge.ts'
import { glance } from './glance.ts'
import { pinsText, unheldPin } from './pinned.ts'
import { capital } from './words.ts'

/** A design that was built and proven; `findings` is empty where it meets. */
export interface Sized {
  variant: Variant
  proof: Proof
  findings: Finding[]
  because: string
}

/** Nothing could be built. */
export interface Unbuilt {
  variant: Variant
  refusal: Refusal
}

export const isUnbuilt = (x: Sized | Unbuilt): x is Unbuilt => 'refusal' in x

/** Proofs that one variant may cost: candidates come most promising first. */
const PROOFS_PER_VARIANT = 3
/** A first look worse than this leaves nothing for a proof to save. */
const PROMISING = 2.5
/** How often a design is rebuilt with the stress that its own proof found. */
const REVISIONS = 2

export function needOf(requirements: Requirements, pins: Pins = {}): Need {
  return { requirements, policy: DERATING[requirements.derating], pins }
}

/** What a sizing may share with another of the same requirements, the limits of regulation and ripple aside: no part depends on those. */
export interface Bench {
  /** Every candidate built so far, by variant. */
  readonly built: Map<Variant, Built[] | Unbuilt>
  /** A circuit of each wiring met in a variant, whatever it was sized for: others of that wiring cost little to compile. */
  readonly wired: Map<Variant, Prepared[]>
  /** Solved points of each design that was put to the proof. */
  readonly observers: Map<Prepared, Observer>
  /** What the searches of lean proofs found in designs of like requirements, by variant and active parts. */
  readonly recalls?: Recalls | undefined
}

export type Recalls = Map<Variant, Map<string, Recall>>

/** `like`: a bench of other requirements, for its wirings; `recalls`: of like ones. */
export const newBench = (like?: Bench, recalls?: Recalls): Bench => ({
  built: new Map(),
  wired: like?.wired ?? new Map(),
  observers: new Map(),
  recalls,
})

/** Designs of one variant with the same active parts differ in values alone: their tolerances act alike. */
function recallOf(variant: Variant, { design }: Prepared, { recalls }: Bench): Recall | undefined {
  if (!recalls) return undefined
  const ofVariant = recalls.get(variant) ?? new Map<string, Recall>()
  recalls.set(variant, ofVariant)
  const active = new Set(design.netlist.elements.flatMap(({ kind, part }) => (kind === 'resistor' ? [] : [part])))
  const named = design.parts.map(({ id, partNumber }) => (active.has(id) ? `${id} ${partNumber}` : id))
  const key = [design.tolerances.length, ...named].join()
  const recall: Recall = ofVariant.get(key) ?? new Map()
  ofVariant.set(key, recall)
  return recall
}

/**
 * With pins only a design that holds to all of them is one. `extent`: 'nominal' proves with nominal parts alone, for a first
 * impression: the conditions' corners are solved, the tolerances left out.
 */
export function size(
  topology: Topology,
  need: Need,
  bench: Bench = newBench(),
  extent: 'all' | 'nominal' = 'all',
): Sized | Unbuilt {
  const attempt = tryVariants(topology, need, bench, extent)
  const sized = attempt.met ?? closestAttempt(topology, need, attempt)
  const pins = pinsText(topology.name, need.pins)
  if (pins === '') return sized
  if (!isUnbuilt(sized)) return { ...sized, because: `${sized.because} Pinned: ${pins}.` }
  const { refusal } = sized
  return {
    ...sized,
    refusal: { ...refusal, because: `Nothing can be built with ${pins} pinned: ${refusal.because}` },
  }
}

/** The same design as `size` finds where that meets, proven as far as `lean` tells; undefined where none meets. */
export const sizeLean = (topology: Topology, need: Need, bench: Bench, lean: Lean): Sized | undefined =>
  tryVariants(topology, need, bench, lean).met

/** What came of a topology's variants. */
interface Attempt {
  /** The first that meets. */
  met?: Sized
  missed: Missed[]
  /** The first variant that cannot be built. */
  refused?: Unbuilt
  /** The variant that looked best of those that none was proven of. */
  leftOut?: { variant: Variant; first: Built }
}

function tryVariants(topology: Topology, need: Need, bench: Bench, extent: Extent): Attempt {
  const attempt: Attempt = { missed: [] }
  let lastReason = ''
  const take = (variant: Variant, built: readonly Built[]): boolean => {
    const tried = tryEach(variant, built, need, extent, bench)
    if ('met' in tried) {
      attempt.met = { ...tried.met, because: becauseOf(variant, lastReason) }
      return true
    }
    if (tried.missed.length > 0) lastReason = `${variant.name}: ${tried.missed[0]!.because}`
    attempt.missed.push(...tried.missed)
    return false
  }
  for (const variant of topology.variants) {
    if (!variant.suits(need)) continue
    const built = bench.built.get(variant) ?? buildAll(variant, need, bench, typeof extent === 'object')
    bench.built.set(variant, built)
    if (!Array.isArray(built)) {
      // a variant that lacks the pinned part says less than one that was tried with it
      if (!attempt.refused || attempt.refused.refusal.requirement.startsWith('pins.')) attempt.refused = built
      lastReason = `${variant.name}: ${built.refusal.because}`
      continue
    }
    const promising = built
      .filter(({ rank }) => rank <= PROMISING)
      .slice(0, extent !== 'nominal' ? PROOFS_PER_VARIANT : 1)
    if (promising.length === 0) {
      if (!attempt.leftOut || built[0]!.rank < attempt.leftOut.first.rank)
        attempt.leftOut = { variant, first: built[0]! }
      lastReason = `${variant.name}: at first sight far outside the requirements.`
    } else if (take(variant, promising)) return attempt
  }
  if (attempt.missed.length === 0 && attempt.leftOut) take(attempt.leftOut.variant, [attempt.leftOut.first])
  return attempt
}

/** Where nothing meets: the design that comes closest, or why there is none. */
function closestAttempt(topology: Topology, need: Need, { missed, refused, leftOut }: Attempt): Sized | Unbuilt {
  const closest = closestOf(missed)
  if (closest)
    return { ...closest, because: `No variant meets every requirement; ${closest.variant.title} comes closest.` }
  // a pinned circuit that has no solution is no matter of the other variants' reasons
  if (refused && !(leftOut && Object.keys(need.pins).length > 0)) return refused
  const variant = leftOut?.variant ?? topology.variants[0]!
  return { variant, refusal: NOTHING_SOLVES }
}

/** What is said where circuits could be built but none of them has a solution. */
const NOTHING_SOLVES: Refusal = {
  refused: true,
  requirement: 'solution',
  required: 1,
  achieved: 0,
  unit: '1',
  because: 'No part in the list comes near these requirements, or no circuit built from them has a solution.',
}

/** `lastReason`: what the variant before it lacks; empty where there was none. */
const becauseOf = (variant: Variant, lastReason: string): string =>
  lastReason === ''
    ? `The simplest variant, ${variant.title}, meets every requirement.`
    : `${capital(variant.title)}, since a simpler variant falls short. ${lastReason}`

/** One number to tell how far off a design is: each missing requirement counts for itself, then by how much. */
export const severity = (findings: readonly Finding[]): number =>
  findings.reduce((sum, { severity: s }) => sum + 1 + Math.min(s, 20), 0)

interface Built {
  readonly candidate: Candidate
  readonly prepared: Prepared
  readonly rank: number
}

/**
 * Every candidate that can be built, the most promising at first sight first. `isLean` ranks exactly only those that come to be
 * proven: the first few, and the first of all.
 */
function buildAll(variant: Variant, need: Need, { wired }: Bench = newBench(), isLean = false): Built[] | Unbuilt {
  const candidates = variant.candidates(need)
  if (isRefusal(candidates)) return { variant, refusal: candidates }
  let refusal: Refusal | undefined
  const wirings = wired.get(variant) ?? []
  wired.set(variant, wirings)
  const built: Built[] = []
  for (const candidate of candidates) {
    const design = build(variant, candidate, need, {})
    if (isRefusal(design)) {
      refusal ??= design
      continue
    }
    const prepared = prepare(design, ...wirings)
    if (!wirings.some(({ circuit }) => circuit.nodes === prepared.circuit.nodes)) wirings.push(prepared)
    const enough = isLean ? enoughOf(built) : Infinity
    built.push({ candidate, prepared, rank: glance(prepared, need.requirements, enough) })
  }

  if (built.length === 0) return { variant, refusal: refusal ?? NOTHING_SOLVES }
  return built.toSorted((a, b) => a.rank - b.rank)
}

/** A rank beyond which one more candidate can neither be among those that are proven nor be the first of all. */
function enoughOf(built: readonly Built[]): number {
  const ranks = built.map(({ rank }) => rank).toSorted((a, b) => a - b)
  return Math.min(ranks[PROOFS_PER_VARIANT - 1] ?? Infinity, Math.max(PROMISING, ranks[0] ?? Infinity))
}

/** A design that does not meet. One that leaves its band is proven no further until nothing better is found. */
interface Missed {
  /** How far off it is, or at least how far. */
  readonly severity: number
  readonly because: string
  /** The whole proof of it, revised where that helps; undefined where it cannot be had. */
  readonly finish: () => Sized | undefined
}

/** The first of these that meets, or what is known of those that do not, the closest first. */
function tryEach(
  variant: Variant,
  built: readonly Built[],
  need: Need,
  extent: Extent,
  bench: Bench = newBench(),
): { met: Sized } | { missed: Missed[] } {
  const missed: Missed[] = []
  for (const { candidate, prepared } of built) {
    const { observers } = bench
    const recall = recallOf(variant, prepared, bench)
    const band = proveBand(prepared, need.requirements, extent, observers.get(prepared), recall)
    observers.set(prepared, band.observer)
    if (isUnprovable(band)) continue
    const outside = judgeOutput(band)
    const finish = (): Sized | undefined => proveAndRevise(variant, candidate, band, need, extent, bench)
    if (outside.length > 0) {
      missed.push({ severity: severity(outside), because: outside[0]!.shortfall.because, finish })
      continue
    }
    const whole = finish()
    if (!whole) continue
    const { findings } = whole
    if (findings.length === 0) return { met: whole }
    missed.push({ severity: severity(findings), because: findings[0]!.shortfall.because, finish: () => whole })
  }
  return { missed: missed.toSorted((a, b) => a.severity - b.severity) }
}

/** The one that is least far off once it is wholly proven. */
function closestOf(missed: readonly Missed[]): Sized | undefined {
  let closest: Sized | undefined
  for (const one of missed.toSorted((a, b) => a.severity - b.severity)) {
    if (closest && one.severity >= severity(closest.findings)) break
    const whole = one.finish()
    if (whole && (!closest || severity(whole.findings) < severity(closest.findings))) closest = whole
  }
  return closest
}

/** One variant alone, whatever its rank: for pinned parts and for tests. */
export function sizeVariant(variant: Variant, need: Need): Sized | Unbuilt {
  const built = buildAll(variant, need)
  if (!Array.isArray(built)) return built
  const tried = tryEach(variant, built.slice(0, PROOFS_PER_VARIANT), need, 'all')
  if ('met' in tried) return tried.met
  return closestOf(tried.missed) ?? { variant, refusal: NOTHING_SOLVES }
}

function build(variant: Variant, candidate: Candidate, need: Need, demands: Demands): SizedDesign | Refusal {
  const design = candidate.build(variant.working.run(candidate.givens, chooserFor(need)), demands)
  return isRefusal(design) ? design : (unheldPin(design, need.pins) ?? design)
}

function proveAndRevise(
  variant: Variant,
  candidate: Candidate,
  first: Band,
  need: Need,
  extent: Extent,
  bench: Bench,
): Sized | undefined {
  const revisions = extent === 'nominal' ? 0 : REVISIONS
  let band = first
  let best: Sized | undefined
  for (let revision = 0; ; revision++) {
    const proof = prove(band)
    if (isUnprovable(proof)) return best
    const sized: Sized = { variant, proof, findings: judge(proof), because: '' }
    if (!best || severity(sized.findings) < severity(best.findings)) best = sized
    const { findings } = sized
    if (findings.length === 0 || revision === revisions) return best
    if (!findings.some(({ shortfall }) => isPartRating(shortfall.requirement))) return best
    const revised = build(variant, candidate, need, demandsOf(proof))
    if (isRefusal(revised) || sameParts(revised, band.design)) return best
    const prepared = prepare(revised, band.observer.prepared)
    const next = proveBand(prepared, need.requirements, extent, undefined, recallOf(variant, prepared, bench))
    if (isUnprovable(next)) return best
    band = next
  }
}

const isPartRating = (requirement: string): boolean =>
  /^[A-Z]+\d+\./.test(requirement) || requirement === 'limits.survivesShort'

const sameParts = (a: SizedDesign, b: SizedDesign): boolean =>
  a.parts.length === b.parts.length &&
  a.parts.every((part, k) => part.partNumber === b.parts[k]!.partNumber && part.value === b.parts[k]!.value)

/** What the solved corners asked of every part, for choosing it again. */
function demandsOf(proof: Proof): Demands {
  const { design, observer, limits, shortCircuit } = proof
  const resistances = new Map(design.parts.map(({ id, thermalResistance }) => [id, thermalResistance]))
  const demands: Record<string, Demand> = {}
  observer.prepared.limits.forEach(({ part, limit }, k) => {
    const entry = (demands[part] ??= { power: 0, voltage: 0, shortPower: 0 })
    const stress = stressOf(observer, k, limits[k]!).stress
    const inShort = (): number => stressOf(shortCircuit.observer, k, shortCircuit.use[k]!).stress
    if (limit.quantity === 'voltage') entry.voltage = stress
    else if (limit.quantity === 'power') {
      entry.power = stress
      entry.shortPower = inShort()
    } else if (limit.quantity === 'junction') {
      // a settled junction tells the heat that warms it
      const perWatt = resistances.get(part) ?? Infinity
      const short = shortCircuit.observer.conditions[shortCircuit.use[k]!.condition]!
      entry.power = (stress - observer.conditions[limits[k]!.condition]!.ambient) / perWatt
      entry.shortPower = (inShort() - short.ambient) / perWatt
    }
  })
  return demands
}
