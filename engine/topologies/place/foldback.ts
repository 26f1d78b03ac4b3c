/**
 * The foldback limiter: the limiting transistor sees a share of the sense node instead of the node itself, so that the current
 * allowed falls with the output: I = (VBE·(1 + k) + k·Vout) / Rsc, k being the ratio of the foldback divider.
 */
import { leastGain, soaCurrent } from '../../parts/transistor/index.ts'
import type { Demands, Need, Refusal } from '../define.ts'
import type { Given, Step, Worked } from '../working.ts'
import { type Fitted, refuse } from './fitted.ts'
import { LIMITER_GIVENS, type LimiterIds, limiterRow, limiterThreshold } from './limiter.ts'
import { type DividerIds, fitResistor } from './resistor.ts'
import { BARE, type PassChoice, fitTransistor, passResistance } from './transistor.ts'

/** Part ids of a limiter and of the divider that folds it back. */
export interface FoldbackIds extends LimiterIds {
  readonly fold: DividerIds
}

export const isFoldback = (ids: LimiterIds | FoldbackIds): ids is FoldbackIds => 'fold' in ids

const FRANCO = 'S. Franco, Design with Operational Amplifiers, Example 11.10'

export const FOLDBACK_GIVENS: readonly Given[] = [
  ...LIMITER_GIVENS,
  { is: 'Tj_top', unit: '°C', quantity: 'Highest junction temperature of the pass transistor', source: 'data sheet' },
  {
    is: 'theta',
    unit: 'K/W',
    quantity: 'Its thermal resistance, junction to ambient',
    source: 'data sheet, as cooled',
  },
  {
    is: 'I_soa',
    unit: 'A',
    quantity: 'What its safe operating area allows at the highest input, as hot',
    source: 'data sheet',
  },
  {
    is: 'I_b',
    unit: 'A',
    quantity: 'Base current of the limiting transistor',
    source: 'all of the drive over its least gain',
  },
]

/** Short-circuit current aimed at, as a share of what the pass transistor bears (common practice, no source). */
const SHORT_SHARE = 0.8

export const foldbackSteps = ({ resistor, fold: { upper, lower } }: FoldbackIds): readonly Step[] => [
  {
    is: 'P_short',
    unit: 'W',
    quantity: 'Heat that the pass transistor bears, output shorted',
    from: '(Tj_top - Ta_max) / theta',
    source: 'A. S. Sedra and K. C. Smith, Microelectronic Circuits, Example 14.4',
  },
  {
    is: 'I_sc',
    unit: 'A',
    quantity: 'Short-circuit current aimed at',
    from: `${SHORT_SHARE} * min(P_short / Vin_max, I_soa)`,
    source: `${FRANCO} (ISC = Pmax/VI); a fifth less is common practice, no source`,
  },
  {
    is: 'R_flat',
    unit: 'Ω',
    quantity: 'Sense resistor for that current without foldback',
    from: 'V_full / I_sc',
    source: `${FRANCO} (RSC = VBE/ISC)`,
  },
  {
    is: 'I_fb',
    unit: 'A',
    quantity: 'Current at which the strongest sample begins to fold back',
    from: 'Iout_max * (1 + tol_R)^2 + I_sc * (1 - V_on / V_full)',
    source: 'own reckoning, no source: the weakest sample delivers the full load, the strongest so much more',
    why: 'The limiter must not bite at full load, hot.',
  },
  {
    is: 'R_sc_min',
    unit: 'Ω',
    quantity: 'Smallest sense resistor with foldback',
    from: '1 / (1 / R_flat - (I_fb - I_sc) / Vout_lo)',
    source: `${FRANCO} (1/RFB = 1/RSC - (IFB - ISC)/VO)`,
  },
  {
    is: 'R_sc',
    unit: 'Ω',
    quantity: 'Sense resistor',
    pick: (scope, choose) => choose.preferred(resistor, 'above', scope('R_sc_min')),
    says: 'preferred value at or above R_sc_min',
    source: 'IEC 60063',
    why: 'Rounded up, so that full load stays available; its drop costs lowest input.',
  },
  {
    is: 'fold',
    unit: '1',
    quantity: 'Ratio of the foldback divider, upper over lower',
    from: 'R_sc / R_flat - 1',
    source: `${FRANCO} (R3/R4 = RFB/RSC - 1)`,
  },
  {
    is: 'R_fold_aim',
    unit: 'Ω',
    quantity: 'Lower resistor of the foldback divider aimed at',
    from: 'V_on / (10 * I_b)',
    source: `${FRANCO} (the divider carries ten base currents)`,
  },
  ...([upper, lower] as const).map((is): Step => ({
    is,
    unit: 'Ω',
    quantity: `${is === upper ? 'Upper' : 'Lower'} resistor of the foldback divider`,
    pick: (scope, choose) => {
      if (!(scope('fold') > 0)) return NaN
      const pair = choose.divider(upper, lower, scope('fold'), scope('R_fold_aim'))
      return is === upper ? pair.upper : pair.lower
    },
    says: 'pair of preferred values closest to the ratio',
    source: 'IEC 60063',
    why: 'The pair whose ratio comes closest, the lower one within an octave of R_fold_aim.',
  })),
  {
    is: 'I_lim',
    unit: 'A',
    quantity: 'Largest current before it folds back',
    from: '(V_full * (1 + fold) + Vout_hi * fold) / (R_sc * (1 - tol_R))',
    source: `${FRANCO} (I = (VBE·(1 + R3/R4) + VO·R3/R4)/RFB)`,
  },
  {
    is: 'P_lim',
    unit: 'W',
    quantity: 'Pass transistor heat at that current',
    from: '(Vin_max - Vout_lo) * I_lim',
    source: 'S. Franco, Design with Operational Amplifiers, ch. 11 (P = (VI - VO)·IO)',
  },
  {
    is: 'P_sc',
    unit: 'W',
    quantity: 'Sense resistor heat at that current',
    from: 'I_lim^2 * R_sc',
    source: "Joule's law",
  },
]

