/** Operational amplifier, shunt reference fed from the input, pass transistor. */
import { once } from '../../once.ts'
import { AMPLIFIERS, type AmplifierRow, amplifiersFor, findAmplifier } from '../../parts/op-amp/index.ts'
import { type ReferenceRow, findReference, referencesFor } from '../../parts/shunt-reference/index.ts'
import { assemble } from '../assemble.ts'
import { OUTPUT_CAPACITOR, REQUIRED, STEP_GIVEN, STEP_TIME, dividerSteps, requiredGivens } from '../common.ts'
import { type Candidate, type Need, type Refusal, type Variant, isRefusal } from '../define.ts'
import { fitAmplifier } from '../place/amplifier.ts'
import { fitCapacitor, fitOutputCapacitor } from '../place/capacitor.ts'
import { refuse } from '../place/fitted.ts'
import type { LimiterIds } from '../place/limiter.ts'
import { fitPass, passAgain } from '../place/pass.ts'
import { pinnedRows } from '../place/pinned.ts'
import { ambientReach, fitReference, referenceSpread } from '../place/reference.ts'
import { DIVIDER_ASSUMPTION, fitDivider, fitResistor } from '../place/resistor.ts'
import { type PassChoice, heatsinkPart, neverConducts } from '../place/transistor.ts'
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

/** Through the divider: enough to swamp the amplifier's input current and the pass transistor's leakage. Common practice, no source. */
const DIVIDER_CURRENT = 250e-6
/** The reference is fed half as much again as it must have at least. Common practice, no source. */
const REFERENCE_SURPLUS = 1.5

/** Amplifiers tried, the commonest and cheapest first. */
const AMPLIFIERS_TRIED = 2

/** Volts of the lowest references in the list; the amplifier's inputs must work there. */
const LOWEST_REFERENCE = 2.4

/** Volts below its supply that the worst amplifier's output may stay at its rated drive. */
const swingNeeded = (row: AmplifierRow): number => (row.swingHigh.points.at(-1)?.drop ?? 0) + row.swingHigh.worst

const LIMITER: LimiterIds = { transistor: 'Q2', resistor: 'R4' }

export const OP_AMP_LIMITING = {
  none: undefined,
  constant: LIMITER,
  foldback: { ...LIMITER, fold: { upper: 'R5', lower: 'R6' } },
} as const satisfies Record<string, Limiting>

