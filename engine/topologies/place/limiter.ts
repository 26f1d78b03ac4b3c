/** The current limiter: a sense resistor in the emitter lead and a transistor that steals the pass transistor's base drive. */
import { type TransistorRow, VBE_SPREAD, findTransistor, vbeAt } from '../../parts/transistor/index.ts'
import type { Demands, Need, Refusal } from '../define.ts'
import type { Given, Step, Worked } from '../working.ts'
import type { Fitted } from './fitted.ts'
import { pinnedNumber } from './pinned.ts'
import { fitResistor } from './resistor.ts'
import { BARE, fitTransistor } from './transistor.ts'

/** Part ids of the transistor that limits and of its sense resistor. */
export interface LimiterIds {
  readonly transistor: string
  readonly resistor: string
}

/** The small transistor that limits: it carries base drive only. */
export function limiterRow(need: Need, id: string): TransistorRow {
  const row = findTransistor(pinnedNumber(need, id) ?? 'BC337-25')
  if (!row) throw new Error('place/limiter: the limiting transistor is not in the list')
  return row
}

/**
 * Threshold of the limiter: least where it must not bite yet (hot, low sample, a twentieth of the drive), most where it
 * holds the short (cold, high sample, all of the drive). Volts; `drive` in amperes.
 */
export function limiterThreshold(need: Need, ids: LimiterIds, drive: number): { V_on: number; V_full: number } {
  const { ambient } = need.requirements
  const row = limiterRow(need, ids.transistor)
  return {
    V_on: vbeAt(row.model, drive / 20, 1, ambient.max) - VBE_SPREAD,
    V_full: vbeAt(row.model, drive, 1, ambient.min) + VBE_SPREAD,
  }
}

/** The limiting transistor, then its sense resistor from node `sense` to `out`; it steals from node `base`. */
export function fitLimiter(need: Need, ids: LimiterIds, worked: Worked, demands: Demands): (Fitted | Refusal)[] {
  const row = limiterRow(need, ids.transistor)
  return [
    fitTransistor(need, row, {
      id: ids.transistor,
      role: 'current limiter',
      nodes: ['base', 'sense', 'out'],
      cooling: BARE,
    }),
    fitResistor(
      need,
      {
        id: ids.resistor,
        role: 'current sense resistor',
        nodes: ['sense', 'out'],
        ohms: worked.value('R_sc'),
        power: 0,
        voltage: 0,
        fault: { power: worked.value('P_sc'), voltage: worked.value('V_full') },
      },
      demands,
    ),
  ]
}

/** A sense resistor in the emitter lead and a transistor that steals the base drive. */
export const LIMITER_GIVENS: readonly Given[] = [
  {
    is: 'V_on',
    unit: 'V',
    quantity: 'Limiter threshold, least and hottest',
    source: 'transistor model, hottest, -30 mV',
  },
  {
    is: 'V_full',
    unit: 'V',
    quantity: 'Limiter threshold, most and coldest',
    source: 'transistor model, coldest, +30 mV',
  },
]

export const limiterSteps = (sense: string): readonly Step[] => [
  {
    is: 'R_sc_max',
    unit: 'Ω',
    quantity: 'Largest sense resistor',
    from: 'V_on / (Iout_max * (1 + tol_R))',
    source: 'A. P. Malvino and D. J. Bates, Electronic Principles (current limiting, I = VBE / Rsc)',
    why: 'The limiter must not bite at full load, hot.',
  },
  {
    is: 'R_sc',
    unit: 'Ω',
    quantity: 'Sense resistor',
    pick: (scope, choose) => choose.preferred(sense, 'below', scope('R_sc_max')),
    says: 'preferred value at or below R_sc_max',
    source: 'IEC 60063',
    why: 'Rounded down, so that full load stays available.',
  },
  {
    is: 'I_lim',
    unit: 'A',
    quantity: 'Largest limited current',
    from: 'V_full / (R_sc * (1 - tol_R))',
    source: 'A. P. Malvino and D. J. Bates, Electronic Principles (current limiting, I = VBE / Rsc)',
  },
  {
    is: 'P_lim',
    unit: 'W',
    quantity: 'Pass transistor heat, output shorted',
    from: 'Vin_max * I_lim',
    source: 'S. Franco, Design with Operational Amplifiers, ch. 11 (P = (VI - VO)·IO at VO = 0)',
  },
  {
    is: 'P_sc',
    unit: 'W',
    quantity: 'Sense resistor heat, output shorted',
    from: 'I_lim * V_full',
    source: "Joule's law",
  },
]
