/** Single-transistor error amplifier: its emitter sits on a reference diode, its base on the divider, its collector steals the pass transistor's drive. */
import { once } from '../../once.ts'
import type { DiodeRow } from '../../parts/reference-diode/index.ts'
import { type TransistorRow, findTransistor, vbeOf } from '../../parts/transistor/index.ts'
import { assemble } from '../assemble.ts'
import { OUTPUT_CAPACITOR, REQUIRED, STEP_GIVEN, STEP_TIME, dividerSteps, requiredGivens } from '../common.ts'
import { type Candidate, type Need, type Refusal, type Variant, isRefusal } from '../define.ts'
import { fitOutputCapacitor } from '../place/capacitor.ts'
import { DIODE_GIVENS, diodeGivens, diodeSpread, diodesNear, fitDiode } from '../place/diode.ts'
import { refuse } from '../place/fitted.ts'
import type { LimiterIds } from '../place/limiter.ts'
import { fitPass, passAgain } from '../place/pass.ts'
import { pinnedNumber } from '../place/pinned.ts'
import { DIVIDER_ASSUMPTION, fitDivider, fitResistor } from '../place/resistor.ts'
import { BARE, type PassChoice, fitTransistor, heatsinkPart, neverConducts } from '../place/transistor.ts'
import { defineWorking } from '../working.ts'
import { DIVIDER, LOOP, LOOP_GIVENS, PASS, loopGivens, loopGuess, loopPasses } from './loop.ts'
import {
  type Limiting,
  limitingGivens,
  limitingGivensOf,
  limitingSteps,
  suitsLimiting,
  worthTrying,
} from './limiting.ts'

/** Through the divider: some fifty times the amplifier's base current. Common practice, no source. */
const DIVIDER_CURRENT = 1e-3
/** What the amplifier transistor keeps at full load and lowest input, so that it still regulates. Common practice, no source. */
const LEAST_AMPLIFIER_CURRENT = 0.3e-3
/** At a VBE drift of -2 mV/K the drift cancels where the diode's is +2 mV/K, at about 6.2 V. */
const DRIFT_FREE = 6.2

const LIMITER: LimiterIds = { transistor: 'Q3', resistor: 'R5' }

export const SINGLE_LIMITING = {
  none: undefined,
  constant: LIMITER,
  foldback: { ...LIMITER, fold: { upper: 'R6', lower: 'R7' } },
} as const satisfies Record<string, Limiting>

