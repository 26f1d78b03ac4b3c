/** Output and compensation capacitors: open at DC, but bought, placed and rated. */
import { capacitorFactor, pickCapacitor, placeCapacitor } from '../../parts/capacitor/index.ts'
import type { Need, Refusal } from '../define.ts'
import type { Worked } from '../working.ts'
import { type Fitted, provenance, refuse } from './fitted.ts'

export interface CapacitorPlace {
  readonly id: string
  readonly role: string
  readonly nodes: readonly [string, string]
  readonly farads: number
  /** Highest voltage across it. */
  readonly voltage: number
}

export function fitCapacitor(need: Need, place: CapacitorPlace): Fitted | Refusal {
  const { id, nodes } = place
  const choice = pickCapacitor({
    farads: place.farads,
    voltage: place.voltage,
    mounting: need.requirements.parts.mounting,
    derating: need.policy,
  })
  if (!choice.found) return refuse(`${id}.value`, place.farads, choice.available, 'F', choice.because)
  const { row, share } = choice
  return {
    part: {
      id,
      role: place.role,
      value: row.farads,
      unit: 'F',
      partNumber: row.partNumber,
      package: row.package,
      across: nodes,
      limits: [
        {
          quantity: 'voltage',
          unit: 'V',
          measure: { of: 'voltage', plus: nodes[0], minus: nodes[1] },
          rating: row.voltage,
          derated: () => row.voltage * share,
          inFault: () => row.voltage,
          sense: 'max',
          factor: capacitorFactor(row.kind),
        },
      ],
      ...provenance(row),
    },
    elements: placeCapacitor(row, id, nodes).elements,
    // Open at DC: how it strays moves no figure, and each tolerance would cost solves at every corner.
    tolerances: [],
  }
}

/** The capacitor across the load: of `C_out` of the working, or of `farads` where the circuit needs more. */
export const fitOutputCapacitor = (
  need: Need,
  worked: Worked,
  farads: number = worked.value('C_out'),
): Fitted | Refusal =>
  fitCapacitor(need, {
    id: 'C1',
    role: 'output capacitor',
    nodes: ['out', '0'],
    farads,
    voltage: worked.value('Vout_hi'),
  })
