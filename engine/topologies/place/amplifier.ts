/** Operational amplifiers as error amplifiers. */
import { type AmplifierRow, placeAmplifier } from '../../parts/op-amp/index.ts'
import type { Need } from '../define.ts'
import { type Fitted, junctionLimit, provenance } from './fitted.ts'
import { cooledBare } from './heatPath.ts'

/** Nodes are [non-inverting, inverting, output, positive supply, negative supply]. */
export function fitAmplifier(
  need: Need,
  row: AmplifierRow,
  id: string,
  role: string,
  nodes: readonly [string, string, string, string, string],
): Fitted {
  const { policy } = need
  const [plus, , , vP, vM] = nodes
  return {
    part: {
      id,
      role,
      partNumber: row.partNumber,
      package: row.package,
      ...cooledBare(row, 'junction'),
      semiconductor: { kind: 'circuit', junctionMax: row.junctionMax },
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
          factor: 'opAmpSupply',
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
        junctionLimit('circuit', row.junctionMax, policy),
      ],
      ...provenance(row),
    },
    ...placeAmplifier(row, id, nodes),
  }
}
