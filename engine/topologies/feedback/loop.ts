/** What the feedback variants share: the loop around the pass transistor. */
import { allowedJunction } from '../../parts/derating/index.ts'
import { VBE_SPREAD, leastGain, vbeOf } from '../../parts/transistor/index.ts'
import type { Assembly } from '../assemble.ts'
import { BASE_CURRENT, JUNCTION_GIVEN, LEAST_GAIN_GIVEN, coolingStep } from '../common.ts'
import type { Need, Refusal } from '../define.ts'
import { refuse } from '../place/fitted.ts'
import { type FoldbackIds, isFoldback } from '../place/foldback.ts'
import type { LimiterIds } from '../place/limiter.ts'
import { guessLimit, passNeed } from '../place/pass.ts'
import { type PassChoice, passTransistors } from '../place/transistor.ts'
import type { Given, Step, Worked } from '../working.ts'

/** Part ids of the divider, and its symbols in the working. */
export const DIVIDER = { upper: 'R1', lower: 'R2' } as const

export const LOOP_GIVENS: readonly Given[] = [
  {
    is: 'Vbe_max',
    unit: 'V',
    quantity: 'Largest base-emitter voltage of the pass transistor',
    source: 'transistor model, full load, coldest, +30 mV',
  },
  LEAST_GAIN_GIVEN,
  JUNCTION_GIVEN,
  { is: 'I_div', unit: 'A', quantity: 'Divider current', source: 'common practice, no source' },
]

/** Heat and cooling of the pass transistor, and what the base takes. */
export const PASS: readonly Step[] = [
  BASE_CURRENT,
  {
    is: 'P_pass',
    unit: 'W',
    quantity: 'Pass transistor heat',
    from: '(Vin_max - Vout) * Iout_max',
    source: 'J. M. Fiore, Op Amps and Linear Integrated Circuits, ch. 8 (PD = IL·(Vin - VL))',
  },
  coolingStep('P_pass'),
]

/** The figures of the pass transistor among the givens. */
export function loopGivens(need: Need, { row }: PassChoice): { Vbe_max: number; beta_min: number; Tj_lim: number } {
  const { input, output, load, ambient } = need.requirements
  const headroom = Math.max(1, input.min - output.voltage)
  return {
    Vbe_max: vbeOf(row, load.max, headroom, ambient.min) + VBE_SPREAD,
    beta_min: leastGain(row, load.max, headroom, ambient.min),
    Tj_lim: allowedJunction(row.Tj_max, need.policy, 'transistor', need.requirements.ambient.max),
  }
}

/** The pass transistors worth trying: the smallest single one, then the smallest Darlington; where one is hardly enough, the next too. */
export function loopPasses(need: Need, limiter: LimiterIds | FoldbackIds | undefined): PassChoice[] | Refusal {
  const { voltage, tolerance } = need.requirements.output
  const limit = limiter && guessLimit(need, limiter).current
  const smallest = (held: number, darlington: boolean): PassChoice[] => {
    const limited = passNeed(need, held, limit)
    // folded back, the short is made to fit the transistor and not the transistor to the short
    const { faultPower: _, ...folded } = limited
    return passTransistors(need, 'Q1', limiter && isFoldback(limiter) ? folded : limited, darlington).slice(0, 1)
  }
  const passes = [false, true].flatMap((darlington) => {
    const chosen = smallest(voltage, darlington)
    // at the foot of its band the output leaves more to the transistor: one that is at its limit already is not the only one tried
    const surer = smallest(voltage * (1 - tolerance), darlington).filter(({ row }) => row !== chosen[0]?.row)
    return [...chosen, ...surer]
  })
  return passes.length > 0 ? passes : refuse('parts.mounting', 1, 0, '1', 'The list holds no pass transistor.')
}

/** Volts across the sense resistor near its threshold: where the solver looks for the sense node first. */
const SENSED = 0.4

/** Where the solver looks for the nodes first; `ref` and `fb` in volts. */
export function loopGuess(
  need: Need,
  worked: Worked,
  limiter: LimiterIds | FoldbackIds | undefined,
  { ref, fb }: { ref: number; fb: number },
): Assembly['guess'] {
  const { output, load } = need.requirements
  const { voltage } = output
  const sensed = limiter && isFoldback(limiter) ? worked.value('R_sc') * load.nominal : SENSED
  return {
    ref,
    fb,
    base: voltage + worked.value('Vbe_max') + (limiter ? sensed : 0),
    sense: voltage + sensed,
    out: voltage,
    ...(limiter && isFoldback(limiter) ? { fold: (voltage + sensed) / (1 + worked.value('fold')) } : {}),
  }
}

/** What holds of every design with such a loop. */
export const LOOP = {
  topology: 'feedback',
  cautions: [
    'A pass transistor that fails shorted, or an open upper divider resistor, puts up to the whole input on the load.',
  ],
  notEvaluated: ['loopStability'],
  follows: ['base', 'sense'],
  divides: ['fb', 'fold'],
  mayNotStart: true,
} as const satisfies Partial<Assembly>
