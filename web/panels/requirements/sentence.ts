/** The requirements in a line: what the folded panel and the brief say. */
import type { Study } from '../../../engine/requirements/study.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
import { readPath } from '../../store/check.ts'
import { quantityField, shown } from '../../store/fields.ts'

export interface SentencePart {
  readonly before: string
  readonly value: string
  readonly after: string
}

/** Several values of one unit: the unit stands once, at the end, where all share it. */
export function series(study: Study, paths: readonly string[]): string {
  const texts = paths.map((path) => shown(quantityField(path), readPath(study, path) as number))
  const units = new Set(texts.map((text) => text.replace(/^[\d.−]+/u, '')))
  const [unit] = units
  const bare =
    units.size === 1 && unit ? texts.map((t, i) => (i < texts.length - 1 ? t.slice(0, -unit.length) : t)) : texts
  return bare.join(' – ')
}

const limit = (before: string, value: number | undefined, unit: string): SentencePart[] =>
  value === undefined ? [] : [{ before, value: `≤ ${formatQuantity(value, unit, 2)}`, after: '' }]

/** The limits that are asked for. */
export function limitParts({ requirements: { limits } }: Study): SentencePart[] {
  return [
    ...limit('load regulation', limits.loadRegulation, 'fraction'),
    ...limit('line regulation', limits.lineRegulation, 'fraction'),
    ...limit('output ripple', limits.outputRipple, 'V'),
    ...(limits.survivesShort ? [{ before: '', value: 'survives a short', after: '' }] : []),
  ]
}

export const inputSeries = (study: Study): string => series(study, ['input.min', 'input.nominal', 'input.max'])
export const outputSeries = (study: Study): string =>
  `${series(study, ['output.voltage'])} ${series(study, ['output.tolerance'])}`
export const loadSeries = (study: Study): string => series(study, ['load.min', 'load.nominal', 'load.max'])
export const ambientSeries = (study: Study): string => series(study, ['ambient.min', 'ambient.nominal', 'ambient.max'])

/** Every requirement, in the order in which a sentence lists them. */
export function sentenceParts(study: Study): SentencePart[] {
  return [
    { before: '', value: inputSeries(study), after: 'in' },
    { before: '', value: outputSeries(study), after: 'out' },
    { before: '', value: loadSeries(study), after: '' },
    { before: '', value: ambientSeries(study), after: '' },
    ...limitParts(study),
    { before: 'resistors', value: study.requirements.parts.resistorSeries, after: '' },
  ]
}
