/** Diode and transistor: the transistor takes the shunt current, the diode only its base current. */
import { once } from '../../once.ts'
import { allowedJunction } from '../../parts/derating/index.ts'
import type { DiodeRow } from '../../parts/reference-diode/index.ts'
import { VBE_SPREAD, leastGain, vbeOf } from '../../parts/transistor/index.ts'
import { assemble } from '../assemble.ts'
import {
  JUNCTION_GIVEN,
  OUTPUT_CAPACITOR,
  REQUIRED,
  STEP_GIVEN,
  STEP_TIME,
  coolingStep,
  requiredGivens,
} from '../common.ts'
import type { Candidate, Need, Refusal, Variant } from '../define.ts'
import { fitOutputCapacitor } from '../place/capacitor.ts'
import { DIODE_GIVENS, diodeGivens, diodeMiss, diodeSpread, diodesNear, fitDiode } from '../place/diode.ts'
import { refuse } from '../place/fitted.ts'
import { fitResistor } from '../place/resistor.ts'
import { type PassChoice, fitTransistor, heatsinkPart, passTransistors, recooled } from '../place/transistor.ts'
import { defineWorking } from '../working.ts'
import { RS_LOWEST, RS_SHORTED, fitSeriesResistor } from './steps.ts'

const REACH = 0.05
/** The transistor keeps at least this much current, so that it regulates (common practice, no source). */
const LEAST_SHUNT_CURRENT = 2e-3

const working = defineWorking(
  'shunt, transistor-boosted',
  [
    ...REQUIRED,
    ...DIODE_GIVENS,
    {
      is: 'Vbe',
      unit: 'V',
      quantity: 'Base-emitter voltage of the shunt transistor',
      source: 'transistor model, 25 °C',
    },
    { is: 'Vbe_hi', unit: 'V', quantity: 'Largest base-emitter voltage', source: 'transistor model, coldest, +30 mV' },
    {
      is: 'beta_min',
      unit: '1',
      quantity: 'Least current gain of the shunt transistor',
      source: 'transistor model, lowest gain, coldest',
    },
    JUNCTION_GIVEN,
    { is: 'Ish_min', unit: 'A', quantity: 'Least shunt current', source: 'common practice, no source' },
    STEP_GIVEN,
  ],
  [
    {
      is: 'Vout_nom',
      unit: 'V',
      quantity: 'Output, by hand',
      from: 'Vz + Vbe',
      source: "Kirchhoff's voltage law: diode and base-emitter junction in series across the load",
    },
    {
      is: 'R_BE_max',
      unit: 'Ω',
      quantity: 'Largest base-emitter resistor',
      from: 'Vbe / Iz_min',
      source: "Ohm's law",
      why: 'Keeps the diode at its least current when the transistor takes no base current.',
    },
    {
      is: 'R_BE',
      unit: 'Ω',
      quantity: 'Base-emitter resistor',
      pick: (scope, choose) => choose.preferred('R2', 'below', scope('R_BE_max')),
      says: 'preferred value at or below R_BE_max',
      source: 'IEC 60063',
      why: 'Rounded down, so that the diode stays fed.',
    },
    {
      is: 'Rs_max',
      unit: 'Ω',
      quantity: 'Largest series resistor',
      from: '(Vin_min - Vz_hi - Vbe_hi) / (Iout_max + Vbe_hi / R_BE + Ish_min)',
      source: 'P. Raja, Electronics Engineering, Example 3.13, the shunt element being diode and transistor',
      why: 'At the lowest input and full load the shunt element must keep its least current.',
    },
    {
      is: 'Rs',
      unit: 'Ω',
      quantity: 'Series resistor',
      pick: (scope, choose) => choose.preferred('R1', 'below', scope('Rs_max') / (1 + scope('tol_R'))),
      says: 'preferred value at or below Rs_max, tolerance counted',
      source: 'IEC 60063',
      why: 'Rounded down, so that the shunt element stays fed.',
    },
    RS_LOWEST,
    {
      is: 'Ish_max',
      unit: 'A',
      quantity: 'Largest shunt current',
      from: '(Vin_max - Vz_lo - Vbe) / Rs_lo - Iout_min',
      source: 'V. K. Mehta and R. Mehta, Principles of Electronics, Examples 17.8 to 17.11 (Iz = Is - IL)',
    },
    {
      is: 'P_shunt',
      unit: 'W',
      quantity: 'Shunt transistor heat',
      from: '(Vz_hi + Vbe) * Ish_max',
      source: 'S. L. Kakani and K. C. Bhandari, Electronic Devices and Circuits, Example 4.13',
    },
    coolingStep('P_shunt'),
    {
      is: 'Iz_max',
      unit: 'A',
      quantity: 'Largest diode current',
      from: 'Ish_max / (beta_min + 1) + Vbe_hi / R_BE',
      source: 'base current of the transistor and current of the base-emitter resistor',
    },
    {
      is: 'Pz_max',
      unit: 'W',
      quantity: 'Largest diode heat',
      from: 'Vz_hi * Iz_max',
      source: "Joule's law",
    },
    {
      is: 'P_Rs',
      unit: 'W',
      quantity: 'Series resistor heat',
      from: '(Vin_max - Vz_lo - Vbe)^2 / Rs_lo',
      source: "Joule's law",
    },
    RS_SHORTED,
    {
      is: 'efficiency',
      unit: '%',
      quantity: 'Efficiency at full load, by hand',
      from: 'Vout * Iout_max / (Vin_nom * (Vin_nom - Vz - Vbe) / Rs)',
      source: 'output power over input power, definition',
    },
    ...OUTPUT_CAPACITOR,
  ],
)