/** `drive` in amperes: all the base drive that the limiting transistor may have to steal. */
export function foldbackGivens(
  need: Need,
  ids: FoldbackIds,
  { row, cooling }: PassChoice,
  drive: number,
): Record<string, number> {
  const { input, ambient } = need.requirements
  const theta = passResistance(need, { row, cooling })
  const caseTemperature = row.Tj_max - ((row.Tj_max - ambient.max) / theta) * (row.thetaJC ?? 0)
  return {
    ...limiterThreshold(need, ids, drive),
    Tj_top: row.Tj_max,
    theta,
    I_soa: soaCurrent(row, input.max, caseTemperature),
    I_b: drive / leastGain(limiterRow(need, ids.transistor), drive, 1, ambient.min),
  }
}

/** As a plain limiter, but the base of its transistor is at `fold`, a share of `sense`. */
export function fitFoldback(need: Need, ids: FoldbackIds, worked: Worked, demands: Demands): (Fitted | Refusal)[] {
  const v = worked.value
  const { input } = need.requirements
  if (!(v('R_sc_min') > 0 && v('fold') > 0))
    return [
      refuse(
        'limits.survivesShort',
        v('I_fb'),
        v('I_sc'),
        'A',
        `At ${input.max} V the pass transistor bears ${v('I_sc').toPrecision(3)} A into a short; no divider folds ${v('I_fb').toPrecision(3)} A back as far as that. Lower the highest input or the load.`,
      ),
    ]
  const row = limiterRow(need, ids.transistor)
  const { upper, lower } = ids.fold
  const drop = v('I_lim') * v('R_sc')
  const volts = v('Vout_hi') + drop
  const ofDivider = (id: string): number => (volts / (v(upper) + v(lower))) ** 2 * v(id)
  return [
    fitTransistor(need, row, {
      id: ids.transistor,
      role: 'current limiter',
      nodes: ['base', 'fold', 'out'],
      cooling: BARE,
    }),
    fitResistor(
      need,
      {
        id: ids.resistor,
        role: 'current sense resistor',
        nodes: ['sense', 'out'],
        ohms: v('R_sc'),
        power: v('Iout_max') ** 2 * v('R_sc'),
        voltage: v('Iout_max') * v('R_sc'),
        fault: { power: v('P_sc'), voltage: drop },
      },
      demands,
    ),
    fitResistor(
      need,
      {
        id: upper,
        role: 'foldback divider, upper',
        nodes: ['sense', 'fold'],
        ohms: v(upper),
        power: ofDivider(upper),
        voltage: volts,
      },
      demands,
    ),
    fitResistor(
      need,
      {
        id: lower,
        role: 'foldback divider, lower',
        nodes: ['fold', '0'],
        ohms: v(lower),
        power: ofDivider(lower),
        voltage: volts,
      },
      demands,
    ),
  ]
}
