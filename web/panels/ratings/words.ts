/** What the ratings screen says: quantities, corners, the policy's numbers. */
import type { RatingUse } from '../../../engine/analyses/ratings.ts'
import type { PolicyNumber, PolicyUse } from '../../../engine/analyses/policy.ts'
import type { Design } from '../../../engine/compare/comparison.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
import { markOf } from '../../charts/marks.ts'
import { apart, cornerWords } from '../heat/words.ts'

export interface RatedDesign {
  readonly design: Design
  readonly ratings: readonly RatingUse[] | undefined
  readonly policy: PolicyUse | undefined
}

export const QUANTITY_WORDS: Readonly<Record<string, string>> = {
  power: 'power',
  junction: 'junction temperature',
  current: 'current',
  voltage: 'voltage',
  supply: 'supply voltage',
  safeArea: 'current in the safe area',
  minimumCurrent: 'least current',
  commonMode: 'input headroom',
}

/** Power and temperature are heat, and drawn warm; all else in ink. */
export const isHeat = ({ quantity }: RatingUse): boolean => quantity === 'power' || quantity === 'junction'

export const amount = (value: number, unit: string): string =>
  formatQuantity(value, unit, unit === '°C' && Math.abs(value) < 100 ? 2 : 3)

/** Where the stress is worst: the corner, and the thermal state where it is not the settled one. */
export const ratingCorner = ({ condition, thermal }: RatingUse): string =>
  cornerWords(condition) +
  (thermal === 'settled' ? '' : thermal === 'cold' ? ', at the cold start' : ', temperatures held')

/**
 * The bar of a rating: `use` and `allowed` as shares of what the maker allows; for a quantity that must not fall too low the bar
 * shows how much of what there is is needed.
 */
export function barOf({ sense, rating, allowed, stress }: RatingUse): { use: number; allowed: number | undefined } {
  if (sense === 'min') return { use: stress > 0 ? (allowed ?? rating) / stress : 1.2, allowed: 1 }
  return { use: stress / rating, allowed: allowed === undefined ? undefined : allowed / rating }
}

export const percentText = (fraction: number): string =>
  formatQuantity(fraction, 'fraction', Math.abs(fraction) < 0.1 ? 1 : 2)

/** The title: the rating with the least margin, and how many are passed. */
export function ratingFinding(designs: readonly RatedDesign[]): string {
  const all = designs.flatMap(({ design, ratings = [] }) => ratings.map((rating) => ({ design, rating })))
  const least = all.toSorted((a, b) => a.rating.margin - b.rating.margin)[0]
  if (!least) return 'Nothing could be built, so nothing is rated.'
  const over = all.filter(({ rating }) => rating.margin < 0)
  const { part, quantity, stress, allowed, unit, sense } = least.rating
  const name = markOf(least.design.topology).name.toLowerCase()
  const words = `the ${QUANTITY_WORDS[quantity] ?? quantity} of ${part} in the ${name} design`
  const [got, limit] = allowed === undefined ? [amount(stress, unit)] : apart(stress, allowed, unit)
  const numbers = limit === undefined ? got : sense === 'max' ? `${got} of ${limit} allowed` : `${got}, ${limit} needed`
  if (over.length === 0) return `All ${all.length} ratings are kept; the tightest is ${words}, ${numbers}.`
  return over.length === 1
    ? `1 of ${all.length} ratings is not kept: ${words}, ${numbers}.`
    : `${over.length} of ${all.length} ratings are not kept, the worst ${words}: ${numbers}.`
}

const FACTOR_WORDS: Readonly<Record<string, string>> = {
  resistorPower: 'Resistor power',
  wirewoundPower: 'Wirewound resistor power',
  resistorVoltage: 'Resistor voltage',
  transistorPower: 'Transistor power',
  diodePower: 'Reference diode power',
  circuitPower: 'Integrated circuit power',
  transistorJunction: 'Transistor junction',
  diodeJunction: 'Reference diode junction',
  circuitJunction: 'Integrated circuit junction',
  transistorVoltage: 'Transistor voltage',
  transistorCurrent: 'Transistor current',
  soa: 'Safe operating area',
  diodeCurrent: 'Reference diode current',
  referenceCurrent: 'Shunt reference current',
  opAmpSupply: 'Amplifier supply',
  electrolyticVoltage: 'Electrolytic voltage',
  tantalumVoltage: 'Tantalum voltage',
  ceramicVoltage: 'Class 2 ceramic voltage',
  filmVoltage: 'Film and class 1 voltage',
  heatsinkFactor: 'Heatsink resistance',
}

export const factorWords = (factor: string): string => FACTOR_WORDS[factor] ?? factor

/** `50 %`, `the lowest of 40 K below its maximum and 110 °C`, `× 1.15`. */
export function policyNumber({ factor, value, junction }: PolicyNumber): string {
  if (factor === 'heatsinkFactor') return `× ${value}`
  if (value !== undefined) return formatQuantity(value, 'fraction', value === 1 ? 3 : 2)
  const { share, margin, ceiling } = junction ?? {}
  const bounds = [
    ...(share === undefined ? [] : [`${formatQuantity(share, 'fraction', 2)} of its maximum`]),
    ...(margin === undefined ? [] : [`${margin} K below its maximum`]),
    ...(ceiling === undefined ? [] : [`${ceiling} °C`]),
  ]
  if (bounds.length === 0) return "the maker's maximum"
  return bounds.length === 1 ? bounds[0]! : `the lowest of ${bounds.slice(0, -1).join(', ')} and ${bounds.at(-1)}`
}

/** How a number came by: read, from memory, or common practice. */
export const ORIGIN_WORDS = {
  read: 'read',
  memory: 'from memory',
  derived: 'derived',
  assumption: 'assumption',
} as const
