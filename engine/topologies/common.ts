/** Givens and steps that more than one topology's working starts from. */
import type { Requirements } from '../requirements/study.ts'
import type { DividerIds } from './place/resistor.ts'
import type { Given, Step } from './working.ts'

const asked = (is: string, unit: string, quantity: string): Given => ({ is, unit, quantity, source: 'requirement' })

/** The requirements as symbols. */
export const REQUIRED: readonly Given[] = [
  asked('Vin_min', 'V', 'Lowest input'),
  asked('Vin_nom', 'V', 'Nominal input'),
  asked('Vin_max', 'V', 'Highest input'),
  asked('Vout', 'V', 'Output wanted'),
  asked('Vout_lo', 'V', 'Lowest output allowed'),
  asked('Vout_hi', 'V', 'Highest output allowed'),
  asked('Iout_min', 'A', 'Least load current that the parts must bear'),
  asked('Iout_nom', 'A', 'Nominal load current'),
  asked('Iout_max', 'A', 'Full load current'),
  asked('Ta_max', '°C', 'Hottest ambient'),
  { is: 'tol_R', unit: '1', quantity: 'Resistor tolerance', source: 'requirement' },
]

export function requiredGivens({ input, output, load, ambient, parts }: Requirements): Record<string, number> {
  return {
    Vin_min: input.min,
    Vin_nom: input.nominal,
    Vin_max: input.max,
    Vout: output.voltage,
    Vout_lo: output.voltage * (1 - output.tolerance),
    Vout_hi: output.voltage * (1 + output.tolerance),
    // A load that may be unplugged draws nothing at its worst for the parts that bear the current instead.
    Iout_min: load.permanent ? load.min : 0,
    Iout_nom: load.nominal,
    Iout_max: load.max,
    Ta_max: ambient.max,
    tol_R: parts.resistorTolerance,
  }
}

/** How long the output capacitor alone feeds a load step, and how far the output may fall meanwhile. Common practice, no source. */
export const STEP_TIME = 20e-6
const OUTPUT_CAPACITOR_LEAST = 10e-6

/** The output capacitor holds the output within half the band for a step of the full load. */
export const OUTPUT_CAPACITOR: readonly Step[] = [
  {
    is: 'C_out_min',
    unit: 'F',
    quantity: 'Output capacitor for a step of the full load',
    from: 'Iout_max * t_step / (0.5 * (Vout - Vout_lo))',
    source: 'ΔV = I·t / C, general relation, from memory; half the band and the time are common practice, no source',
  },
  {
    is: 'C_out',
    unit: 'F',
    quantity: 'Output capacitor',
    pick: (scope) => Math.max(scope('C_out_min'), OUTPUT_CAPACITOR_LEAST),
    says: 'C_out_min, not below 10 µF',
    source: 'common practice, no source',
    why: 'Bridges load steps until the regulator answers.',
    part: 'C1',
  },
]

export const STEP_GIVEN: Given = {
  is: 't_step',
  unit: 's',
  quantity: 'Time that the output capacitor bridges',
  source: 'common practice, no source',
}

export const LEAST_GAIN_GIVEN: Given = {
  is: 'beta_min',
  unit: '1',
  quantity: 'Least current gain at full load',
  source: 'transistor model, lowest gain, coldest',
}

export const JUNCTION_GIVEN: Given = {
  is: 'Tj_lim',
  unit: '°C',
  quantity: 'Allowed junction temperature',
  source: 'data sheet and derating policy',
}

/** What the base of a pass transistor takes. */
export const BASE_CURRENT: Step = {
  is: 'IB_max',
  unit: 'A',
  quantity: 'Largest base current',
  from: 'Iout_max / (beta_min + 1)',
  source: 'emitter follower, IE = (beta + 1)·IB',
}

/** The cooling that `heat` (a symbol) asks for. */
export const coolingStep = (heat: string): Step => ({
  is: 'theta_max',
  unit: 'K/W',
  quantity: 'Largest thermal resistance, junction to ambient',
  from: `(Tj_lim - Ta_max) / ${heat}`,
  source: 'A. S. Sedra and K. C. Smith, Microelectronic Circuits, Example 14.4',
})

/** The divider that compares `reference` (a symbol) with the output. */
export const dividerSteps = (reference: string, { upper, lower }: DividerIds): readonly Step[] => [
  {
    is: 'ratio',
    unit: '1',
    quantity: 'Divider ratio, upper over lower',
    from: `Vout / ${reference} - 1`,
    source: 'A. P. Malvino and D. J. Bates, Electronic Principles (Vout = Vref·(R1 + R2)/R2)',
  },
  {
    is: 'R_lower_aim',
    unit: 'Ω',
    quantity: 'Lower divider resistor aimed at',
    from: `${reference} / I_div`,
    source: "Ohm's law",
  },
  {
    is: upper,
    unit: 'Ω',
    quantity: 'Upper divider resistor',
    pick: (scope, choose) => choose.divider(upper, lower, scope('ratio'), scope('R_lower_aim')).upper,
    says: 'pair of preferred values closest to the ratio',
    source: 'IEC 60063',
    why: 'The pair whose ratio comes closest, the lower one within an octave of R_lower_aim.',
  },
  {
    is: lower,
    unit: 'Ω',
    quantity: 'Lower divider resistor',
    pick: (scope, choose) => choose.divider(upper, lower, scope('ratio'), scope('R_lower_aim')).lower,
    says: 'pair of preferred values closest to the ratio',
    source: 'IEC 60063',
    why: 'The pair whose ratio comes closest, the lower one within an octave of R_lower_aim.',
  },
  {
    is: 'Vout_nom',
    unit: 'V',
    quantity: 'Output, by hand',
    from: `${reference} * (1 + ${upper} / ${lower})`,
    source: 'T. L. Floyd, Electronic Devices, Example 17-3',
  },
]