export function singleTransistorVariant(name: string, title: string, limiting: Limiting): Variant {
  const sense = limiting ? ' - Iout_max * R_sc' : ''
  const working = defineWorking(
    `feedback, ${name}`,
    [
      ...REQUIRED,
      ...DIODE_GIVENS,
      {
        is: 'Vbe_amp',
        unit: 'V',
        quantity: 'Base-emitter voltage of the amplifier transistor',
        source: 'transistor model, 25 °C',
      },
      { is: 'I_amp_min', unit: 'A', quantity: 'Least amplifier current', source: 'common practice, no source' },
      ...LOOP_GIVENS,
      ...limitingGivensOf(limiting),
      STEP_GIVEN,
    ],
    [
      {
        is: 'V_cmp',
        unit: 'V',
        quantity: 'Voltage that the divider is held at',
        from: 'Vz + Vbe_amp',
        source:
          'R. L. Boylestad and L. Nashelsky, Electronic Devices and Circuit Theory, ch. 15 (Vo = (R1 + R2)/R2·(Vz + VBE))',
      },
      ...dividerSteps('V_cmp', DIVIDER),
      ...PASS,
      ...limitingSteps(limiting),
      {
        is: 'R3_max',
        unit: 'Ω',
        quantity: 'Largest collector resistor',
        from: `(Vin_min - Vout_hi - Vbe_max${sense}) / (IB_max + I_amp_min)`,
        source:
          'D. A. Bell, Electronic Devices and Circuits, series regulator design (R1 = (Vs - Vo - VBE)/(IC2 + IB1))',
        why: 'At the lowest input it must feed the base at full load and leave the amplifier its least current.',
      },
      {
        is: 'R3',
        unit: 'Ω',
        quantity: 'Collector resistor',
        pick: (scope, choose) => choose.preferred('R3', 'below', scope('R3_max') / (1 + scope('tol_R'))),
        says: 'preferred value at or below R3_max, tolerance counted',
        source: 'IEC 60063',
        why: 'Rounded down, so that the base stays fed.',
      },
      {
        is: 'I_amp_max',
        unit: 'A',
        quantity: 'Largest amplifier current',
        from: '(Vin_max - Vout_lo) / (R3 * (1 - tol_R))',
        source: "Ohm's law",
        why: 'Highest input, light load: all of it flows through the amplifier into the diode.',
      },
      {
        is: 'P_R3',
        unit: 'W',
        quantity: 'Collector resistor heat',
        from: '(Vin_max - Vout_lo) * I_amp_max',
        source: "Joule's law",
      },
      {
        is: 'R4_max',
        unit: 'Ω',
        quantity: 'Largest bias resistor of the diode',
        from: '(Vout_lo - Vz_hi) / Iz_min',
        source: 'D. A. Bell, Electronic Devices and Circuits, series regulator design (R2 = (Vo - Vz)/I)',
        why: 'Fed from the output, so that the input ripple stays out of the reference.',
      },
      {
        is: 'R4',
        unit: 'Ω',
        quantity: 'Bias resistor of the diode',
        pick: (scope, choose) => choose.preferred('R4', 'below', scope('R4_max') / (1 + scope('tol_R'))),
        says: 'preferred value at or below R4_max, tolerance counted',
        source: 'IEC 60063',
        why: 'Rounded down, so that the diode stays fed.',
      },
      {
        is: 'Iz_max',
        unit: 'A',
        quantity: 'Largest diode current',
        from: 'I_amp_max + (Vout_hi - Vz_lo) / (R4 * (1 - tol_R))',
        source: "Kirchhoff's current law",
      },
      {
        is: 'Pz_max',
        unit: 'W',
        quantity: 'Largest diode heat',
        from: 'Vz_hi * Iz_max',
        source: "Joule's law",
      },
      {
        is: 'efficiency',
        unit: '%',
        quantity: 'Efficiency at full load, by hand',
        from: 'Vout * Iout_max / (Vin_nom * (Iout_max + I_div + (Vin_nom - Vout - Vbe_max) / R3 + (Vout - Vz) / R4))',
        source: 'output power over input power, definition',
      },
      ...OUTPUT_CAPACITOR,
    ],
  )
  return {
    name,
    title,
    working,
    suits: (need) => suitsLimiting(need, limiting),
    candidates: (need) => candidates(need, name, limiting),
  }
}

function candidates(need: Need, name: string, limiting: Limiting): Candidate[] | Refusal {
  const { output } = need.requirements
  const lowest = output.voltage * (1 - output.tolerance)
  const amplifier = findTransistor(pinnedNumber(need, 'Q2') ?? 'BC547B')
  if (!amplifier) return refuse('Q2', 1, 0, '1', 'The transistor pinned as amplifier is not in the list.')
  const highest = lowest - 1.2
  const diodes = diodesNear(need, 'D1', highest / 2, 1)
    .filter((row) => row.vz.nominal >= 2.6 && row.vz.max <= highest)
    .toSorted(
      (a, b) =>
        Math.abs(a.vz.nominal - DRIFT_FREE) - Math.abs(b.vz.nominal - DRIFT_FREE) || a.test.current - b.test.current,
    )
  if (diodes.length === 0)
    return refuse(
      'output.voltage',
      4,
      output.voltage,
      'V',
      'No reference diode leaves room below this output for the amplifier transistor. Take an operational amplifier, or a higher output.',
    )
  const passes = loopPasses(need, limiting)
  if (isRefusal(passes)) return passes
  return worthTrying(
    limiting,
    passes.flatMap((pass) => {
      const ofPass = once(() => loopGivens(need, pass))
      return diodes.slice(0, 5).map((diode) => candidate(need, { name, limiting, amplifier, diode, pass, ofPass }))
    }),
  )
}

