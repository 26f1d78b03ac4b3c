/** Shunt reference ICs. */
import { deratedJunction } from '../../parts/derating/index.ts'
import { type ReferenceRow, placeReference } from '../../parts/shunt-reference/index.ts'
import type { Need } from '../define.ts'
import { type Fitted, provenance } from './fitted.ts'

/** Nodes are [cathode, anode, ref]; without a ref the part is used at its own reference voltage. */
export function fitReference(
  need: Need,
  row: ReferenceRow,
  id: string,
  role: string,
  nodes: readonly [cathode: string, anode: string, ref?: string],
): Fitted {
  const junction = deratedJunction(row.junctionMax, need.policy)
  const cathodeCurrent = { of: 'current', element: id, terminal: 0 } as const
  return {
    part: {
      id,
      role,
      partNumber: row.partNumber,
      package: row.package,
      thermalResistance: row.thermalResistance,
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
        {
          quantity: 'junction',
          unit: '°C',
          measure: { of: 'junction' },
          rating: row.junctionMax,
          derated: () => junction,
          inFault: () => row.junctionMax,
          sense: 'max',
        },
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

/** Half of the reference's own spread as a fraction: grade at 25 °C and tempco over the ambient. */
export function referenceSpread(need: Need, row: ReferenceRow): number {
  const { ambient } = need.requirements
  const reach = Math.max(Math.abs(ambient.max - 25), Math.abs(ambient.min - 25))
  return (row.vref.max - row.vref.min) / (2 * row.vref.nominal) + row.tempco.max * reach
}
