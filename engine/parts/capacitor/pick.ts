/** The smallest capacitor that serves, and a capacitor in the circuit. */
import type { Mounting } from '../../requirements/study.ts'
import { formatQuantity } from '../../units/index.ts'
import { type PlacedPart, mountsAs } from '../define.ts'
import type { CapacitorKind, CapacitorRow } from './row.ts'
import { CAPACITORS } from './rows.ts'

export interface CapacitorDerating {
  readonly electrolyticVoltage: number
  readonly tantalumVoltage: number
  readonly ceramicVoltage: number
  readonly filmVoltage: number
}

export interface CapacitorNeed {
  /** Least capacitance at the working voltage, before tolerance. */
  readonly farads: number
  /** Highest working voltage. */
  readonly voltage: number
  readonly mounting: Mounting
  readonly kind?: CapacitorKind
  readonly derating: CapacitorDerating
}

export type CapacitorChoice =
  | {
      readonly found: true
      readonly row: CapacitorRow
      /** Usable share of its rated voltage. */
      readonly share: number
    }
  | {
      readonly found: false
      readonly shortage: 'voltage' | 'capacitance'
      /** Largest derated voltage, or largest capacitance at the working voltage, that the catalogue has. */
      readonly available: number
      readonly closest?: CapacitorRow
      readonly because: string
    }

/** Usable share of the rated voltage under a policy; class 1 ceramics are derated as film. */
export const capacitorShare = (kind: CapacitorKind, derating: CapacitorDerating): number =>
  derating[capacitorFactor(kind)]

/** Which of a policy's numbers derates a kind of capacitor. */
export function capacitorFactor(kind: CapacitorKind): keyof CapacitorDerating {
  if (kind === 'electrolytic') return 'electrolyticVoltage'
  if (kind === 'tantalum') return 'tantalumVoltage'
  return kind === 'class-2-ceramic' ? 'ceramicVoltage' : 'filmVoltage'
}

/** Farads left at a DC voltage: straight lines through none, half and full rated voltage, for class 2 ceramics; else nominal. */
export function capacitanceAt(row: CapacitorRow, voltage: number): number {
  const { biasLoss: loss } = row
  if (loss === undefined) return row.farads
  const x = Math.min(1, Math.abs(voltage) / row.voltage)
  const lost = x < 0.5 ? 2 * x * loss.half : loss.half + (2 * x - 1) * (loss.full - loss.half)
  return row.farads * (1 - lost)
}

/**
 * The smallest that has `farads` at the working voltage and bears it derated: least capacitance, then least rated voltage, then the
 * order of the catalogue (ceramic, film, general-purpose electrolytic, low-impedance electrolytic, tantalum).
 */
export function pickCapacitor(need: CapacitorNeed): CapacitorChoice {
  const { farads, voltage, mounting, kind, derating } = need
  const highestOf = (row: CapacitorRow): number => row.voltage * capacitorShare(row.kind, derating)
  const isOffered = (row: CapacitorRow): boolean => mountsAs(row, mounting) && (kind === undefined || row.kind === kind)
  const bearsIt = (row: CapacitorRow): boolean => highestOf(row) >= voltage
  // A value one part in a thousand short is the same preferred value after rounding.
  const isLarge = (row: CapacitorRow): boolean => capacitanceAt(row, voltage) >= 0.999 * farads
  const row = SMALLEST_FIRST.find((each) => isLarge(each) && bearsIt(each) && isOffered(each))
  if (row) return { found: true, row, share: capacitorShare(row.kind, derating) }

  const offered = CAPACITORS.filter(isOffered)
  const bears = offered.filter(bearsIt)
  if (bears.length === 0) {
    const highest = Math.max(0, ...offered.map(highestOf))
    return {
      found: false,
      shortage: 'voltage',
      available: highest,
      because: `No such capacitor bears ${formatQuantity(voltage, 'V')}; derated, the catalogue reaches ${formatQuantity(highest, 'V')}.`,
    }
  }
  const closest = bears.reduce((best, each) =>
    capacitanceAt(each, voltage) > capacitanceAt(best, voltage) ? each : best,
  )
  const available = capacitanceAt(closest, voltage)
  return {
    found: false,
    shortage: 'capacitance',
    available,
    closest,
    because: `At ${formatQuantity(voltage, 'V')} the catalogue reaches ${formatQuantity(available, 'F')}, not ${formatQuantity(farads, 'F')}. Put several in parallel.`,
  }
}

const SMALLEST_FIRST = CAPACITORS.toSorted((a, b) => a.farads - b.farads || a.voltage - b.voltage)

/** One element named as its part with nominal value and typical ESR; tolerances of both (the least ESR, half of typical, has no source). */
export function placeCapacitor(row: CapacitorRow, id: string, nodes: readonly [string, string]): PlacedPart {
  return {
    elements: [{ kind: 'capacitor', id, nodes, part: id, farads: row.farads, esr: row.esr }],
    tolerances: [
      {
        id: `${id}.capacitance`,
        part: id,
        label: 'capacitance',
        effects: [{ element: id, parameter: 'farads', how: 'scale', low: 1 - row.tolerance, high: 1 + row.tolerance }],
      },
      {
        id: `${id}.ESR`,
        part: id,
        label: 'equivalent series resistance',
        effects: [{ element: id, parameter: 'esr', how: 'scale', low: 0.5, high: row.esrMax / row.esr }],
      },
    ],
  }
}
