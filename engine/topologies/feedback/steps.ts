/** Steps that the feedback variants share. */
import type { Given, Step } from '../working.ts'

export const LOOP_GIVENS: readonly Given[] = [
  {
    is: 'Vbe_max',
    unit: 'V',
    quantity: 'Largest base-emitter voltage of the pass transistor',
    source: 'transistor model, full load, coldest, +30 mV',
  },
  {
    is: 'beta_min',
    unit: '1',
    quantity: 'Least current gain at full load',
    source: 'transistor model, lowest gain, coldest',
  },
  { is: 'Tj_lim', unit: '°C', quantity: 'Allowed junction temperature', source: 'data sheet and derating policy' },
  { is: 'I_div', unit: 'A', quantity: 'Divider current', source: 'common practice, no source' },
]

/** Heat and cooling of the pass transistor, and what the base takes. */
export const PASS: readonly Step[] = [
  {
    is: 'IB_max',
    unit: 'A',
    quantity: 'Largest base current',
    from: 'Iout_max / (beta_min + 1)',
    source: 'emitter follower, IE = (beta + 1)·IB',
  },
  {
    is: 'P_pass',
    unit: 'W',
    quantity: 'Pass transistor heat',
    from: '(Vin_max - Vout) * Iout_max',
    source: 'J. M. Fiore, Op Amps and Linear Integrated Circuits, ch. 8 (PD = IL·(Vin - VL))',
  },
  {
    is: 'theta_max',
    unit: 'K/W',
    quantity: 'Largest thermal resistance, junction to ambient',
    from: '(Tj_lim - Ta_max) / P_pass',
    source: 'A. S. Sedra and K. C. Smith, Microelectronic Circuits, Example 14.4',
  },
]
