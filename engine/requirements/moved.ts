/** A study with one of its numbers elsewhere, as maps and sweeps move it. */
import type { Study } from './study.ts'

/** Requirements that a map may run over. */
export const MAPPED = [
  'input.max',
  'input.min',
  'output.voltage',
  'load.max',
  'ambient.max',
  'limits.loadRegulation',
  'output.tolerance',
] as const

export type MappedPath = (typeof MAPPED)[number]

/**
 * The study with `value` at `path`, SI; a path has two keys, such as `input.max`. A nominal value that would lie outside its
 * range goes to the nearest end of it. The result need not be a valid study: a lowest input above the highest stays as it is.
 */
export function movedTo(study: Study, path: string, value: number | boolean): Study {
  const [group, key] = path.split('.') as ['input' | 'output' | 'load' | 'ambient' | 'limits', string]
  const requirements = { ...study.requirements, [group]: { ...study.requirements[group], [key]: value } }
  if (group === 'input' || group === 'load' || group === 'ambient') {
    const range = requirements[group]
    const nominal = Math.max(range.min, Math.min(range.max, range.nominal))
    return { ...study, requirements: { ...requirements, [group]: { ...range, nominal } } }
  }
  return { ...study, requirements }
}

/** How the cells of an axis follow one another: with equal steps, or each a fixed ratio of the one before, which is logarithmic. */
export type Spacing = 'even' | 'ratio'

/** One axis of a map. SI; both ends are cells. */
export interface MapAxis {
  readonly path: MappedPath
  readonly from: number
  readonly to: number
  readonly count: number
  /** `ratio` needs ends above zero; even where left out. */
  readonly spacing?: Spacing
}

/** What spans decades is moved by ratio. */
const BY_RATIO: readonly MappedPath[] = ['load.max', 'limits.loadRegulation']

export const usualSpacing = (path: MappedPath): Spacing => (BY_RATIO.includes(path) ? 'ratio' : 'even')

/** Degrees Celsius have no ratio; all else that is mapped has. */
export const allowsRatio = (path: MappedPath): boolean => path !== 'ambient.max'

/** Digits of a cell's requirement: as a person would type it, so that it can be taken over as it stands. */
const DIGITS = 4

/** The value of each cell, rounded to four digits. */
export const axisValues = ({ from, to, count, spacing }: MapAxis): number[] =>
  Array.from({ length: count }, (_, k) => {
    const share = k / Math.max(count - 1, 1)
    const value = spacing === 'ratio' ? from * (to / from) ** share : from + (to - from) * share
    return Number(value.toPrecision(DIGITS))
  })

/** Where a value lies: 0 at the first cell, 1 at the last, below 0 or above 1 beyond them; `-Infinity` for what has no logarithm. */
export function placeOn({ from, to, spacing }: Omit<MapAxis, 'count'>, value: number): number {
  if (spacing !== 'ratio') return (value - from) / (to - from)
  return value > 0 ? Math.log(value / from) / Math.log(to / from) : -Infinity
}
