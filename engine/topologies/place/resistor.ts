/** Resistors: a preferred value, the smallest type that bears it. */
import {
  RESISTORS,
  type ResistorChoice,
  type ResistorRow,
  pickResistor,
  placeResistor,
  resistorFactor,
  resistorPowerAt,
  resistorShare,
} from '../../parts/resistor/index.ts'
import { type SeriesName } from '../../requirements/study.ts'
import { formatValueCode, preferredAbove, preferredBelow, preferredNearest } from '../../units/index.ts'
import type { Demands, Limit, Need, Refusal } from '../define.ts'
import type { Chooser, Worked } from '../working.ts'
import { type Fitted, provenance, refuse } from './fitted.ts'
import { cooledBare } from './heatPath.ts'
import { pinnedRows, pinnedValue } from './pinned.ts'

export interface ResistorPlace {
  readonly id: string
  readonly role: string
  readonly nodes: readonly [string, string]
  readonly ohms: number
  /** Worst watts and volts by hand; the last proof's findings replace them where they are higher. */
  readonly power: number
  readonly voltage: number
  /** Watts and volts with the output shorted, where the design must outlive that. */
  readonly fault?: { readonly power: number; readonly voltage: number }
  /** 1/K of tempco difference to the partner of a divider. */
  readonly tracking?: number
}

/** Divider pairs of one type and make follow each other this closely over temperature, 1/K (common practice, no source). */
const DIVIDER_TRACKING = 25e-6
export const DIVIDER_ASSUMPTION = `Divider resistors are of one type and follow each other within ${DIVIDER_TRACKING * 1e6} ppm/K (common practice, no source).`

export function fitResistor(need: Need, place: ResistorPlace, demands: Demands): Fitted | Refusal {
  const { requirements, policy } = need
  const { id, ohms } = place
  const seen = demands[id]
  const tolerance = requirements.parts.resistorTolerance
  const ask = {
    ohms,
    tolerance,
    power: Math.max(place.power, seen?.power ?? 0),
    voltage: Math.max(place.voltage, seen?.voltage ?? 0),
    mounting: requirements.parts.mounting,
    ambient: requirements.ambient.max,
    derating: policy,
    ...(place.fault
      ? { fault: { power: Math.max(place.fault.power, seen?.shortPower ?? 0), voltage: place.fault.voltage } }
      : {}),
  }
  const pinned = pinnedRows(need, id, (type) => RESISTORS.find(({ partNumber }) => partNumber === type))?.[0]
  if (pinned && !(ohms >= pinned.min && ohms <= pinned.max))
    return refuse(
      `${id}.value`,
      ohms,
      ohms < pinned.min ? pinned.min : pinned.max,
      'Ω',
      `${id} must be ${formatValueCode(ohms)}; ${pinned.partNumber} is made from ${formatValueCode(pinned.min)} to ${formatValueCode(pinned.max)}.`,
    )
  let choice: ResistorChoice = pinned ? { found: true, row: pinned } : pickResistor(ask)
  // Power types come in wider tolerances; the corners then use what the part really has, and the note says so.
  if (!choice.found && (choice.shortage === 'power' || choice.shortage === 'tolerance'))
    choice = pickResistor({ ...ask, tolerance: Math.max(tolerance, 0.05) })
  const row = choice.found ? choice.row : choice.closest
  if (!row)
    return refuse(
      `${id}.value`,
      ask.ohms,
      choice.found ? ohms : choice.available,
      'Ω',
      (choice as { because: string }).because,
    )
  const placed = placeResistor(
    row,
    id,
    place.nodes,
    ohms,
    Math.min(row.tolerance, Math.max(tolerance, row.tolerance)),
    place.tracking === undefined ? {} : { tracking: place.tracking },
  )
  const from = provenance(row)
  const wider = row.tolerance > tolerance ? `tolerance ${row.tolerance * 100} % instead of ${tolerance * 100} %` : ''
  return {
    part: {
      id,
      role: place.role,
      value: ohms,
      unit: 'Ω',
      partNumber: row.partNumber,
      package: row.package,
      ...cooledBare(row, 'body'),
      across: place.nodes,
      limits: resistorLimits(row, need, place.nodes),
      ...from,
      ...(wider ? { note: [wider, from.note].filter(Boolean).join('; ') } : {}),
    },
    elements: placed.elements,
    tolerances: placed.tolerances,
  }
}

