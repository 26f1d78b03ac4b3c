/** How far a bought part may stray, as one figure of the parts list. */
import type { FoundPart } from '../../parts/find.ts'

/** Fractions of the nominal value, at the temperature of the sheet. */
export interface PartTolerance {
  /** What strays: `resistance`, `capacitance`, `voltage`, `current gain`. */
  of: string
  low: number
  high: number
}

/** Undefined where one figure would not do, an operational amplifier say, or where nothing that matters strays. */
export function toleranceOf(found: FoundPart): PartTolerance | undefined {
  switch (found.family) {
    case 'resistor':
      return { of: 'resistance', low: -found.row.tolerance, high: found.row.tolerance }
    case 'capacitor':
      return { of: 'capacitance', low: -found.row.tolerance, high: found.row.tolerance }
    case 'reference-diode': {
      const { nominal, min, max } = found.row.vz
      return { of: 'voltage', low: min / nominal - 1, high: max / nominal - 1 }
    }
    case 'shunt-reference': {
      const { nominal, min, max } = found.row.vref
      return { of: 'voltage', low: min / nominal - 1, high: max / nominal - 1 }
    }
    default:
      return undefined
  }
}
