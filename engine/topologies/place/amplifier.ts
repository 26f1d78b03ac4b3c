/** Operational amplifiers as error amplifiers. */
import { deratedJunction } from '../../parts/derating/index.ts'
import { type AmplifierRow, placeAmplifier } from '../../parts/op-amp/index.ts'
import type { Need } from '../define.ts'
import { type Fitted, provenance } from './fitted.ts'

/** Nodes are [non-inverting, inverting, output, positive supply, negative supply]. */
export function fitAmplifier(
  need: Need,
  row: AmplifierRow,
  id: string,
  role: string,
  nodes: readonly [string, string, string, string, string],
): Fitted {
  const { policy } = need
  const junction = deratedJunction(row.junctionMax, policy)
  const [plus, , , vP, vM] = nodes
  return {
    part: {
      id,
      role,
      partNumber: row.partNumber,
      package: row.package,
      thermalResistance: row.thermalResistance,
      across: [vP, vM],
      limits: [
        {
          quantity: 'supply',
          unit: 'V',
          measure: { of: 'voltage', plus: vP, minus: vM },
          rating: row.supply.max,
          derated: () => row.supply.max * policy.opAmpSupply,
          inFault: () => row.supply.max,
          sense: 'max',
        },
        {
          quantity: 'commonMode',
          unit: 'V',
          measure: { of: 'voltage', plus: vP, minus: plus },
          rating: row.inputRange.high,
          derated: () => row.inputRange.high,
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
      ],
      ...provenance(row),
    },
    ...placeAmplifier(row, id, nodes),
  }
}
