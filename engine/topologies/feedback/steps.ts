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

/** The divider that compares `reference` (a symbol) with the output. */
export const dividerSteps = (reference: string): readonly Step[] => [
  {
    is: 'ratio',
    unit: '1',
    quantity: 'Divider ratio R1/R2',
    from: `Vout / ${reference} - 1`,
    source: 'A. P. Malvino and D. J. Bates, Electronic Principles (Vout = Vref·(R1 + R2)/R2)',
  },
  {
    is: 'R2_aim',
    unit: 'Ω',
    quantity: 'Lower divider resistor aimed at',
    from: `${reference} / I_div`,
    source: "Ohm's law",
  },
  {
    is: 'R1',
    unit: 'Ω',
    quantity: 'Upper divider resistor',
    pick: (scope, choose) => choose.divider(scope('ratio'), scope('R2_aim')).R1,
    says: 'pair of preferred values closest to the ratio',
    source: 'IEC 60063',
    why: 'The pair whose ratio comes closest, the lower one within an octave of R2_aim.',
  },
  {
    is: 'R2',
    unit: 'Ω',
    quantity: 'Lower divider resistor',
    pick: (scope, choose) => choose.divider(scope('ratio'), scope('R2_aim')).R2,
    says: 'pair of preferred values closest to the ratio',
    source: 'IEC 60063',
    why: 'The pair whose ratio comes closest, the lower one within an octave of R2_aim.',
  },
  {
    is: 'Vout_nom',
    unit: 'V',
    quantity: 'Output, by hand',
    from: `${reference} * (1 + R1 / R2)`,
    source: 'T. L. Floyd, Electronic Devices, Example 17-3',
  },
]
