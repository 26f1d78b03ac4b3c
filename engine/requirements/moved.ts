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

/** One axis of a map. SI; both ends are cells. */
export interface MapAxis {
  readonly path: MappedPath
  readonly from: number
  readonly to: number
  readonly count: number
}

/** Digits of a cell's requirement: as a person would type it, so that it can be taken over as it stands. */
const DIGITS = 4

/** The value of each cell: evenly spaced, rounded to four digits. */
export const axisValues = ({ from, to, count }: MapAxis): number[] =>
  Array.from({ length: count }, (_, k) =>
    Number((from + ((to - from) * k) / Math.max(count - 1, 1)).toPrecision(DIGITS)),
  )
