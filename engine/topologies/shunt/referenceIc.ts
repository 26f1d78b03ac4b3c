/** Resistor and shunt-reference IC: a reference held at the output voltage, by a divider or because it is made for it. */
import { allowedJunction } from '../../parts/derating/index.ts'
import { type ReferenceRow, findReference, referencesFor } from '../../parts/shunt-reference/index.ts'
import { assemble } from '../assemble.ts'
import { OUTPUT_CAPACITOR, REQUIRED, STEP_GIVEN, STEP_TIME, dividerSteps, requiredGivens } from '../common.ts'
import { type Candidate, type Need, type Refusal, type Variant, isRefusal } from '../define.ts'
import { fitOutputCapacitor } from '../place/capacitor.ts'
import { refuse } from '../place/fitted.ts'
import { pinnedRows } from '../place/pinned.ts'
import { ambientReach, fitReference, referenceSpread } from '../place/reference.ts'
import { type DividerIds, fitDivider } from '../place/resistor.ts'
import { type Given, defineWorking } from '../working.ts'
import { SERIES_RESISTOR, fitSeriesResistor } from './steps.ts'

/** Through the divider, so that the reference input's current of a few µA shifts the output little. Common practice, no source. */
const DIVIDER_CURRENT = 250e-6
/** The cathode is left half as much again as it must have at least. Common practice, no source. */
const CATHODE_SURPLUS = 1.5
/**
 * Adjustable references may oscillate with a cathode capacitor of roughly 10 nF to 10 µF (data sheet plot, to be checked for
 * the part bought): the output capacitor is taken above that.
 */
const STABLE_ABOVE = 47e-6

const DIVIDER: DividerIds = { upper: 'R2', lower: 'R3' }

const sheet = (is: string, unit: string, quantity: string): Given => ({ is, unit, quantity, source: 'data sheet' })

/** The shunt element by the symbols of the plain diode's working: what it holds, what it needs, what it may take. */
const ELEMENT: readonly Given[] = [
  { is: 'Vz', unit: 'V', quantity: 'Voltage held', source: 'requirement, or data sheet of a fixed reference' },
  sheet('Vz_lo', 'V', 'Lowest voltage held'),
  sheet('Vz_hi', 'V', 'Highest voltage held'),
  sheet('Iz_min', 'A', 'Least cathode and divider current, with half as much again'),
  sheet('Pz_allow', 'W', 'Heat that the derated reference may take'),
  sheet('Vref', 'V', 'Reference voltage'),
  { is: 'I_div', unit: 'A', quantity: 'Divider current', source: 'common practice, no source' },
]

const workings = {
  fixed: defineWorking(
    'shunt, fixed reference',
    [...REQUIRED, ...ELEMENT, STEP_GIVEN],
    [...SERIES_RESISTOR, ...OUTPUT_CAPACITOR],
  ),
  adjustable: defineWorking(
    'shunt, adjustable reference',
    [...REQUIRED, ...ELEMENT, STEP_GIVEN],
    [...dividerSteps('Vref', DIVIDER), ...SERIES_RESISTOR, ...OUTPUT_CAPACITOR],
  ),
}

export const referenceIcVariant = (kind: 'fixed' | 'adjustable'): Variant => ({
  name: kind === 'fixed' ? 'fixed reference IC' : 'adjustable reference IC',
  title:
    kind === 'fixed'
      ? 'a resistor and a fixed reference IC'
      : 'a resistor and an adjustable reference IC with its divider',
  working: workings[kind],
  suits: () => true,
  candidates: (need) => candidates(need, kind === 'adjustable'),
})

function candidates(need: Need, adjustable: boolean): Candidate[] | Refusal {
  const { output, parts, ambient } = need.requirements
  const half = output.voltage * output.tolerance
  const rows =
    pinnedRows(need, 'U1', findReference) ??
    referencesFor({
      vMin: adjustable ? output.voltage : output.voltage - half,
      vMax: adjustable ? output.voltage : output.voltage + half,
      mounting: parts.mounting,
      ambient,
    })
  const fitting = rows.filter((row) => row.adjustable === adjustable)
  if (fitting.length === 0)
    return refuse(
      'output.voltage',
      adjustable ? 36 : output.voltage,
      output.voltage,
      'V',
      `No ${adjustable ? 'adjustable' : 'fixed'} reference in the list holds ${output.voltage} V from ${ambient.min} to ${ambient.max} °C.`,
    )
  // Loosest grade that may do first: it is the cheapest; the tightest stays in the running.
  const loosest = fitting.toSorted((a, b) => referenceSpread(need, b) - referenceSpread(need, a))
  const within = loosest.filter((row) => referenceSpread(need, row) < output.tolerance)
  return (within.length > 0 ? within : loosest.slice(-1)).slice(0, 4).map((row) => candidate(need, row))
}

function candidate(need: Need, row: ReferenceRow): Candidate {
  const { output, ambient, input } = need.requirements
  const held = row.adjustable ? output.voltage : row.vref.nominal
  const scale = held / row.vref.nominal
  const drift = ambientReach(need) * row.tempco.max * row.vref.nominal
  const divider = row.adjustable ? DIVIDER_CURRENT : 0
  const variant = row.adjustable ? 'adjustable reference IC' : 'fixed reference IC'
  return {
    label: row.partNumber,
    givens: () => ({
      ...requiredGivens(need.requirements),
      Vz: held,
      Vz_lo: (row.vref.min - drift) * scale,
      Vz_hi: (row.vref.max + drift) * scale,
      Iz_min: row.cathodeCurrentMin.max * CATHODE_SURPLUS + divider,
      Pz_allow: Math.max(
        1e-6,
        Math.min(
          (allowedJunction(row.junctionMax, need.policy, 'circuit', ambient.max) - ambient.max) / row.thermalResistance,
          row.cathodeCurrentMax * need.policy.referenceCurrent * held,
        ),
      ),
      Vref: row.vref.nominal,
      I_div: DIVIDER_CURRENT,
      t_step: STEP_TIME,
    }),
    build(worked, demands) {
      const v = worked.value
      if (!(v('Rs_max') > 0.1))
        return refuse(
          'input.min',
          v('Vz_hi'),
          input.min,
          'V',
          `An input of ${input.min} V leaves nothing to drive the load through a resistor at ${output.voltage} V. Raise the lowest input.`,
        )
      const farads = Math.max(v('C_out'), STABLE_ABOVE)
      const capacitor = fitOutputCapacitor(need, worked, farads)
      const isLarge = !isRefusal(capacitor) && (capacitor.part.value ?? 0) >= 0.999 * STABLE_ABOVE
      return assemble(need, {
        topology: 'shunt',
        variant,
        worked,
        fitted: [
          fitSeriesResistor(need, worked, v('Vz_lo'), demands),
          fitReference(
            need,
            row,
            'U1',
            'shunt reference across the load',
            row.adjustable ? ['out', '0', 'fb'] : ['out', '0'],
          ),
          ...(row.adjustable ? fitDivider(need, { ...DIVIDER, power: 1e-3, voltage: held }, worked, demands) : []),
          capacitor,
        ],
        referenceSpread: referenceSpread(need, row),
        guess: { out: held, fb: row.vref.nominal },
        divides: ['fb'],
        assumptions: [
          isLarge
            ? 'The output capacitor lies above the range in which such references may oscillate; check the plot of the sheet of the part bought.'
            : 'The pinned output capacitor may lie in the range in which such references oscillate; check the plot of the sheet of the part bought.',
        ],
        cautions: ['If the reference opens, the whole input reaches the load through the series resistor.'],
        notEvaluated: ['loopStability'],
      })
    },
  }
}
