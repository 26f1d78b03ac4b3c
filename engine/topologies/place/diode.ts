/** Reference diodes. */
import { type DiodeRow, diodePowerAt, diodesFor, findDiode, placeDiode } from '../../parts/reference-diode/index.ts'
import { allowedJunction } from '../../parts/derating/index.ts'
import type { Need } from '../define.ts'
import type { Given } from '../working.ts'
import { type Fitted, junctionLimit, provenance } from './fitted.ts'
import { cooledDiode } from './heatPath.ts'
import { pinnedRows, pinnedValue } from './pinned.ts'

/** Anode first. */
export function fitDiode(
  need: Need,
  row: DiodeRow,
  id: string,
  role: string,
  nodes: readonly [anode: string, cathode: string],
): Fitted {
  return {
    part: {
      id,
      role,
      value: row.vz.nominal,
      unit: 'V',
      partNumber: row.partNumber,
      package: row.package,
      ...cooledDiode(row),
      semiconductor: { kind: 'diode', junctionMax: row.junctionMax },
      across: [nodes[1], nodes[0]],
      limits: [
        {
          quantity: 'power',
          unit: 'W',
          measure: { of: 'power' },
          // in still air at 0 °C
          rating: diodePowerAt(row, 0),
          derated: (ambient) => deratedPower(need, row, ambient),
          inFault: (ambient) => diodePowerAt(row, ambient),
          sense: 'max',
          factor: 'diodePower',
        },
        {
          quantity: 'current',
          unit: 'A',
          measure: { of: 'current', element: id, terminal: 0 },
          rating: row.currentMax,
          derated: () => row.currentMax * need.policy.diodeCurrent,
          inFault: () => row.currentMax,
          sense: 'max',
          factor: 'diodeCurrent',
        },
        junctionLimit('diode', row.junctionMax, need.policy),
      ],
      ...provenance(row),
    },
    ...placeDiode(row, id, nodes),
  }
}

/** Watts that the diode may take at the hottest ambient under the policy. */
export const diodeAllowance = (need: Need, row: DiodeRow): number =>
  deratedPower(need, row, need.requirements.ambient.max)

/** The policy's share of what the maker leaves at an ambient in °C, and no more than what keeps the allowed junction. */
const deratedPower = ({ policy }: Need, row: DiodeRow, ambient: number): number =>
  Math.min(
    row.power * policy.diodePower,
    diodePowerAt(row, ambient, allowedJunction(row.junctionMax, policy, 'diode', ambient)),
  )

/** How far a diode's nominal voltage lies from `volts`, as a fraction of these. */
export const diodeMiss = (row: DiodeRow, volts: number): number => Math.abs(row.vz.nominal / volts - 1)

/** Half of the spread of the diode at its test current, as a fraction of the volts that it holds, alone or with a junction. */
export const diodeSpread = (row: DiodeRow, held: number = row.vz.nominal): number =>
  (row.vz.max - row.vz.min) / (2 * held)

/** Diodes of which some sample lies within `spread` (a fraction) of `volts`, or the one, or those of the one voltage, that are pinned. */
export function diodesNear(need: Need, id: string, volts: number, spread: number): DiodeRow[] {
  const pinned = pinnedRows(need, id, findDiode)
  if (pinned && pinned.length > 0) return pinned
  const nominal = pinnedValue(need, id)
  if (nominal !== undefined)
    return diodesFor({ vzMin: nominal, vzMax: nominal, mounting: need.requirements.parts.mounting })
  return diodesFor({
    vzMin: volts * (1 - spread),
    vzMax: volts * (1 + spread),
    mounting: need.requirements.parts.mounting,
  })
}

/** The least current at which the diode still regulates: max(1.5 IZK, 1 mA) to start from; the solved band decides (common practice, no source). */
export const leastDiodeCurrent = (row: DiodeRow): number => Math.max(1.5 * row.knee.current, 1e-3)

const ofDiode = (is: string, unit: string, quantity: string): Given => ({ is, unit, quantity, source: 'data sheet' })

export const DIODE_GIVENS: readonly Given[] = [
  ofDiode('Vz', 'V', 'Diode voltage at its test current'),
  ofDiode('Vz_lo', 'V', 'Lowest diode voltage, tolerance and tempco'),
  ofDiode('Vz_hi', 'V', 'Highest diode voltage, tolerance and tempco'),
  ofDiode('I_ZT', 'A', 'Test current'),
  { is: 'rz', unit: 'Ω', quantity: 'Diode slope resistance', source: 'half of the data sheet maximum, assumption' },
  { is: 'Iz_min', unit: 'A', quantity: 'Least diode current', source: 'common practice, no source' },
  {
    is: 'Pz_allow',
    unit: 'W',
    quantity: 'Heat that the derated diode may take',
    source: 'data sheet and derating policy',
  },
]

export function diodeGivens(need: Need, row: DiodeRow, factor: number): Record<string, number> {
  const { ambient } = need.requirements
  const hot = Math.max(0, row.tempco.max * row.vz.nominal * (ambient.max - row.referenceTemperature))
  const cold = Math.min(0, row.tempco.max * row.vz.nominal * (ambient.min - row.referenceTemperature))
  return {
    Vz: row.vz.nominal,
    Vz_lo: row.vz.min + cold,
    Vz_hi: row.vz.max + hot,
    I_ZT: row.test.current,
    rz: row.test.impedance / 2,
    Iz_min: leastDiodeCurrent(row) * factor,
    Pz_allow: diodeAllowance(need, row),
  }
}
