/** The smallest heatsink that serves. */
import { formatQuantity } from '../../units/index.ts'
import type { HeatsinkRow } from './row.ts'
import { HEATSINKS } from './rows.ts'

export interface HeatsinkNeed {
  readonly package: string
  /** Largest acceptable sink to ambient, K/W, the derating already divided out. */
  readonly required: number
}

export type HeatsinkChoice =
  | { readonly found: true; readonly row: HeatsinkRow }
  | {
      readonly found: false
      readonly shortage: 'package' | 'thermalResistance'
      /** The least that the catalogue has for the package, K/W; Infinity where it takes no heatsink. */
      readonly available: number
      readonly closest?: HeatsinkRow
      readonly because: string
    }

/** The smallest by volume (board area times height) whose thermal resistance is low enough; or the coolest there is, and why not. */
export function pickHeatsink(need: HeatsinkNeed): HeatsinkChoice {
  const fitting = HEATSINKS.filter((row) => row.packages.includes(need.package))
  const coolest = fitting.toSorted((a, b) => a.thermalResistance - b.thermalResistance)[0]
  if (coolest === undefined) {
    return {
      found: false,
      shortage: 'package',
      available: Infinity,
      because: `A ${need.package} takes no heatsink of the catalogue.`,
    }
  }
  const serves = fitting.filter((row) => row.thermalResistance <= need.required)
  const row = serves.toSorted((a, b) => a.footprint * a.height - b.footprint * b.height)[0]
  if (row !== undefined) return { found: true, row }
  return {
    found: false,
    shortage: 'thermalResistance',
    available: coolest.thermalResistance,
    closest: coolest,
    because:
      need.required > 0
        ? `${formatQuantity(need.required, 'K/W')} is needed; the largest heatsink for a ${need.package}, ${coolest.partNumber}, has ${formatQuantity(coolest.thermalResistance, 'K/W')}.`
        : `Junction and case alone already exceed what is allowed: no heatsink for a ${need.package} is good enough.`,
  }
}

/** Sink to ambient at some watts: the curve where there is one, straight between its points and level beyond; else the one figure. */
export function heatsinkResistanceAt(row: HeatsinkRow, power: number): number {
  const curve = row.byPower ?? []
  const above = curve.findIndex((point) => point.power >= power)
  const right = curve[above === -1 ? curve.length - 1 : above]
  if (right === undefined) return row.thermalResistance
  const left = above > 0 ? curve[above - 1] : undefined
  if (left === undefined) return right.thermalResistance
  const share = (power - left.power) / (right.power - left.power)
  return left.thermalResistance + share * (right.thermalResistance - left.thermalResistance)
}
