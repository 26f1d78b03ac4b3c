/** Reference diode and emitter follower; with or without a second transistor, with or without a current limiter. */
import { once } from '../../once.ts'
import { allowedJunction } from '../../parts/derating/index.ts'
import type { DiodeRow } from '../../parts/reference-diode/index.ts'
import { largestGain, leastGain, vbeOf } from '../../parts/transistor/index.ts'
import { assemble } from '../assemble.ts'
import { OUTPUT_CAPACITOR, REQUIRED, STEP_GIVEN, STEP_TIME, requiredGivens } from '../common.ts'
import type { Candidate, Need, Refusal, Variant } from '../define.ts'
import { fitOutputCapacitor } from '../place/capacitor.ts'
import {
  DIODE_GIVENS,
  diodeGivens,
  diodeMiss,
  diodeSpread,
  diodesNear,
  fitDiode,
  leastDiodeCurrent,
} from '../place/diode.ts'
import { refuse } from '../place/fitted.ts'
import { LIMITER_GIVENS, type LimiterIds, limiterSteps, limiterThreshold } from '../place/limiter.ts'
import { fitPass, guessLimit, passAgain, passNeed } from '../place/pass.ts'
import { fitResistor } from '../place/resistor.ts'
import { type PassChoice, heatsinkPart, neverConducts, passTransistors } from '../place/transistor.ts'
import { defineWorking } from '../working.ts'
import { BARE_OUTPUT, FOLLOWER, PASS_GIVENS, SENSED_OUTPUT, UNLIMITED_SHORT } from './steps.ts'

/** Beyond the band, how far from the wanted voltage a diode may lie and still be tried. */
const REACH = 0.05

/** Collector-emitter voltage at which gain is read for sizing; the corners have the real one. */
const GAIN_VCE = 5

const LIMITER: LimiterIds = { transistor: 'Q2', resistor: 'R2' }

interface Kind {
  readonly name: string
  readonly title: string
  readonly darlington: boolean
  readonly limited: boolean
}

export function followerVariant(kind: Kind): Variant {
  const working = defineWorking(
    `series-pass, ${kind.name}`,
    [...REQUIRED, ...DIODE_GIVENS, ...PASS_GIVENS, ...(kind.limited ? LIMITER_GIVENS : []), STEP_GIVEN],
    [
      ...(kind.limited ? [...limiterSteps(LIMITER.resistor), ...SENSED_OUTPUT] : BARE_OUTPUT),
      ...FOLLOWER,
      ...(kind.limited ? [] : UNLIMITED_SHORT),
      ...OUTPUT_CAPACITOR,
    ],
  )
  return {
    name: kind.name,
    title: kind.title,
    working,
    suits: (need) => need.requirements.limits.survivesShort === kind.limited,
    candidates: (need) => candidates(need, kind),
  }
}

function candidates(need: Need, kind: Kind): Candidate[] | Refusal {
  const { input, output, load, ambient } = need.requirements
  const lowest = output.voltage * (1 - output.tolerance)
  const limit = kind.limited ? guessLimit(need, LIMITER) : undefined
  const passes = passTransistors(need, 'Q1', passNeed(need, lowest, limit?.current), kind.darlington)
  if (passes.length === 0) return refuse('parts.mounting', 1, 0, '1', 'The list holds no pass transistor of this kind.')
  return passes.slice(0, 2).flatMap((pass) => {
    const Vbe = vbeOf(pass.row, load.nominal, Math.max(1, input.nominal - output.voltage), 25)
    const sense = limit ? (limit.V_on * load.nominal) / load.max : 0
    const wanted = output.voltage + Vbe + sense
    const at = once(() => ({
      Vbe,
      beta_min: leastGain(pass.row, load.max, GAIN_VCE, ambient.min),
      beta_max: largestGain(pass.row, load.max, GAIN_VCE, ambient.max),
    }))
    return diodesNear(need, 'D1', wanted, output.tolerance + REACH)
      .toSorted((a, b) => diodeMiss(a, wanted) - diodeMiss(b, wanted))
      .slice(0, 4)
      .flatMap((row) => [1, 3].map((factor) => candidate(need, kind, pass, row, factor, at)))
  })
}

function candidate(
  need: Need,
  kind: Kind,
  pass: PassChoice,
  row: DiodeRow,
  factor: number,
  at: () => { Vbe: number; beta_min: number; beta_max: number },
): Candidate {
  const { requirements, policy } = need
  const { input, load } = requirements
  const limiter = kind.limited ? LIMITER : undefined
  return {
    label: `${pass.row.partNumber} with ${row.partNumber}`,
    givens: () => ({
      ...requiredGivens(requirements),
      ...diodeGivens(need, row, factor),
      ...(limiter
        ? limiterThreshold(need, limiter, load.max / (at().beta_min + 1) + leastDiodeCurrent(row) * factor)
        : {}),
      ...at(),
      Tj_lim: allowedJunction(pass.row.Tj_max, policy, 'transistor', requirements.ambient.max),
      t_step: STEP_TIME,
    }),
    build(worked, demands) {
      const { beta_min, Vbe } = at()
      if (!(beta_min > 0)) return neverConducts(need, pass.row)
      const v = worked.value
      const cooled = passAgain(need, pass, limiter, demands)
      if (!(v('Rs_max') > 0.1))
        return refuse(
          'input.min',
          v('Vz_hi') + (v('IB_max') + v('Iz_min')) * 0.1,
          input.min,
          'V',
          `The reference diode may hold ${row.vz.max} V, so an input of ${input.min} V leaves nothing to feed it through a resistor. Raise the lowest input.`,
        )
      return assemble(need, {
        topology: 'series-pass',
        variant: kind.name,
        worked,
        fitted: [
          fitResistor(
            need,
            {
              id: 'R1',
              role: 'feed resistor of diode and base',
              nodes: ['in', 'base'],
              ohms: v('Rs'),
              power: v('P_Rs'),
              voltage: input.max - v('Vz_lo'),
              ...(limiter ? { fault: { power: v('P_Rs_short'), voltage: input.max } } : {}),
            },
            demands,
          ),
          fitDiode(need, row, 'D1', 'reference diode', ['0', 'base']),
          ...fitPass(need, cooled, limiter, worked, demands),
          fitOutputCapacitor(need, worked),
        ],
        mechanical: [heatsinkPart('HS1', cooled.cooling, 'Q1')],
        referenceSpread: diodeSpread(row),
        guess: {
          base: row.vz.nominal,
          sense: row.vz.nominal - Vbe,
          out: limiter ? v('Vout_nom') : row.vz.nominal - Vbe,
        },
        follows: ['base', 'sense'],
        assumptions: [],
        cautions: ['A pass transistor that fails shorted puts the whole input on the load.'],
      })
    },
  }
}