function candidates(need: Need): Candidate[] | Refusal {
  const { input, output, load, ambient } = need.requirements
  const drop = input.min - output.voltage * 1.03
  if (drop <= 0)
    return refuse(
      'input.min',
      output.voltage * 1.03,
      input.min,
      'V',
      'The lowest input leaves nothing to drive the load through a resistor. Raise it.',
    )
  const current = ((input.max - output.voltage) * (load.max + 2 * LEAST_SHUNT_CURRENT) * 1.08) / drop
  const passes = passTransistors(
    need,
    'Q1',
    { power: output.voltage * 1.05 * current, voltage: output.voltage * 1.1, current },
    false,
  )
  if (passes.length === 0) return refuse('parts.mounting', 1, 0, '1', 'The list holds no transistor of this kind.')
  return passes.slice(0, 1).flatMap((pass) => {
    const Vbe = vbeOf(pass.row, Math.max(current / 2, LEAST_SHUNT_CURRENT), output.voltage, 25)
    const at = once(() => ({
      Vbe,
      Vbe_hi: vbeOf(pass.row, current, output.voltage, ambient.min) + VBE_SPREAD,
      beta_min: leastGain(pass.row, current, output.voltage, ambient.min),
    }))
    const wanted = output.voltage - Vbe
    return diodesNear(need, 'D1', wanted, output.tolerance + REACH)
      .toSorted((a, b) => diodeMiss(a, wanted) - diodeMiss(b, wanted))
      .slice(0, 5)
      .map((row) => candidate(need, pass, row, at))
  })
}

function candidate(
  need: Need,
  pass: PassChoice,
  row: DiodeRow,
  at: () => { Vbe: number; Vbe_hi: number; beta_min: number },
): Candidate {
  const { requirements, policy } = need
  const { input, output } = requirements
  return {
    label: `${pass.row.partNumber} with ${row.partNumber}`,
    givens: () => ({
      ...requiredGivens(requirements),
      ...diodeGivens(need, row, 1),
      ...at(),
      Tj_lim: allowedJunction(pass.row.Tj_max, policy, 'transistor', requirements.ambient.max),
      Ish_min: LEAST_SHUNT_CURRENT,
      t_step: STEP_TIME,
    }),
    build(worked, demands) {
      const v = worked.value
      const { Vbe, Vbe_hi } = at()
      const { cooling } = recooled(need, pass, demands['Q1'])
      if (!(v('Rs_max') > 0.1))
        return refuse(
          'input.min',
          v('Vz_hi') + v('Vbe_hi'),
          input.min,
          'V',
          `Diode and transistor may hold ${(v('Vz_hi') + v('Vbe_hi')).toFixed(2)} V: an input of ${input.min} V leaves nothing to drive the load. Raise the lowest input.`,
        )
      return assemble(need, {
        topology: 'shunt',
        variant: 'transistor-boosted',
        worked,
        fitted: [
          fitSeriesResistor(need, worked, v('Vz_lo'), demands),
          fitDiode(need, row, 'D1', 'reference diode', ['base', 'out']),
          fitTransistor(need, pass.row, {
            id: 'Q1',
            role: 'shunt transistor',
            nodes: ['out', 'base', '0'],
            cooling,
          }),
          fitResistor(
            need,
            {
              id: 'R2',
              role: 'base-emitter resistor',
              nodes: ['base', '0'],
              ohms: v('R_BE'),
              power: Vbe_hi ** 2 / v('R_BE'),
              voltage: Vbe_hi,
            },
            demands,
          ),
          fitOutputCapacitor(need, worked),
        ],
        mechanical: [heatsinkPart('HS1', cooling, 'Q1')],
        referenceSpread: diodeSpread(row, output.voltage),
        guess: { out: row.vz.nominal + Vbe, base: Vbe },
        assumptions: [],
        cautions: [
          'If the diode or the transistor opens, the whole input reaches the load through the series resistor.',
        ],
        notEvaluated: ['loopStability'],
      })
    },
  }
}

export const boosted: Variant = {
  name: 'transistor-boosted',
  title: 'a resistor, a reference diode and a shunt transistor',
  working,
  suits: () => true,
  candidates,
}
