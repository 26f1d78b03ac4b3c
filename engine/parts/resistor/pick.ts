/** The smallest resistor that serves. */
import type { Mounting } from '../../requirements/study.ts'
import { formatQuantity, formatValueCode } from '../../units/index.ts'
import { mountsAs } from '../define.ts'
import { type ResistorDerating, resistorPowerAt, resistorShare } from './place.ts'
import type { ResistorRow } from './row.ts'
import { RESISTORS } from './rows.ts'

export interface ResistorNeed {
  readonly ohms: number
  /** Widest acceptable tolerance, a fraction. */
  readonly tolerance: number
  /** Worst watts and volts in service. */
  readonly power: number
  readonly voltage: number
  readonly mounting: Mounting
  /** Hottest ambient, degrees Celsius. */
  readonly ambient: number
  /** Usable shares of the ratings. */
  readonly derating: ResistorDerating & { readonly resistorVoltage: number }
  /** Watts and volts of a fault that must be outlived at full ratings; default none. */
  readonly fault?: { readonly power: number; readonly voltage: number }
}

/** `range`: nobody makes this value; `tolerance`, `power`, `voltage`: what the candidates left after the earlier ones lack. */
export type ResistorShortage = 'mounting' | 'range' | 'tolerance' | 'power' | 'voltage'

export type ResistorChoice =
  | { readonly found: true; readonly row: ResistorRow }
  | {
      readonly found: false
      readonly shortage: ResistorShortage
      readonly needed: number
      /** The best that the catalogue has of the quantity in short supply. */
      readonly available: number
      /** The row that comes closest; absent where none has the value at all. */
      readonly closest?: ResistorRow
      readonly because: string
    }

/**
 * The smallest row by rated power, then by board area, then the loosest tolerance (the cheapest); or what is missing, with the
 * closest row. Ratings are derated: `power` against the curve at the ambient, `voltage` against the working voltage.
 */
export function pickResistor(need: ResistorNeed): ResistorChoice {
  const { derating, fault } = need
  const power = (row: ResistorRow): number => resistorPowerAt(row, need.ambient)
  // What a rating must reach so that both service (derated) and a fault (in full) are covered.
  const powerNeeded = (row: ResistorRow): number =>
    Math.max(need.power / resistorShare(row, derating), fault?.power ?? 0)
  const voltageNeeded = Math.max(need.voltage / derating.resistorVoltage, fault?.voltage ?? 0)

  const isMounted = (row: ResistorRow): boolean => mountsAs(row, need.mounting)
  const isMade = (row: ResistorRow): boolean => need.ohms >= row.min && need.ohms <= row.max
  const isTight = (row: ResistorRow): boolean => row.tolerance <= need.tolerance
  const isStrong = (row: ResistorRow): boolean => power(row) >= powerNeeded(row)
  const bearsVolts = (row: ResistorRow): boolean => row.voltageMax >= voltageNeeded
  const found = SMALLEST_FIRST.find(
    (row) => isMade(row) && isTight(row) && bearsVolts(row) && isStrong(row) && isMounted(row),
  )
  if (found) return { found: true, row: found }

  const code = formatValueCode(need.ohms)
  const mounted = RESISTORS.filter(isMounted)
  const made = mounted.filter(isMade)
  if (made.length === 0) {
    return {
      found: false,
      shortage: mounted.length === 0 ? 'mounting' : 'range',
      needed: need.ohms,
      available: Math.max(0, ...mounted.map((row) => (need.ohms < row.min ? row.min : row.max))),
      because: `no ${need.mounting === 'any' ? '' : `${need.mounting} `}resistor of ${code} is in the catalogue.`,
    }
  }
  const tight = made.filter(isTight)
  if (tight.length === 0) {
    const closest = least(made, (row) => row.tolerance)
    return {
      found: false,
      shortage: 'tolerance',
      needed: need.tolerance,
      available: closest.tolerance,
      closest,
      because: `${code} within ${formatQuantity(need.tolerance, '%')} is not in the catalogue; ${closest.partNumber} has ${formatQuantity(closest.tolerance, '%')}.`,
    }
  }
  const strong = tight.filter(isStrong)
  if (strong.length === 0) {
    const closest = least(tight, (row) => -power(row))
    return {
      found: false,
      shortage: 'power',
      needed: powerNeeded(closest),
      available: power(closest),
      closest,
      because: `${code} must be rated for ${formatQuantity(powerNeeded(closest), 'W')} at ${need.ambient} °C; the largest within ${formatQuantity(need.tolerance, '%')}, ${closest.partNumber}, has ${formatQuantity(power(closest), 'W')}. Share the heat between two, or accept a wider tolerance.`,
    }
  }
  const closest = least(strong, (row) => -row.voltageMax)
  return {
    found: false,
    shortage: 'voltage',
    needed: voltageNeeded,
    available: closest.voltageMax,
    closest,
    because: `${code} must be rated for ${formatQuantity(voltageNeeded, 'V')}; ${closest.partNumber} has ${formatQuantity(closest.voltageMax, 'V')}. Put two in series.`,
  }
}

/** By rated power, then by board area, then the loosest tolerance first. */
const SMALLEST_FIRST = RESISTORS.toSorted(
  (a, b) => a.power - b.power || a.length * a.width - b.length * b.width || b.tolerance - a.tolerance,
)

/** The row with the smallest measure, the first of equals. */
function least(rows: readonly ResistorRow[], measure: (row: ResistorRow) => number): ResistorRow {
  return rows.reduce((best, row) => (measure(row) < measure(best) ? row : best))
}
