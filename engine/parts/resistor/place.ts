/** A resistor in the circuit, and how its rating falls with the ambient. */
import type { PlacedPart } from '../define.ts'
import type { ResistorRow } from './row.ts'

export interface ResistorOptions {
  /**
   * 1/K. For a resistor whose ratio to a partner of the same type is all that matters: the two temperature coefficients lie
   * within this of each other, so each is given half of it either way and none in common.
   */
  readonly tracking?: number
}

/** Limits of the temperature coefficient at a value in ohms, 1/K. */
export function resistorTcr(row: ResistorRow, ohms: number): { min: number; max: number } {
  const { min, max } = row.tcr.find((step) => ohms <= step.upTo) ?? { min: 0, max: 0 }
  return { min, max }
}

/**
 * One element named as its part. Nominal tc1 is the middle of the sheet's limits: 0 but for carbon film, whose coefficient is
 * one-sided. Tolerances: `resistance` (1 - tolerance to 1 + tolerance) and `TCR` (to the limits).
 */
export function placeResistor(
  row: ResistorRow,
  id: string,
  nodes: readonly [string, string],
  ohms: number,
  tolerance: number = row.tolerance,
  options: ResistorOptions = {},
): PlacedPart {
  const limits = resistorTcr(row, ohms)
  const { tracking } = options
  const tc1 = tracking === undefined ? (limits.min + limits.max) / 2 : 0
  const half = tracking === undefined ? (limits.max - limits.min) / 2 : tracking / 2
  return {
    elements: [{ id, kind: 'resistor', nodes, part: id, ohms, tc1, tnom: 25 }],
    tolerances: [
      {
        id: `${id}.resistance`,
        part: id,
        label: 'resistance',
        effects: [{ element: id, parameter: 'ohms', how: 'scale', low: 1 - tolerance, high: 1 + tolerance }],
      },
      {
        id: `${id}.TCR`,
        part: id,
        label: tracking === undefined ? 'temperature coefficient' : 'temperature coefficient against its partner',
        effects: [{ element: id, parameter: 'tc1', how: 'add', low: -half, high: half }],
      },
    ],
  }
}

/**
 * Watts allowed at an ambient in degrees Celsius: P = power up to `derateFrom`, then
 * power·(zeroPowerAt - ambient)/(zeroPowerAt - derateFrom), never below 0. 0.25 W rated at 70 and 155 degC: 0.18 W at 95 degC.
 */
export function resistorPowerAt(row: ResistorRow, ambient: number): number {
  const share = (row.zeroPowerAt - ambient) / (row.zeroPowerAt - row.derateFrom)
  return row.power * Math.min(1, Math.max(0, share))
}

/** Usable shares of the power: of wirewound types, and of all others. */
export interface ResistorDerating {
  readonly resistorPower: number
  readonly wirewoundPower: number
}

export const resistorShare = (row: ResistorRow, derating: ResistorDerating): number => derating[resistorFactor(row)]

/** Which of the two derates a resistor. */
export const resistorFactor = (row: ResistorRow): keyof ResistorDerating =>
  row.technology.startsWith('wirewound') ? 'wirewoundPower' : 'resistorPower'
