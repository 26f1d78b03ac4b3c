/** Transistors and what cools them. */
import { allowedJunction } from '../../parts/derating/index.ts'
import { HEATSINKS, type HeatsinkRow, interfaceResistance, pickHeatsink } from '../../parts/heatsink/index.ts'
import {
  type TransistorRow,
  headlinePower,
  placeTransistor,
  soaCurrent,
  transistors,
} from '../../parts/transistor/index.ts'
import type { Demand, DesignPart, Limit, Need, Refusal, StressPoint } from '../define.ts'
import { type Fitted, junctionLimit, provenance, refuse } from './fitted.ts'
import { cooledTransistor } from './heatPath.ts'
import { pinnedRows } from './pinned.ts'

/** What sheds a transistor's heat beside its own package: a heatsink, or nothing. */
export interface Cooling {
  readonly heatsink?: HeatsinkRow
}

export const BARE: Cooling = {}

export interface TransistorPlace {
  readonly id: string
  readonly role: string
  readonly nodes: readonly [collector: string, base: string, emitter: string]
  readonly cooling: Cooling
}

export function fitTransistor(need: Need, row: TransistorRow, place: TransistorPlace): Fitted {
  const placed = placeTransistor(row, place.id, place.nodes)
  return {
    part: {
      id: place.id,
      role: place.role,
      partNumber: row.partNumber,
      package: row.package,
      ...cooledTransistor(row, place.cooling.heatsink, need.policy.heatsinkFactor),
      semiconductor: { kind: 'transistor', junctionMax: row.Tj_max },
      across: [place.nodes[0], place.nodes[2]],
      limits: transistorLimits(need, row, place),
      ...provenance(row),
    },
    ...placed,
  }
}

function transistorLimits(need: Need, row: TransistorRow, place: TransistorPlace): Limit[] {
  const { policy, requirements } = need
  const [collector, , emitter] = place.nodes
  // The case is cooler than the junction by the heat through RthJC; where the sheet has none, the junction stands for it. At the
  // first moment of a fault the junction is still at ambient, and so is the case.
  const caseOf = (ambient: number, { junction, power }: StressPoint): number =>
    Math.max(ambient, junction - power * (row.thetaJC ?? 0))
  const carrier = row.darlington ? `${place.id}.output` : place.id
  const collectorCurrent = { of: 'current', element: carrier, terminal: 0 } as const
  return [
    junctionLimit('transistor', row.Tj_max, policy),
    {
      quantity: 'voltage',
      unit: 'V',
      measure: { of: 'voltage', plus: collector, minus: emitter },
      rating: row.VCEO,
      derated: () => row.VCEO * policy.transistorVoltage,
      inFault: () => row.VCEO,
      sense: 'max',
      factor: 'transistorVoltage',
    },
    {
      quantity: 'current',
      unit: 'A',
      measure: collectorCurrent,
      rating: row.Ic_max,
      derated: () => row.Ic_max * policy.transistorCurrent,
      inFault: () => row.Ic_max,
      sense: 'max',
      factor: 'transistorCurrent',
    },
    {
      quantity: 'safeArea',
      unit: 'A',
      measure: collectorCurrent,
      rating: soaCurrent(row, requirements.input.max, 25),
      isByPoint: true,
      derated: (ambient, at) => soaCurrent(row, at.voltage, caseOf(ambient, at)) * policy.soa,
      inFault: (ambient, at) => soaCurrent(row, at.voltage, caseOf(ambient, at)),
      sense: 'max',
      factor: 'soa',
    },
  ]
}

/** What a pass transistor must bear, by hand. Watts, volts, amperes. */
export interface PassNeed {
  readonly power: number
  readonly voltage: number
  readonly current: number
  /** Watts with the output shorted, where that must be outlived. */
  readonly faultPower?: number
}

export interface PassChoice {
  readonly row: TransistorRow
  readonly cooling: Cooling
}

/** Kelvin per watt from its junction to the air, cooled as chosen. */
export const passResistance = (need: Need, { row, cooling }: PassChoice): number =>
  cooledTransistor(row, cooling.heatsink, need.policy.heatsinkFactor).thermalResistance!

/**
 * NPN transistors that bear the need, the smallest package first, each with the smallest heatsink that serves; the closest
 * one alone where none does. A pinned part number is taken as it is, and so is a pinned heatsink.
 */