/** Part ids of the two resistors, which are their symbols in the working too. */
export interface DividerIds {
  readonly upper: string
  readonly lower: string
}

export interface DividerPlace extends DividerIds {
  /** Worst watts and volts by hand, of either. */
  readonly power: number
  readonly voltage: number
}

/** The divider from output to ground with its tap at `fb`, upper resistor first. */
export function fitDivider(need: Need, place: DividerPlace, worked: Worked, demands: Demands): (Fitted | Refusal)[] {
  const { power, voltage } = place
  const one = (id: string, role: string, nodes: readonly [string, string]): Fitted | Refusal =>
    fitResistor(need, { id, role, nodes, ohms: worked.value(id), power, voltage, tracking: DIVIDER_TRACKING }, demands)
  return [one(place.upper, 'divider, upper', ['out', 'fb']), one(place.lower, 'divider, lower', ['fb', '0'])]
}

function resistorLimits(row: ResistorRow, need: Need, [plus, minus]: readonly [string, string]): Limit[] {
  return [
    {
      quantity: 'power',
      unit: 'W',
      measure: { of: 'power' },
      rating: row.power,
      derated: (ambient) => resistorPowerAt(row, ambient) * resistorShare(row, need.policy),
      inFault: (ambient) => resistorPowerAt(row, ambient),
      sense: 'max',
      factor: resistorFactor(row),
    },
    {
      quantity: 'voltage',
      unit: 'V',
      measure: { of: 'voltage', plus, minus },
      rating: row.voltageMax,
      derated: () => row.voltageMax * need.policy.resistorVoltage,
      inFault: () => row.voltageMax,
      sense: 'max',
      factor: 'resistorVoltage',
    },
  ]
}

/** A pinned value where the user gave one, else the preferred value on the asked side of `ohms`. */
function preferred(need: Need, id: string, side: 'below' | 'above' | 'nearest', ohms: number): number {
  const pinned = pinnedValue(need, id)
  if (pinned !== undefined) return pinned
  if (!(ohms > 0)) return ohms
  const series: SeriesName = need.requirements.parts.resistorSeries
  if (side === 'below') return preferredBelow(ohms, series)
  return side === 'above' ? preferredAbove(ohms, series) : preferredNearest(ohms, series)
}

/**
 * The divider of preferred values whose ratio comes closest to `ratio`, the lower resistor within an octave of `aim`.
 */
function preferredDivider(
  need: Need,
  upperId: string,
  lowerId: string,
  ratio: number,
  aim: number,
): { upper: number; lower: number } {
  const upperPin = pinnedValue(need, upperId)
  const lowerPin = pinnedValue(need, lowerId)
  const series = need.requirements.parts.resistorSeries
  if (upperPin !== undefined) return { upper: upperPin, lower: lowerPin ?? preferredNearest(upperPin / ratio, series) }
  if (lowerPin !== undefined) return { upper: preferredNearest(lowerPin * ratio, series), lower: lowerPin }
  let best = { upper: NaN, lower: NaN }
  let bestMiss = Infinity
  for (let lower = preferredAbove(aim / 2, series); lower <= aim * 2; lower = preferredAbove(lower * 1.0001, series)) {
    const upper = preferredNearest(lower * ratio, series)
    // Among near ties the value nearest to the one aimed at wins, so that the divider's current stays as meant.
    const miss = Math.abs((1 + upper / lower) / (1 + ratio) - 1) + 2e-4 * Math.abs(Math.log2(lower / aim))
    if (miss < bestMiss) {
      bestMiss = miss
      best = { upper, lower }
    }
  }
  return best
}

/** What the working's choices are made from: the series of the requirements, and the user's pins. */
export const chooserFor = (need: Need): Chooser => ({
  isPinned: (id) => pinnedValue(need, id) !== undefined,
  preferred: (id, side, value) => preferred(need, id, side, value),
  divider: (upperId, lowerId, ratio, aim) => preferredDivider(need, upperId, lowerId, ratio, aim),
})
