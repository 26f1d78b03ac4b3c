/**
 * Sizes one topology: variants from the simplest up, in each the most promising candidates; every one that is built is
 * solved at every corner, revised where the solved circuit asks more of a part than the hand calculation did, and the first
 * that meets every requirement is taken. Where none does, the closest attempt is kept, with what it lacks.
 */
import { type Proof, isUnprovable, prove } from '../analyses/prove.ts'
import { DERATING } from '../parts/derating/index.ts'
import type { Requirements } from '../requirements/study.ts'
import {
  type Candidate,
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
import { type Finding, judge } from './judge.ts'
import { glance } from './glance.ts'

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

export function size(topology: Topology, need: Need): Sized | Unbuilt {
  let closest: Sized | undefined
  let refused: Unbuilt | undefined
  let leftOut: { variant: Variant; first: Built } | undefined
  const rejected: string[] = []
  const consider = (attempt: Sized): void => {
    rejected.push(`${attempt.variant.name}: ${attempt.findings[0]!.shortfall.because}`)
    if (!closest || severity(attempt.findings) < severity(closest.findings)) closest = attempt
  }
  for (const variant of topology.variants) {
    if (!variant.suits(need)) continue
    const built = buildAll(variant, need)
    if (!Array.isArray(built)) {
      refused ??= built
      rejected.push(`${variant.name}: ${built.refusal.because}`)
      continue
    }
    const promising = built.filter(({ rank }) => rank <= PROMISING).slice(0, PROOFS_PER_VARIANT)
    if (promising.length === 0 && (!leftOut || built[0]!.rank < leftOut.first.rank))
      leftOut = { variant, first: built[0]! }
    if (promising.length === 0) rejected.push(`${variant.name}: at first sight far outside the requirements.`)
    const attempt = proveBest(variant, promising, need)
    if (!attempt) continue
    if (attempt.findings.length === 0) return { ...attempt, because: becauseOf(variant, rejected) }
    consider(attempt)
  }
  if (!closest && leftOut) {
    const attempt = proveBest(leftOut.variant, [leftOut.first], need)
    if (attempt) consider(attempt)
  }
  if (closest)
    return { ...closest, because: `No variant meets every requirement; ${closest.variant.title} comes closest.` }
  if (refused) return refused
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

const becauseOf = (variant: Variant, rejected: readonly string[]): string =>
  rejected.length === 0
    ? `The simplest variant, ${variant.title}, meets every requirement.`
    : `${variant.title.charAt(0).toUpperCase()}${variant.title.slice(1)}, since a simpler variant falls short. ${rejected.at(-1)}`

/** One number to tell how far off a design is: each missing requirement counts for itself, then by how much. */
export const severity = (findings: readonly Finding[]): number =>
  findings.reduce((sum, { severity: s }) => sum + 1 + Math.min(s, 20), 0)

interface Built {
  readonly candidate: Candidate
  readonly design: SizedDesign
  readonly rank: number
}

/** Every candidate that can be built, the most promising at first sight first. */
function buildAll(variant: Variant, need: Need): Built[] | Unbuilt {
  const candidates = variant.candidates(need)
  if (isRefusal(candidates)) return { variant, refusal: candidates }
  let refusal: Refusal | undefined
  const built: Built[] = []
  for (const candidate of candidates) {
    const design = build(variant, candidate, need, {})
    if (isRefusal(design)) refusal ??= design
    else built.push({ candidate, design, rank: glance(design, need.requirements) })
  }
  if (built.length === 0) return { variant, refusal: refusal ?? NOTHING_SOLVES }
  return built.toSorted((a, b) => a.rank - b.rank)
}

/** The first of these that meets, or the one that comes closest; undefined where none could be proven. */
function proveBest(variant: Variant, built: readonly Built[], need: Need): Sized | undefined {
  let closest: Sized | undefined
  for (const { candidate, design } of built) {
    const attempt = proveAndRevise(variant, candidate, design, need)
    if (!attempt) continue
    if (attempt.findings.length === 0) return attempt
    if (!closest || severity(attempt.findings) < severity(closest.findings)) closest = attempt
  }
  return closest
}

/** One variant alone, whatever its rank: for pinned parts and for tests. */
export function sizeVariant(variant: Variant, need: Need): Sized | Unbuilt {
  const built = buildAll(variant, need)
  if (!Array.isArray(built)) return built
  return proveBest(variant, built.slice(0, PROOFS_PER_VARIANT), need) ?? { variant, refusal: NOTHING_SOLVES }
}

function build(variant: Variant, candidate: Candidate, need: Need, demands: Demands): SizedDesign | Refusal {
  return candidate.build(variant.working.run(candidate.givens, chooserFor(need)), demands)
}

function proveAndRevise(variant: Variant, candidate: Candidate, first: SizedDesign, need: Need): Sized | undefined {
  let design = first
  let best: Sized | undefined
  for (let revision = 0; revision <= REVISIONS; revision++) {
    const proof = prove(design, need.requirements)
    if (isUnprovable(proof)) return best
    const findings = judge(proof)
    if (!best || severity(findings) < severity(best.findings)) best = { variant, proof, findings, because: '' }
    if (findings.length === 0) return best
    if (!findings.some(({ shortfall }) => isPartRating(shortfall.requirement))) return best
    const revised = build(variant, candidate, need, demandsOf(proof))
    if (isRefusal(revised)) return best
    if (sameParts(revised, design)) return best
    design = revised
  }
  return best
}

const isPartRating = (requirement: string): boolean =>
  /^[A-Z]+\d+\./.test(requirement) || requirement === 'limits.survivesShort'

const sameParts = (a: SizedDesign, b: SizedDesign): boolean =>
  a.parts.length === b.parts.length &&
  a.parts.every((part, k) => part.partNumber === b.parts[k]!.partNumber && part.value === b.parts[k]!.value)

/** What the solved corners asked of every part, for choosing it again. */
function demandsOf(proof: Proof): Demands {
  const demands: Record<string, { power: number; voltage: number; shortPower: number }> = {}
  proof.observer.prepared.limits.forEach(({ part, limit }, k) => {
    const entry = (demands[part] ??= { power: 0, voltage: 0, shortPower: 0 })
    const stress = stressOf(proof.observer, k, proof.limits[k]!).stress
    if (limit.quantity === 'power') {
      entry.power = stress
      const short = proof.shortCircuit.use[k]!
      entry.shortPower = stressOf(proof.shortCircuit.observer, k, short).stress
    } else if (limit.quantity === 'voltage') entry.voltage = stress
  })
  return demands
}
