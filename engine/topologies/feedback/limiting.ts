/** How a feedback variant limits its current: not at all, to a constant, or folded back. */
import { deratedJunction } from '../../parts/derating/index.ts'
import { soaCurrent } from '../../parts/transistor/index.ts'
import { type Need, isRefusal } from '../define.ts'
import { FOLDBACK_GIVENS, type FoldbackIds, foldbackGivens, foldbackSteps, isFoldback } from '../place/foldback.ts'
import { LIMITER_GIVENS, type LimiterIds, limiterSteps, limiterThreshold } from '../place/limiter.ts'
import { guessLimit, passNeed } from '../place/pass.ts'
import { type PassChoice, passResistance, passTransistors } from '../place/transistor.ts'
import type { Given, Step } from '../working.ts'
import { loopPasses } from './loop.ts'

/** Part ids of the limiter, those of its divider where it folds back; undefined where nothing limits. */
export type Limiting = LimiterIds | FoldbackIds | undefined

/** Candidates of a foldback variant that are tried: where it comes into play at all, it is the last resort. */
const FOLDBACK_CANDIDATES = 1

export const worthTrying = <T>(limiting: Limiting, candidates: readonly T[]): T[] =>
  candidates.slice(0, limiting && isFoldback(limiting) ? FOLDBACK_CANDIDATES : candidates.length)

export const limitingGivensOf = (limiting: Limiting): readonly Given[] =>
  limiting ? (isFoldback(limiting) ? FOLDBACK_GIVENS : LIMITER_GIVENS) : []

export const limitingSteps = (limiting: Limiting): readonly Step[] =>
  limiting ? (isFoldback(limiting) ? foldbackSteps(limiting) : limiterSteps(limiting.resistor)) : []

/** `drive` in amperes: all the base drive that the limiting transistor may have to steal. */
export function limitingGivens(
  need: Need,
  limiting: Limiting,
  pass: PassChoice,
  drive: number,
): Record<string, number> {
  if (!limiting) return {}
  return isFoldback(limiting) ? foldbackGivens(need, limiting, pass, drive) : limiterThreshold(need, limiting, drive)
}

/**
 * A limiter where a short must be survived; a foldback limiter only where a pass transistor bears the full load but none the
 * short-circuit heat of a constant limiter, since a load of constant current may keep it folded back.
 */
export function suitsLimiting(need: Need, limiting: Limiting): boolean {
  const mustSurvive = need.requirements.limits.survivesShort
  if (!limiting) return !mustSurvive
  return (
    mustSurvive && (!isFoldback(limiting) || (servesFullLoad(need, limiting) && !bearsConstantLimit(need, limiting)))
  )
}

/** By hand a short is borne for certain when a transistor bears this share of it for each unit asked. Own reckoning, no source. */
const CERTAIN = 4 / 3

function servesFullLoad(need: Need, limiting: FoldbackIds): boolean {
  const { policy, requirements } = need
  const { input, output, load } = requirements
  const passes = loopPasses(need, limiting)
  if (isRefusal(passes)) return false
  const at = { volts: input.max - output.voltage, amperes: load.max, share: policy.soa }
  return passes.some((pass) => bears(need, pass, at, deratedJunction(pass.row.Tj_max, policy)))
}

function bearsConstantLimit(need: Need, { transistor, resistor }: LimiterIds): boolean {
  const { input, output } = need.requirements
  const current = guessLimit(need, { transistor, resistor }).current * CERTAIN
  const ask = passNeed(need, output.voltage, current)
  return [false, true]
    .flatMap((darlington) => passTransistors(need, 'Q1', ask, darlington))
    .some((pass) => bears(need, pass, { volts: input.max, amperes: current, share: 1 }, pass.row.Tj_max))
}

/** Whether it carries `amperes` at `volts` with its junction up to `hottest` and inside a share of its safe operating area. */
function bears(
  need: Need,
  pass: PassChoice,
  { volts, amperes, share }: { volts: number; amperes: number; share: number },
  hottest: number,
): boolean {
  const { row } = pass
  const heat = volts * amperes
  const junction = need.requirements.ambient.max + heat * passResistance(need, pass)
  const caseTemperature = junction - heat * (row.thetaJC ?? 0)
  return junction <= hottest && amperes <= soaCurrent(row, volts, caseTemperature) * share
}