export function passTransistors(need: Need, id: string, ask: PassNeed, darlington: boolean): PassChoice[] {
  const pinned = need.pins[id]
  const rows = transistors({ polarity: 'npn', darlington })
    .filter((row) => pinned === undefined || row.partNumber === pinned)
    .toSorted(
      (a, b) =>
        headlinePower(a) - headlinePower(b) ||
        a.Ic_max - b.Ic_max ||
        a.VCEO - b.VCEO ||
        // of one type, the group of more gain: it asks less of what drives it
        (b.gainGroup ?? '').localeCompare(a.gainGroup ?? ''),
    )
  const { policy } = need
  const bears = rows.filter(
    (row) => row.VCEO * policy.transistorVoltage >= ask.voltage && row.Ic_max * policy.transistorCurrent >= ask.current,
  )
  const cooled = bears.flatMap((row) => {
    const cooling = coolingFor(need, row, ask)
    return cooling ? [{ row, cooling }] : []
  })
  if (cooled.length > 0) return cooled
  const closest = (bears.length > 0 ? bears : rows).at(-1)
  return closest ? [{ row: closest, cooling: largestCooling(need, closest) }] : []
}

/** The least cooling that keeps the junction within its derated limit in service and its maximum in a fault. */
export function coolingFor(
  need: Need,
  row: TransistorRow,
  ask: Pick<PassNeed, 'power' | 'faultPower'>,
): Cooling | undefined {
  const { policy, requirements } = need
  const ambient = requirements.ambient.max
  const junction = allowedJunction(row.Tj_max, policy, 'transistor', ambient)
  const service = (junction - ambient) / Math.max(ask.power, 1e-9)
  const fault = ask.faultPower === undefined ? Infinity : (row.Tj_max - ambient) / Math.max(ask.faultPower, 1e-9)
  const allowed = Math.min(service, fault)
  const pinned = pinnedHeatsink(need)
  if (row.thetaJA <= allowed && !pinned) return BARE
  if (row.thetaJC === undefined) return undefined
  const toSink = row.thetaJC + interfaceResistance(row.package)
  const required = (allowed - toSink) / policy.heatsinkFactor
  if (pinned)
    return pinned.packages.includes(row.package) && pinned.thermalResistance <= required
      ? { heatsink: pinned }
      : undefined
  const found = pickHeatsink({ package: row.package, required })
  return found.found ? { heatsink: found.row } : undefined
}

/** The same transistor with the heatsink that its proof asks for, where that is a larger one and the list holds it. */
export function recooled(need: Need, pass: PassChoice, demand: Demand | undefined): PassChoice {
  if (!demand) return pass
  const survives = need.requirements.limits.survivesShort
  const cooling = coolingFor(need, pass.row, {
    power: demand.power,
    ...(survives ? { faultPower: demand.shortPower } : {}),
  })
  if (!cooling) return pass
  const again: PassChoice = { row: pass.row, cooling }
  return passResistance(need, again) < passResistance(need, pass) ? again : pass
}

/** The one heatsink that a design has is `HS1`, whatever it cools. */
const pinnedHeatsink = (need: Need): HeatsinkRow | undefined =>
  pinnedRows(need, 'HS1', (number) => HEATSINKS.find(({ partNumber }) => partNumber === number))?.[0]

function largestCooling(need: Need, row: TransistorRow): Cooling {
  if (row.thetaJC === undefined) return BARE
  const pinned = pinnedHeatsink(need)
  if (pinned) return pinned.packages.includes(row.package) ? { heatsink: pinned } : BARE
  const found = pickHeatsink({ package: row.package, required: 0 })
  const heatsink = found.found ? found.row : found.closest
  return heatsink ? { heatsink } : BARE
}

/** A Darlington's own base-emitter resistors may take all the drive there is at so small a load: then it never conducts. */
export const neverConducts = (need: Need, row: TransistorRow): Refusal =>
  refuse(
    'load.max',
    row.Ic_max / 100,
    need.requirements.load.max,
    'A',
    `At ${need.requirements.ambient.min} °C the base-emitter resistors inside ${row.partNumber} take all that would drive it at this load. A smaller transistor serves.`,
  )

/** The heatsink as a line of the part list. */
export function heatsinkPart(id: string, cooling: Cooling, cools: string): DesignPart | undefined {
  const row = cooling.heatsink
  if (!row) return undefined
  return {
    id,
    role: `heatsink of ${cools}`,
    cools,
    value: row.thermalResistance,
    unit: 'K/W',
    partNumber: row.partNumber,
    limits: [],
    ...provenance(row),
  }
}
