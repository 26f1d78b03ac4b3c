/** From a reference diode's sheet to its circuit model and what may stray from it. */
import type { DiodeModel } from '../../devices/elements.ts'
import { thermalVoltage } from '../../devices/physics.ts'
import type { PlacedPart, Tolerance } from '../define.ts'
import type { DiodeRow } from './row.ts'

/** The sheets print maxima; half of the maximum is taken as nominal. Common practice, no source. */
export const NOMINAL_IMPEDANCE = 0.5

/**
 * The forward junction, which no circuit here leans on: 0.71 V at 10 mA, silicon's band gap and the published default of
 * XTI. Common practice, no source; the sheets' leakage is a test limit and says nothing about IS.
 */
const FORWARD = { IS: 1e-14, N: 1, EG: 1.11, XTI: 3 } as const

interface Slope {
  /** NBV times the thermal voltage, V. */
  readonly a: number
  readonly RS: number
}

/**
 * The two impedance points of the sheet as an exponential knee plus a resistance, zz(I) = a/I + RS, through the test point.
 * The line through both points would make RS negative on a third of the rows; a is held where RS just reaches 0.
 */
function slopeOf(row: DiodeRow): Slope {
  const ZZT = NOMINAL_IMPEDANCE * row.test.impedance
  const ZZK = NOMINAL_IMPEDANCE * row.knee.impedance
  const steepest = ZZT * row.test.current
  const fitted = (ZZK - ZZT) / (1 / row.knee.current - 1 / row.test.current)
  return fitted < steepest ? { a: fitted, RS: ZZT - fitted / row.test.current } : { a: steepest, RS: 0 }
}

/**
 * Nominal model: Vz at IZT at the reference temperature, nominal impedance (half the maximum) at IZT, and at IZK where RS
 * stays positive. `tc` is the typical tempco in V/K at the nominal voltage.
 */
export function diodeModel(row: DiodeRow): DiodeModel {
  const { a, RS } = slopeOf(row)
  return {
    ...FORWARD,
    RS,
    BV: row.vz.nominal - RS * row.test.current,
    IBV: row.test.current,
    NBV: a / thermalVoltage(row.referenceTemperature),
    TNOM: row.referenceTemperature,
    tc: row.tempco.typ * row.vz.nominal,
  }
}

/**
 * `Vz`: the sheet's limits. `Zz`: impedance from a quarter of the maximum to the maximum, that is 0.5 to 2 times nominal,
 * turning about the test point so that Vz at IZT stays. `TC`: the tempco's limits.
 */
export function diodeTolerances(row: DiodeRow, part: string, element: string): Tolerance[] {
  const { RS, NBV, IBV, tc } = diodeModel(row)
  const add = (parameter: string, low: number, high: number) => ({ element, parameter, how: 'add', low, high }) as const
  return [
    {
      id: `${part}.Vz`,
      part,
      label: 'Vz at its test current',
      effects: [add('BV', row.vz.min - row.vz.nominal, row.vz.max - row.vz.nominal)],
    },
    {
      id: `${part}.Zz`,
      part,
      label: 'dynamic impedance',
      effects: [
        add('NBV', -0.5 * NBV, NBV),
        ...(RS > 0 ? [add('RS', -0.5 * RS, RS), add('BV', 0.5 * RS * IBV, -RS * IBV)] : []),
      ],
    },
    {
      id: `${part}.TC`,
      part,
      label: 'temperature coefficient of Vz',
      effects: [add('tc', row.tempco.min * row.vz.nominal - tc, row.tempco.max * row.vz.nominal - tc)],
    },
  ]
}

/** The diode as one element named as its part; nodes are [anode, cathode]. */
export function placeDiode(row: DiodeRow, id: string, nodes: readonly [anode: string, cathode: string]): PlacedPart {
  return {
    elements: [{ id, kind: 'diode', nodes, part: id, model: diodeModel(row) }],
    tolerances: diodeTolerances(row, id, id),
  }
}

/**
 * Watts that the diode may take in still air at an ambient in degrees Celsius: what warms the junction to its maximum, and
 * never more than the headline, which holds for cooled leads. A 1N4742A: 0.86 W at 25 degC, not 1 W.
 */
export function diodePowerAt(row: DiodeRow, ambient: number, junction: number = row.junctionMax): number {
  return Math.max(0, Math.min(row.power, (junction - ambient) / row.thermalResistance))
}
