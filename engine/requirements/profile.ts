/**
 * The load profile: how the time divides over load currents. It sizes nothing; energies are worked out of it. The rows need
 * not fill the time: what they leave is spent at the least load. They must not exceed it, but for the rounding of shares.
 */
import type { FieldRange } from './fields.ts'
import type { LoadRequirement, AmbientRequirement } from './study.ts'
import type { Finding } from './wording.ts'

export interface ProfileRow {
  /** Amperes, within the load range of the requirements. */
  load: number
  /** Fraction of the time, 0 to 1. */
  share: number
  /** Degrees Celsius, within the ambient range of the requirements; absent, the nominal ambient holds. */
  ambient?: number
}

/** Enough for a day in steps of five minutes. */
export const MOST_ROWS = 300

/** Shares are written rounded, thirds for instance: a sum this near to 1 is taken for the whole time. */
export const SHARE_ALLOWANCE = 0.001

/** Every number of a row; a range of the requirements narrows the current and the ambient further. */
export const ROW_FIELDS = {
  load: { label: 'current', unit: 'A', min: 0, max: 10 },
  share: { label: 'share of time', unit: 'fraction', min: 0, max: 1 },
  ambient: { label: 'ambient', unit: '°C', min: -55, max: 125, otherwise: 'nominal' },
} as const satisfies Record<keyof ProfileRow, FieldRange>

export type RowField = keyof typeof ROW_FIELDS

/** Label and range of a number at a path such as `profile.0.load`; undefined where there is none. */
export function profileRange(path: string): FieldRange | undefined {
  const [, row, name = ''] = /^profile\.(\d+)\.(\w+)$/u.exec(path) ?? []
  if (row === undefined || !Object.hasOwn(ROW_FIELDS, name)) return undefined
  const field = ROW_FIELDS[name as RowField]
  return { ...field, label: `Load profile, row ${Number(row) + 1}, ${field.label}` }
}

/** The sum of the shares, freed of what adding them leaves behind the twelfth figure. */
export const sumOfShares = (rows: readonly { share: number }[]): number =>
  Number(rows.reduce((sum, { share }) => sum + share, 0).toPrecision(12))

interface Limited {
  rows: readonly Partial<ProfileRow>[]
  load: Partial<LoadRequirement>
  ambient: Partial<AmbientRequirement>
}

/** Broken rules between the rows, and between them and the requirements. It sees numbers that are valid by themselves. */
export function brokenProfileRules({ rows, load, ambient }: Limited): Finding[] {
  const findings = rows.flatMap((row, k) => [
    ...outside(`profile.${k}.load`, row.load, 'load', load),
    ...outside(`profile.${k}.ambient`, row.ambient, 'ambient', ambient),
  ])
  const shares = rows.flatMap(({ share }) => (share === undefined ? [] : [{ share }]))
  const sum = sumOfShares(shares)
  if (shares.length === rows.length && sum > 1 + SHARE_ALLOWANCE)
    findings.push({
      path: 'profile',
      involves: rows.map((_, k) => `profile.${k}.share`),
      code: 'order',
      says: ({ value }) =>
        `has shares of time that sum to ${value(sum, 'fraction')}; they must not exceed ${value(1, 'fraction')} ` +
        `by more than ${value(SHARE_ALLOWANCE, 'fraction')}. What they leave of the time is spent at the least load`,
    })
  return findings
}

function outside(
  path: string,
  got: number | undefined,
  group: 'load' | 'ambient',
  { min, max }: { min?: number; max?: number },
): Finding[] {
  if (got === undefined) return []
  const { unit } = ROW_FIELDS[group]
  const beyond = (bound: 'min' | 'max', limit: number, word: string): Finding => ({
    path,
    involves: [`requirements.${group}.${bound}`],
    code: 'order',
    says: ({ name, value }) =>
      `is ${value(got, unit)}; it must not be ${word} ${name(`requirements.${group}.${bound}`)}, ${value(limit, unit)}`,
    nearest: limit,
  })
  if (min !== undefined && got < min) return [beyond('min', min, 'below')]
  if (max !== undefined && got > max) return [beyond('max', max, 'above')]
  return []
}

/** One stretch of the time; the shares of all of them sum to 1. */
export interface Stretch {
  load: number
  share: number
  ambient: number
  /** What the rows leave of the time. */
  isRest: boolean
}

/**
 * The whole time: the rows with what they leave at the least load and nominal ambient. Shares that sum to 1 but for their
 * rounding are scaled to do so.
 */
export function stretchesOf(
  rows: readonly ProfileRow[],
  { load, ambient }: { load: LoadRequirement; ambient: AmbientRequirement },
): Stretch[] {
  const sum = sumOfShares(rows)
  const isWhole = sum >= 1 - SHARE_ALLOWANCE
  const scale = isWhole ? 1 / sum : 1
  const stretches = rows.map((row) => ({
    load: row.load,
    share: row.share * scale,
    ambient: row.ambient ?? ambient.nominal,
    isRest: false,
  }))
  const rest = { load: load.min, share: 1 - sum, ambient: ambient.nominal, isRest: true }
  return isWhole ? stretches : [...stretches, rest]
}
