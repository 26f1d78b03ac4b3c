/**
 * Sizes one topology: variants from the simplest up, in each the most promising candidates; every one that is built is
 * solved at every corner, revised where the solved circuit asks more of a part than the hand calculation did, and the first
 * that meets every requirement is taken. Where none does, the closest attempt is kept, with what it lacks.
 */
import { capital } from '../units/index.ts'
import { prepare } from '../analyses/prepare.ts'
import { failsToStartAgain } from '../analyses/startUp.ts'
import { type Band, type Extent, type Lean, type Proof, isUnprovable, prove, proveBand } from '../analyses/prove.ts'
import { stressOf } from '../analyses/ratings.ts'
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
  isRefusal,
} from '../topologies/index.ts'
import { type Bench, newBench, recallOf } from './bench.ts'
import { type Contender, NOTHING_SOLVES, PROMISING, build, contendersOf, worthProving } from './contenders.ts'
import { type Finding, judge, judgeOutput, judgeStart } from './judge.ts'
import { pinsText } from './pinned.ts'

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

/** How often a design is rebuilt with the stress that its own proof found. */
const REVISIONS = 2

export function needOf(requirements: Requirements, pins: Pins = {}): Need {
  return { requirements, policy: DERATING[requirements.derating], pins }
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
  const sized = attempt.met ?? closestAttempt(topology, attempt)
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
  leftOut?: { variant: Variant; first: Contender }
}

function tryVariants(topology: Topology, need: Need, bench: Bench, extent: Extent): Attempt {
  const attempt: Attempt = { missed: [] }
  let lastReason = ''
  const take = (variant: Variant, built: readonly Contender[]): boolean => {
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
    const built = bench.built.get(variant) ?? contendersOf(variant, need, bench, typeof extent === 'object')
    bench.built.set(variant, built)
    if (isRefusal(built)) {
      // a variant that lacks the pinned part says less than one that was tried with it
      if (!attempt.refused || attempt.refused.refusal.requirement.startsWith('pins.'))
        attempt.refused = { variant, refusal: built }
      lastReason = `${variant.name}: ${built.because}`
      continue
    }
    const worth = worthProving(built.filter(({ rank }) => rank <= PROMISING))
    const promising = extent !== 'nominal' ? worth : worth.slice(0, 1)
    if (promising.length === 0) {
      const [first] = built
      if (first && (!attempt.leftOut || first.rank < attempt.leftOut.first.rank)) attempt.leftOut = { variant, first }
      lastReason = `${variant.name}: at first sight far outside the requirements.`
    } else if (take(variant, promising)) return attempt
  }
  const { leftOut } = attempt
  if (attempt.missed.length === 0 && leftOut && take(leftOut.variant, [leftOut.first]))
    // first sight deceives here
    bench.nearby?.ranks.delete(leftOut.variant)
  return attempt
}

/** Where nothing meets: the design that comes closest, or why there is none. */
function closestAttempt(topology: Topology, { missed, refused, leftOut }: Attempt): Sized | Unbuilt {
  const closest = closestOf(missed)
  if (closest)
    return { ...closest, because: `No variant meets every requirement; ${closest.variant.title} comes closest.` }
  // a circuit that could be built and has no solution says more than a variant that lacks a part
  if (refused && !leftOut) return refused
  const variant = leftOut?.variant ?? topology.variants[0]!
  return { variant, refusal: NOTHING_SOLVES }
}

/** `lastReason`: what the variant before it lacks; empty where there was none. */
const becauseOf = (variant: Variant, lastReason: string): string =>
  lastReason === ''
    ? `The simplest variant, ${variant.title}, meets every requirement.`
    : `${capital(variant.title)}, since a simpler variant falls short. ${lastReason}`

/** One number to tell how far off a design is: each missing requirement counts for itself, then by how much. */
export const severity = (findings: readonly Finding[]): number =>
  findings.reduce((sum, { severity: s }) => sum + 1 + Math.min(s, 20), 0)

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
  built: readonly Contender[],
  need: Need,
  extent: Extent,
  bench: Bench,
): { met: Sized } | { missed: Missed[] } {
  const missed: Missed[] = []
  const isLean = typeof extent === 'object'
  for (const { candidate, prepared } of built) {
    const { observers } = bench
    const recall = recallOf(variant, prepared, bench)
    if (isLean && recall && failsToStartAgain(prepared, need.requirements, recall)) {
      missed.push({ severity: Infinity, because: 'It fails to start.', finish: () => undefined })
      continue
    }
    const band = proveBand(prepared, need.requirements, extent, observers.get(prepared), recall)
    observers.set(prepared, band.observer)
    if (isUnprovable(band)) continue
    const outside = judgeOutput(band)
    // a whole proof tells this with everything else
    if (isLean && outside.length === 0)
      outside.push(...judgeStart({ startUp: band.startUp(), requirements: need.requirements }))
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
  const bench = newBench()
  const built = contendersOf(variant, need, bench, false)
  if (isRefusal(built)) return { variant, refusal: built }
  const tried = tryEach(variant, worthProving(built), need, 'all', bench)
  if ('met' in tried) return tried.met
  return closestOf(tried.missed) ?? { variant, refusal: NOTHING_SOLVES }
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
