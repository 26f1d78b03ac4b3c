/** Rules between the fields of a study. Each looks only at values that are valid by themselves. */
import { RANGES, type NumberPath } from './fields.ts'
import type { Finding } from './wording.ts'

/** The number at a path such as `input.max`, `undefined` where there is none or it is already refused. */
export type ReadNumber = (path: NumberPath) => number | undefined

/** Paths in the file: the requirements' own fields lie one level down. */
const filed = (path: NumberPath) => `requirements.${path}`

/** All broken rules at once. */
export function brokenRules(read: ReadNumber): Finding[] {
  return [
    ...ordered(read, 'input.min', 'input.nominal', 'input.max'),
    ...ordered(read, 'load.min', 'load.nominal', 'load.max'),
    ...ordered(read, 'ambient.min', 'ambient.nominal', 'ambient.max'),
    ...outputBelowInput(read),
    ...rippleInsideInput(read),
  ]
}

function ordered(read: ReadNumber, low: NumberPath, middle: NumberPath, high: NumberPath): Finding[] {
  const [min, nominal, max] = [read(low), read(middle), read(high)]
  const { unit } = RANGES[low]
  if (min !== undefined && max !== undefined && min > max) {
    return [
      {
        path: filed(low),
        involves: [filed(high)],
        code: 'order',
        says: ({ name, value }) =>
          `is ${value(min, unit)}; it must not be above ${name(filed(high))}, ${value(max, unit)}`,
        nearest: max,
      },
    ]
  }
  if (nominal === undefined) return []
  const broken = (bound: NumberPath, limit: number, word: string): Finding => ({
    path: filed(middle),
    involves: [filed(bound)],
    code: 'order',
    says: ({ name, value }) =>
      `is ${value(nominal, unit)}; it must not be ${word} ${name(filed(bound))}, ${value(limit, unit)}`,
    nearest: limit,
  })
  if (min !== undefined && nominal < min) return [broken(low, min, 'below')]
  if (max !== undefined && nominal > max) return [broken(high, max, 'above')]
  return []
}

function outputBelowInput(read: ReadNumber): Finding[] {
  const [output, max] = [read('output.voltage'), read('input.max')]
  if (output === undefined || max === undefined || output < max) return []
  return [
    {
      path: filed('output.voltage'),
      involves: [filed('input.max')],
      code: 'order',
      says: ({ name, value }) =>
        `is ${value(output, 'V')}; it must be below ${name(filed('input.max'))}, ${value(max, 'V')}: a linear rail only drops voltage`,
    },
  ]
}

/** The ripple lies inside the extremes, so it is smaller than their distance; no ripple always fits. */
function rippleInsideInput(read: ReadNumber): Finding[] {
  const [ripple, min, max] = [read('input.ripple'), read('input.min'), read('input.max')]
  if (ripple === undefined || min === undefined || max === undefined || min > max) return []
  if (ripple === 0 || ripple < max - min) return []
  return [
    {
      path: filed('input.ripple'),
      involves: [filed('input.min'), filed('input.max')],
      code: 'order',
      says: ({ name, value }) =>
        `is ${value(ripple, 'V')}; it must be below ${name(filed('input.max'))} less ${name(filed('input.min'))}, ` +
        `${value(Number((max - min).toPrecision(12)), 'V')}: the ripple lies inside the extremes`,
    },
  ]
}