export function opAmpVariant(name: string, title: string, limiting: Limiting): Variant {
  const working = defineWorking(
    `feedback, ${name}`,
    [
      ...REQUIRED,
      { is: 'Vref', unit: 'V', quantity: 'Reference voltage', source: 'data sheet' },
      { is: 'Vref_lo', unit: 'V', quantity: 'Lowest reference voltage', source: 'data sheet' },
      { is: 'Vref_hi', unit: 'V', quantity: 'Highest reference voltage', source: 'data sheet' },
      {
        is: 'Ik_min',
        unit: 'A',
        quantity: 'Least reference current, with half as much again',
        source: 'data sheet; the surplus is common practice, no source',
      },
      { is: 'V_swing', unit: 'V', quantity: 'Amplifier output below its supply', source: 'data sheet' },
      { is: 'r_o', unit: 'Ω', quantity: 'Amplifier output resistance', source: 'data sheet' },
      ...LOOP_GIVENS,
      ...limitingGivensOf(limiting),
      STEP_GIVEN,
    ],
    [
      ...dividerSteps('Vref', DIVIDER),
      ...PASS,
      ...limitingSteps(limiting),
      {
        is: 'R3_max',
        unit: 'Ω',
        quantity: 'Largest reference feed resistor',
        from: '(Vin_min - Vref_hi) / Ik_min',
        source: 'J. M. Fiore, Op Amps and Linear Integrated Circuits, ch. 8 (Iz = (V - Vz)/R)',
        why: 'Fed from the input, so that the reference stands before the output does: the loop always starts.',
      },
      {
        is: 'R3',
        unit: 'Ω',
        quantity: 'Reference feed resistor',
        pick: (scope, choose) => choose.preferred('R3', 'below', scope('R3_max') / (1 + scope('tol_R'))),
        says: 'preferred value at or below R3_max, tolerance counted',
        source: 'IEC 60063',
        why: 'Rounded down, so that the reference stays fed.',
      },
      {
        is: 'Ik_max',
        unit: 'A',
        quantity: 'Largest reference current',
        from: '(Vin_max - Vref_lo) / (R3 * (1 - tol_R))',
        source: 'J. M. Fiore, Op Amps and Linear Integrated Circuits, ch. 8 (Iz = (V - Vz)/R)',
      },
      {
        is: 'P_R3',
        unit: 'W',
        quantity: 'Reference feed resistor heat',
        from: '(Vin_max - Vref_lo) * Ik_max',
        source: "Joule's law",
      },
      {
        is: 'Vin_need',
        unit: 'V',
        quantity: 'Input needed at full load, cold, by hand',
        from: `Vout + Vbe_max + V_swing${limiting ? ' + Iout_max * R_sc' : ''}`,
        source: "Kirchhoff's voltage law along the drive path",
      },
      {
        is: 'efficiency',
        unit: '%',
        quantity: 'Efficiency at full load, by hand',
        from: 'Vout * Iout_max / (Vin_nom * (Iout_max + I_div + (Vin_nom - Vref) / R3))',
        source: 'J. M. Fiore, Op Amps and Linear Integrated Circuits, ch. 8 (output power over input power)',
      },
      ...OUTPUT_CAPACITOR,
      {
        is: 'C_load',
        unit: 'F',
        quantity: 'Capacitance that the amplifier drives',
        from: 'C_out / (beta_min + 1)',
        source: 'output capacitor seen through the follower; own approximation, no source',
      },
      {
        is: 'C_comp',
        unit: 'F',
        quantity: 'Compensation capacitor',
        from: '(1 + R2 / R1)^2 * (r_o / R1) * C_load',
        source: 'S. Franco, Design with Operational Amplifiers, Example 8.5 (Cf = (1 + R1/R2)²·(ro/R2)·CL)',
        why: 'A published rule of thumb: the stability of the loop was not evaluated.',
      },
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
  const { input, output, ambient } = need.requirements
  const amplifiers =
    pinnedRows(need, 'U1', findAmplifier) ??
    amplifiersFor({
      supplyMin: input.min,
      supplyMax: input.max / need.policy.opAmpSupply,
      inputs: LOWEST_REFERENCE,
      mounting: need.requirements.parts.mounting,
      ambient,
    }).slice(0, AMPLIFIERS_TRIED)
  const amplifier = amplifiers[0]
  if (!amplifier) {
    const highest = Math.max(...AMPLIFIERS.map((row) => row.supply.max * need.policy.opAmpSupply))
    return refuse(
      'U1.supply',
      highest,
      input.max,
      'V',
      `No operational amplifier in the list works from ${input.min} to ${input.max} V and from ${ambient.min} to ${ambient.max} °C; derated, the highest supply in the list is ${highest.toFixed(1)} V.`,
    )
  }
  const references = referenceRows(need, amplifier)
  if (references.length === 0)
    return refuse(
      'output.voltage',
      2.6,
      output.voltage,
      'V',
      'No reference in the list lies below this output with enough input left for the amplifier. Raise the lowest input or the output.',
    )
  const passes = loopPasses(need, limiting)
  if (isRefusal(passes)) return passes
  return worthTrying(
    limiting,
    passes.flatMap((pass) => {
      const ofPass = once(() => loopGivens(need, pass))
      return references.flatMap((reference) =>
        amplifiers.map((each) => candidate(need, { name, limiting, amplifier: each, reference, pass, ofPass })),
      )
    }),
  )
}

/** Loosest grade that may do first: it is the cheapest; then the tighter ones. */
function referenceRows(need: Need, amplifier: AmplifierRow): ReferenceRow[] {
  const { input, output, parts, ambient } = need.requirements
  const pinned = pinnedRows(need, 'U2', findReference)
  if (pinned) return pinned
  const highest = Math.min(output.voltage * 0.95, input.min - amplifier.inputRange.high - 0.2)
  return referencesFor({ vMin: LOWEST_REFERENCE, vMax: highest, mounting: parts.mounting, ambient })
    .filter((row) => row.vref.nominal <= highest)
    .toSorted((a, b) => referenceSpread(need, b) - referenceSpread(need, a))
    .filter((row) => referenceSpread(need, row) < output.tolerance)
    .slice(-2)
}

interface Chosen {
  readonly name: string
  readonly limiting: Limiting
  readonly amplifier: AmplifierRow
  readonly reference: ReferenceRow
  readonly pass: PassChoice
  readonly ofPass: () => ReturnType<typeof loopGivens>
}

function candidate(need: Need, chosen: Chosen): Candidate {
  const { requirements } = need
  const { input, output } = requirements
  const { amplifier, reference, pass, ofPass, limiting } = chosen
  const drift = reference.tempco.max * reference.vref.nominal * ambientReach(need)
  return {
    label: `${amplifier.partNumber}, ${reference.partNumber}, ${pass.row.partNumber}`,
    givens: () => ({
      ...requiredGivens(requirements),
      Vref: reference.vref.nominal,
      Vref_lo: reference.vref.min - drift,
      Vref_hi: reference.vref.max + drift,
      Ik_min: reference.cathodeCurrentMin.max * REFERENCE_SURPLUS,
      V_swing: swingNeeded(amplifier),
      r_o: amplifier.outputResistance,
      ...ofPass(),
      I_div: DIVIDER_CURRENT,
      ...limitingGivens(need, limiting, pass, amplifier.output.source.typ),
      t_step: STEP_TIME,
    }),
    build(worked, demands) {
      if (!(ofPass().beta_min > 0)) return neverConducts(need, pass.row)
      const v = worked.value
      const cooled = passAgain(need, pass, limiting, demands)
      if (!(v('R3_max') > 0))
        return refuse(
          'input.min',
          v('Vref_hi'),
          input.min,
          'V',
          'The lowest input does not even reach the reference voltage. Raise it.',
        )
      return assemble(need, {
        ...LOOP,
        variant: chosen.name,
        worked,
        fitted: [
          fitAmplifier(need, amplifier, 'U1', 'error amplifier', ['ref', 'fb', 'base', 'in', '0']),
          fitReference(need, reference, 'U2', 'reference', ['ref', '0']),
          fitResistor(
            need,
            {
              id: 'R3',
              role: 'feed resistor of the reference',
              nodes: ['in', 'ref'],
              ohms: v('R3'),
              power: v('P_R3'),
              voltage: input.max,
            },
            demands,
          ),
          ...fitDivider(need, { ...DIVIDER, power: 1e-3, voltage: output.voltage }, worked, demands),
          ...fitPass(need, cooled, limiting, worked, demands),
          fitOutputCapacitor(need, worked),
          fitCapacitor(need, {
            id: 'C2',
            role: 'compensation',
            nodes: ['base', 'fb'],
            farads: Math.max(v('C_comp'), 100e-12),
            voltage: input.max,
          }),
        ],
        mechanical: [heatsinkPart('HS1', cooled.cooling, 'Q1')],
        referenceSpread: referenceSpread(need, reference),
        guess: loopGuess(need, worked, limiting, { ref: reference.vref.nominal, fb: reference.vref.nominal }),
        assumptions: [
          'The reference is fed from the input, so start-up does not depend on the output; it is solved at every corner all the same.',
          DIVIDER_ASSUMPTION,
        ],
      })
    },
  }
}
