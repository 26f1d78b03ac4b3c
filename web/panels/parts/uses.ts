/** A part list's texts: values as printed on the part, and how much of each rating is used. */
import type { Part } from '../../../engine/compare/comparison.ts'
import { formatQuantity, formatValueCode } from '../../../engine/units/index.ts'

/** A part's text in two weights: what to ask for, and what else is known of it. */
export interface PartText {
  readonly main: string
  readonly more: string
}

/** A resistor is asked for by its value code, `4k7`, in a series; all else by its part number, which names its value. */
export function partText({ value, unit = '', partNumber = '' }: Part): PartText {
  const isResistor = unit === 'Ω' || unit === 'ohm'
  if (value !== undefined && isResistor) return { main: formatValueCode(value), more: partNumber }
  if (partNumber !== '') return { main: partNumber, more: '' }
  return { main: value === undefined ? '–' : formatQuantity(value, unit), more: '' }
}

export interface RatingUse {
  readonly quantity: string
  /** In words, before the numbers: "power", "junction". */
  readonly words: string
  /** Share of the rating that is used, 0 to 1 and beyond; for a least current, the share of it that is needed. */
  readonly use: number
  /** "70 of 400 mW". */
  readonly text: string
  /** Power and temperature are heat, and drawn in ember; all else in ink. */
  readonly isHeat: boolean
}

interface Quantity {
  readonly unit: string
  readonly words: string
  readonly isHeat?: boolean
  /** The rating is the least that the part needs, not the most that it bears. */
  readonly isLeast?: boolean
}

/** The ratings whose use is a share of a printed number; others (a range, say) count in the margin alone. */
const QUANTITIES: Record<string, Quantity> = {
  power: { unit: 'W', words: 'power', isHeat: true },
  junction: { unit: '°C', words: 'junction', isHeat: true },
  current: { unit: 'A', words: 'current' },
  voltage: { unit: 'V', words: 'voltage' },
  supply: { unit: 'V', words: 'supply' },
  safeArea: { unit: 'A', words: 'safe area' },
  minimumCurrent: { unit: 'A', words: 'least current', isLeast: true },
}

/** Every rating under stress, the most used first. */
export function ratingUses({ ratings, stress }: Part): RatingUse[] {
  return Object.entries(ratings)
    .flatMap(([quantity, rating]) => {
      const worst = stress[quantity]
      const known = QUANTITIES[quantity]
      if (worst === undefined || !known || !(rating > 0)) return []
      const { unit, words, isHeat = false, isLeast = false } = known
      const [got, allowed] = [formatQuantity(worst, unit), formatQuantity(rating, unit)]
      return [
        {
          quantity,
          words,
          use: isLeast ? rating / worst : worst / rating,
          text: isLeast ? `${got}, needs ${allowed}` : `${got} of ${allowed}`,
          isHeat,
        },
      ]
    })
    .toSorted((a, b) => b.use - a.use)
}
