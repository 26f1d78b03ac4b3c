/** The pass transistor together with the current limiter that may guard it. */
import type { Demands, Need, Refusal } from '../define.ts'
import type { Worked } from '../working.ts'
import type { Fitted } from './fitted.ts'
import { type FoldbackIds, fitFoldback, isFoldback } from './foldback.ts'
import { type LimiterIds, fitLimiter, limiterThreshold } from './limiter.ts'
import { type PassChoice, type PassNeed, fitTransistor, recooled } from './transistor.ts'

/** The gain of the pass transistor and the least base drive in amperes that the first guess supposes. Own approximation, no source. */
const GUESSED_GAIN = 30
const LEAST_DRIVE = 1e-3
/** What rounding the sense resistor down and its tolerance may add to the limited current. Own approximation, no source. */
const ROUNDING = 1.12

/**
 * First guess of the limited current, before the drive is known: the threshold over the sense resistor for full load.
 * Amperes, and the least threshold in volts.
 */
export function guessLimit(need: Need, ids: LimiterIds): { current: number; V_on: number } {
  const { load } = need.requirements
  const { V_on, V_full } = limiterThreshold(need, ids, Math.max(load.max / GUESSED_GAIN, LEAST_DRIVE))
  return { current: ((load.max * V_full) / V_on) * ROUNDING, V_on }
}

/** What the pass transistor must bear: full load from the highest input down to `held` volts, and the limited current in amperes. */
export function passNeed(need: Need, held: number, limit?: number): PassNeed {
  const { input, load } = need.requirements
  const power = (input.max - held) * load.max
  return limit === undefined
    ? { power, voltage: input.max, current: load.max }
    : { power, voltage: input.max, current: limit, faultPower: input.max * limit }
}

/** The choice again with what its proof asked. A foldback was worked out for the heatsink first chosen, which therefore stays. */
export const passAgain = (
  need: Need,
  pass: PassChoice,
  limiter: LimiterIds | FoldbackIds | undefined,
  demands: Demands,
): PassChoice => (limiter && isFoldback(limiter) ? pass : recooled(need, pass, demands['Q1']))

/** The pass transistor from `in` to `out`, its base at `base`; with a limiter its emitter at `sense`, and the limiter after it. */
export const fitPass = (
  need: Need,
  { row, cooling }: PassChoice,
  limiter: LimiterIds | FoldbackIds | undefined,
  worked: Worked,
  demands: Demands,
): (Fitted | Refusal)[] => [
  fitTransistor(need, row, {
    id: 'Q1',
    role: row.darlington ? 'pass transistor (Darlington)' : 'pass transistor',
    nodes: ['in', 'base', limiter ? 'sense' : 'out'],
    cooling,
  }),
  ...(limiter
    ? isFoldback(limiter)
      ? fitFoldback(need, limiter, worked, demands)
      : fitLimiter(need, limiter, worked, demands)
    : []),
]
