/** Shunt reference ICs. */
import { type ReferenceRow, placeReference } from '../../parts/shunt-reference/index.ts'
import type { Need } from '../define.ts'
import { type Fitted, junctionLimit, provenance } from './fitted.ts'
import { cooledBare } from './heatPath.ts'

/** Nodes are [cathode, anode, ref]; without a ref the part is used at its own reference voltage. */
export function fitReference(
  need: Need,
  row: ReferenceRow,
  id: string,
  role: string,
  nodes: readonly [cathode: string, anode: string, ref?: string],
): Fitted {
  const cathodeCurrent = { of: 'current', element: id, terminal: 0 } as const
  return {
    part: {
      id,
      role,
      partNumber: row.partNumber,
      package: row.package,
      ...cooledBare(row, 'junction'),
      semiconductor: { kind: 'circuit', junctionMax: row.junctionMax },
      across: [nodes[0], nodes[1]],
      limits: [
        {
          quantity: 'current',
          unit: 'A',
          measure: cathodeCurrent,
          rating: row.cathodeCurrentMax,
          derated: () => row.cathodeCurrentMax * need.policy.referenceCurrent,
          inFault: () => row.cathodeCurrentMax,
          sense: 'max',
          factor: 'referenceCurrent',
        },
        {
          quantity: 'minimumCurrent',
          unit: 'A',
          measure: cathodeCurrent,
          rating: row.cathodeCurrentMin.max,
          derated: () => row.cathodeCurrentMin.max,
          // With the output shorted it may go out of regulation: that harms nothing.
          inFault: () => 0,
          sense: 'min',
        },
        junctionLimit('circuit', row.junctionMax, need.policy),
        ...(row.adjustable
          ? [
              {
                quantity: 'voltage',
                unit: 'V',
                measure: { of: 'voltage', plus: nodes[0], minus: nodes[1] },
                rating: row.cathodeVoltageMax,
                derated: () => row.cathodeVoltageMax,
                inFault: () => row.cathodeVoltageMax,
                sense: 'max',
              } as const,
            ]
          : []),
      ],
      ...provenance(row),
    },
    ...placeReference(row, id, nodes),
  }
}

/** Kelvin from 25 °C, where the grade holds, to the end of the ambient farther from it: so far the tempco counts. */
export function ambientReach(need: Need): number {
  const { ambient } = need.requirements
  return Math.max(Math.abs(ambient.max - 25), Math.abs(ambient.min - 25))
}

/** Half of the reference's own spread as a fraction: grade at 25 °C and tempco over the ambient. */
export const referenceSpread = (need: Need, row: ReferenceRow): number =>
  (row.vref.max - row.vref.min) / (2 * row.vref.nominal) + row.tempco.max * ambientReach(need)
