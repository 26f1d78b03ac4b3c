/** From a shunt reference's sheet to its circuit model and what may stray from it. */
import type { ReferenceModel } from '../../devices/elements.ts'
import type { Effect, PlacedPart, Tolerance } from '../define.ts'
import type { ReferenceRow } from './row.ts'

/** No sheet prints a least dynamic impedance or reference current; half of the typical is taken. Common practice, no source. */
const LEAST = 0.5

/**
 * Nominal model: `vref` at the test current and 25 degC, typical impedance, no tempco, since its sign is not known. KD is
 * negative: the reference voltage falls as the cathode rises.
 */
export function referenceModel(row: ReferenceRow): ReferenceModel {
  return {
    VREF: row.vref.nominal,
    tc: 0,
    TNOM: 25,
    KD: row.cathodeEffect.typ === 0 ? 0 : -row.cathodeEffect.typ,
    ZD: row.impedance.typ,
    ITEST: row.testCurrent,
    IKMIN: row.cathodeCurrentMin.typ,
    VSAT: row.saturation,
    IREF: row.refCurrent.typ,
  }
}

/**
 * `Vref`: the limits at 25 degC. `TC`: the largest mean tempco either way, in V/K about 25 degC. `ZD`: half to the maximum.
 * Adjustable ones have `IREF` and `KD` as well.
 */
export function referenceTolerances(row: ReferenceRow, part: string, element: string): Tolerance[] {
  const { nominal, min, max } = row.vref
  const drift = row.tempco.max * nominal
  const one = (quantity: string, label: string, effect: Omit<Effect, 'element'>): Tolerance => ({
    id: `${part}.${quantity}`,
    part,
    label,
    effects: [{ element, ...effect }],
  })
  const tolerances = [
    one('Vref', 'reference voltage at 25 °C', {
      parameter: 'VREF',
      how: 'add',
      low: min - nominal,
      high: max - nominal,
    }),
    one('TC', 'temperature coefficient', { parameter: 'tc', how: 'add', low: -drift, high: drift }),
    one('ZD', 'dynamic impedance', {
      parameter: 'ZD',
      how: 'scale',
      low: LEAST,
      high: row.impedance.max / row.impedance.typ,
    }),
  ]
  if (!row.adjustable) return tolerances
  return [
    ...tolerances,
    one('IREF', 'reference input current', {
      parameter: 'IREF',
      how: 'scale',
      low: LEAST,
      high: row.refCurrent.max / row.refCurrent.typ,
    }),
    one('KD', 'effect of the cathode voltage', {
      parameter: 'KD',
      how: 'scale',
      low: LEAST,
      high: row.cathodeEffect.max / row.cathodeEffect.typ,
    }),
  ]
}

/** One element named as its part; nodes are [cathode, anode, ref]. A two-terminal reference needs no third node: ref is its cathode. */
export function placeReference(
  row: ReferenceRow,
  id: string,
  nodes: readonly [cathode: string, anode: string, ref?: string],
): PlacedPart {
  const [cathode, anode, ref = cathode] = nodes
  return {
    elements: [
      {
        id,
        kind: 'reference',
        nodes: [cathode, anode, row.adjustable ? ref : cathode],
        part: id,
        model: referenceModel(row),
      },
    ],
    tolerances: referenceTolerances(row, id, id),
  }
}