interface Chosen {
  readonly name: string
  readonly limiting: Limiting
  readonly amplifier: TransistorRow
  readonly diode: DiodeRow
  readonly pass: PassChoice
  readonly ofPass: () => ReturnType<typeof loopGivens>
}

function candidate(need: Need, chosen: Chosen): Candidate {
  const { requirements } = need
  const { input, output, load } = requirements
  const { amplifier, diode, pass, ofPass, limiting } = chosen
  return {
    label: `${diode.partNumber}, ${pass.row.partNumber}`,
    givens: () => ({
      ...requiredGivens(requirements),
      ...diodeGivens(need, diode, 1),
      Vbe_amp: vbeOf(amplifier, 1e-3, output.voltage / 2, 25),
      I_amp_min: LEAST_AMPLIFIER_CURRENT,
      ...ofPass(),
      I_div: DIVIDER_CURRENT,
      ...limitingGivens(need, limiting, pass, load.max / ofPass().beta_min + LEAST_AMPLIFIER_CURRENT),
      t_step: STEP_TIME,
    }),
    build(worked, demands) {
      if (!(ofPass().beta_min > 0)) return neverConducts(need, pass.row)
      const v = worked.value
      const cooled = passAgain(need, pass, limiting, demands)
      if (!(v('R3_max') > 1))
        return refuse(
          'input.min',
          v('Vout_hi') + v('Vbe_max') + 0.1,
          input.min,
          'V',
          `Output and base-emitter voltage may need ${(v('Vout_hi') + v('Vbe_max')).toFixed(2)} V: an input of ${input.min} V leaves nothing to drive the base. Raise the lowest input.`,
        )
      if (!(v('R4_max') > 1))
        return refuse(
          'output.voltage',
          v('Vz_hi') + 0.1,
          v('Vout_lo'),
          'V',
          'The lowest output does not reach the reference diode. Take an operational amplifier, or a higher output.',
        )
      return assemble(need, {
        ...LOOP,
        variant: chosen.name,
        worked,
        fitted: [
          fitTransistor(need, amplifier, {
            id: 'Q2',
            role: 'error amplifier',
            nodes: ['base', 'fb', 'ref'],
            cooling: BARE,
          }),
          fitDiode(need, diode, 'D1', 'reference diode', ['0', 'ref']),
          ...fitDivider(need, { ...DIVIDER, power: 2e-3, voltage: output.voltage }, worked, demands),
          fitResistor(
            need,
            {
              id: 'R3',
              role: 'collector resistor, feeds the base',
              nodes: ['in', 'base'],
              ohms: v('R3'),
              power: v('P_R3'),
              voltage: input.max - v('Vout_lo'),
              ...(limiting ? { fault: { power: input.max ** 2 / v('R3'), voltage: input.max } } : {}),
            },
            demands,
          ),
          fitResistor(
            need,
            {
              id: 'R4',
              role: 'bias resistor of the diode',
              nodes: ['out', 'ref'],
              ohms: v('R4'),
              power: (v('Vout_hi') - v('Vz_lo')) ** 2 / v('R4'),
              voltage: output.voltage,
            },
            demands,
          ),
          ...fitPass(need, cooled, limiting, worked, demands),
          fitOutputCapacitor(need, worked),
        ],
        mechanical: [heatsinkPart('HS1', cooled.cooling, 'Q1')],
        referenceSpread: diodeSpread(diode, diode.vz.nominal + 0.65),
        guess: loopGuess(need, worked, limiting, { ref: diode.vz.nominal, fb: v('V_cmp') }),
        assumptions: [DIVIDER_ASSUMPTION],
      })
    },
  }
}
