/** Output and compensation capacitors: open at DC, but bought, placed and rated. */
import {
  CAPACITORS,
  type CapacitorChoice,
  capacitanceAt,
  capacitorFactor,
  capacitorShare,
  pickCapacitor,
  placeCapacitor,
} from '../../parts/capacitor/index.ts'
import { mountsAs } from '../../parts/define.ts'
import { formatQuantity } from '../../units/index.ts'
import type { Need, Refusal } from '../define.ts'
import type { Worked } from '../working.ts'
import { type Fitted, provenance, refuse } from './fitted.ts'
import { pinnedNumber, pinnedValue } from './pinned.ts'

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
  const choice =
    pinnedChoice(need, place) ??
    pickCapacitor({
      farads: place.farads,
      voltage: place.voltage,
      mounting: need.requirements.parts.mounting,
      derating: need.policy,
    })
  if (!choice.found) return refuse(`${id}.value`, place.farads, choice.available, 'F', choice.because)
  const { row, share } = choice
  const from = provenance(row)
  // only a pinned one can be smaller than was asked
  const tooSmall =
    capacitanceAt(row, place.voltage) < 0.999 * place.farads
      ? `pinned below the ${formatQuantity(place.farads, 'F')} of the hand rule`
      : ''
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
      ...from,
      ...(tooSmall ? { note: [tooSmall, from.note].filter(Boolean).join('; ') } : {}),
    },
    elements: placeCapacitor(row, id, nodes).elements,
    // Open at DC: how it strays moves no figure, and each tolerance would cost solves at every corner.
    tolerances: [],
  }
}

/** The capacitor that is pinned here: of that number, or the smallest of that value that bears the voltage. Undefined without a pin. */
function pinnedChoice(need: Need, { id, voltage }: CapacitorPlace): CapacitorChoice | undefined {
  const number = pinnedNumber(need, id)
  const farads = pinnedValue(need, id)
  if (number === undefined && farads === undefined) return undefined
  const shareOf = ({ kind }: (typeof CAPACITORS)[number]): number => capacitorShare(kind, need.policy)
  const alike = CAPACITORS.filter((row) =>
    number === undefined
      ? row.farads === farads && mountsAs(row, need.requirements.parts.mounting)
      : row.partNumber === number,
  ).toSorted((a, b) => a.voltage - b.voltage)
  const row = alike.find((each) => each.voltage * shareOf(each) >= voltage) ?? alike.at(-1)
  if (row) return { found: true, row, share: shareOf(row) }
  const other = CAPACITORS.reduce((best, each) =>
    Math.abs(each.farads - farads!) < Math.abs(best.farads - farads!) ? each : best,
  )
  return {
    found: false,
    shortage: 'capacitance',
    available: other.farads,
    because: `The list holds no capacitor of ${formatQuantity(farads!, 'F')} for this mounting.`,
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
