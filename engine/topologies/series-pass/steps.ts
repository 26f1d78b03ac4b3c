/** Steps that every series-pass variant shares. */
import { BASE_CURRENT, JUNCTION_GIVEN, LEAST_GAIN_GIVEN, coolingStep } from '../common.ts'
import type { Given, Step } from '../working.ts'

export const PASS_GIVENS: readonly Given[] = [
  { is: 'Vbe', unit: 'V', quantity: 'Base-emitter voltage at nominal load', source: 'transistor model, 25 °C' },
  LEAST_GAIN_GIVEN,
  { is: 'beta_max', unit: '1', quantity: 'Largest current gain', source: 'transistor model, highest gain, hottest' },
  JUNCTION_GIVEN,
]

/** The output of a bare follower. */
export const BARE_OUTPUT: readonly Step[] = [
  {
    is: 'Vout_nom',
    unit: 'V',
    quantity: 'Output, by hand',
    from: 'Vz - Vbe',
    source: 'R. L. Boylestad and L. Nashelsky, Electronic Devices and Circuit Theory, Example 15.8',
    why: 'Standard diode voltages rarely land on the wanted output: the offset is judged against the band.',
  },
]

/** The output behind a sense resistor, which sags with the load. */
export const SENSED_OUTPUT: readonly Step[] = [
  {
    is: 'Vout_nom',
    unit: 'V',
    quantity: 'Output, by hand',
    from: 'Vz - Vbe - Iout_nom * R_sc',
    source:
      'R. L. Boylestad and L. Nashelsky, Electronic Devices and Circuit Theory, Example 15.8, less the drop of the sense resistor',
    why: 'The sense resistor lies outside any loop: its whole drop is load regulation.',
  },
]

/** The follower: base current, feed resistor, heat, cooling. */
export const FOLLOWER: readonly Step[] = [
  BASE_CURRENT,
  {
    is: 'Rs_max',
    unit: 'Ω',
    quantity: 'Largest feed resistor',
    from: '(Vin_min - Vz_hi) / (IB_max + Iz_min)',
    source: 'R. S. Sedha, A Textbook of Applied Electronics, Example 20.17',
    why: 'At the lowest input it must feed the base at full load and keep the diode at its least current.',
  },
  {
    is: 'Rs_lim',
    unit: 'Ω',
    quantity: 'Largest feed resistor, its tolerance counted',
    from: 'Rs_max / (1 + tol_R)',
    source: 'common practice, no source',
  },
  {
    is: 'Rs',
    unit: 'Ω',
    quantity: 'Feed resistor',
    pick: (scope, choose) => choose.preferred('R1', 'below', scope('Rs_lim')),
    says: 'preferred value at or below Rs_lim',
    source: 'IEC 60063',
    why: 'Rounded down, so that base and diode stay fed.',
  },
  {
    is: 'Rs_lo',
    unit: 'Ω',
    quantity: 'Feed resistor at its lowest',
    from: 'Rs * (1 - tol_R)',
    source: 'common practice, no source',
  },
  {
    is: 'Iz_max',
    unit: 'A',
    quantity: 'Largest diode current',
    from: '(Vin_max - Vz_lo) / Rs_lo',
    source: 'R. S. Sedha, A Textbook of Applied Electronics, Example 20.17',
    why: 'Highest input, no load: the base takes nothing.',
  },
  {
    is: 'Pz_max',
    unit: 'W',
    quantity: 'Largest diode heat',
    from: 'max(Vz_lo * Iz_max, Vz_hi * (Vin_max - Vz_hi) / Rs_lo)',
    source: 'R. S. Sedha, A Textbook of Applied Electronics, Example 20.17',
  },
  {
    is: 'P_Rs',
    unit: 'W',
    quantity: 'Feed resistor heat',
    from: '(Vin_max - Vz_lo) * Iz_max',
    source: 'R. S. Sedha, A Textbook of Applied Electronics, Example 20.17',
  },
  {
    is: 'P_pass',
    unit: 'W',
    quantity: 'Pass transistor heat',
    from: '(Vin_max - Vout_lo) * Iout_max',
    source: 'S. Franco, Design with Operational Amplifiers, ch. 11 (P = (VI - VO)·IO)',
  },
  coolingStep('P_pass'),
  {
    is: 'efficiency',
    unit: '%',
    quantity: 'Efficiency at full load, by hand',
    from: 'Vout * Iout_max / (Vin_nom * (Iout_max + (Vin_nom - Vz) / Rs))',
    source: 'output power over input power, definition',
  },
  {
    is: 'P_Rs_short',
    unit: 'W',
    quantity: 'Feed resistor heat, output shorted',
    from: 'Vin_max^2 / Rs_lo',
    source: "Joule's law, upper bound",
  },
]

/** What a shorted output draws without a limiter: the base drive times the gain. */
export const UNLIMITED_SHORT: readonly Step[] = [
  {
    is: 'I_short',
    unit: 'A',
    quantity: 'Short-circuit current, by hand',
    from: '(beta_max + 1) * (Vin_max - Vbe) / Rs_lo',
    source: 'emitter follower, IE = (beta + 1)·IB',
    why: 'Far above any rating: the transistor dies unless a limiter is added.',
  },
]
