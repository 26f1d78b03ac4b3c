/** A part list's texts: values as printed on the part, and how much of each rating is used. */
import type { Part } from '../../../engine/compare/comparison.ts'
import { formatQuantity, formatValueCode } from '../../../engine/units/index.ts'

/** `4k7`, `10 µF`, `BD139`; the part number where there is one, with its value where that says more. */
export function partText({ value, unit, partNumber }: Part): string {
  const code =
    value === undefined
      ? undefined
      : unit === 'Ω' || unit === 'ohm'
        ? formatValueCode(value)
        : formatQuantity(value, unit ?? '')
  if (partNumber && code && unit !== 'Ω' && unit !== 'ohm') return `${partNumber}, ${code}`
  return code ?? partNumber ?? '–'
}

export interface RatingUse {
  readonly quantity: string
  /** Stress over rating, 0 to 1 and beyond. */
  readonly use: number
  /** "70 of 400 mW". */
  readonly text: string
  /** Power and temperature are heat, and drawn in ember; all else in ink. */
  readonly isHeat: boolean
}

const UNITS: Record<string, string> = { power: 'W', current: 'A', voltage: 'V', junction: '°C', temperature: '°C' }
const HEAT = new Set(['power', 'junction', 'temperature'])

function unitOf(quantity: string): string {
  if (UNITS[quantity]) return UNITS[quantity]
  const known = Object.keys(UNITS).find((name) => quantity.toLowerCase().endsWith(name))
  return known ? UNITS[known]! : ''
}

/** Every rating under stress, the most used first. */
export function ratingUses({ ratings, stress }: Part): RatingUse[] {
  return Object.entries(ratings)
    .flatMap(([quantity, rating]) => {
      const worst = stress[quantity]
      if (worst === undefined || !(rating > 0)) return []
      const unit = unitOf(quantity)
      return [
        {
          quantity,
          use: worst / rating,
          text: `${formatQuantity(worst, unit)} of ${formatQuantity(rating, unit)}`,
          isHeat: HEAT.has(quantity),
        },
      ]
    })
    .toSorted((a, b) => b.use - a.use)
}
