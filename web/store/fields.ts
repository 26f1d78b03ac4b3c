/** How the page writes the requirements: captions beside the entries, and values in them. Names and units are the engine's. */
import { CHOICES as WORDS, DERATING_WORDS, labelOf, rangeOf } from '../../engine/requirements/index.ts'
import { entryText, formatQuantity } from '../../engine/units/index.ts'
import type { FieldValue } from './check.ts'

interface QuantityWords {
  /** Caption beside the entry, under the group's heading. */
  caption: string
  /** Written before the value: a band is ±, a limit is ≤. */
  sign?: '±' | '≤'
  /** Empty means that the limit is not judged, or that a figure weighs nothing. */
  isOptional?: boolean
  /** Written without zeros behind the point. */
  isPlain?: boolean
  /** Written, and read where no unit is typed, in this unit: so many of it are one of the field's own. */
  written?: { unit: string; factor: number }
  /** What holds while nothing is entered, in words; otherwise there is no limit. */
  otherwise?: string
}

/** A requirement that is a number with a unit. */
export interface QuantityField extends QuantityWords {
  path: string
  /** Full name, as in messages: "Lowest input voltage". */
  name: string
  /** Unit of the stored value as `engine/units` knows it; `fraction` is written in per cent. */
  unit: string
}

const limit = { sign: '≤', isOptional: true } as const

const QUANTITIES: Record<string, QuantityWords> = {
  'input.min': { caption: 'lowest' },
  'input.nominal': { caption: 'nominal' },
  'input.max': { caption: 'highest' },
  'input.ripple': { caption: 'ripple' },
  'input.rippleFrequency': { caption: 'at', isPlain: true },
  'output.voltage': { caption: 'nominal' },
  'output.tolerance': { caption: 'band', sign: '±', isPlain: true },
  'load.min': { caption: 'least' },
  'load.nominal': { caption: 'nominal' },
  'load.max': { caption: 'most' },
  'ambient.min': { caption: 'coldest', isPlain: true },
  'ambient.nominal': { caption: 'nominal', isPlain: true },
  'ambient.max': { caption: 'hottest', isPlain: true },
  'limits.loadRegulation': { caption: 'Load regulation', isPlain: true, ...limit },
  'limits.lineRegulation': { caption: 'Line regulation', isPlain: true, ...limit },
  'limits.outputRipple': { caption: 'Output ripple', ...limit },
}

/** A requirement that is one of a few words. */
export interface ChoiceField {
  path: string
  name: string
  caption: string
  choices: readonly { value: FieldValue; label: string; note?: string }[]
}

const words = (values: readonly string[], spelled: Record<string, string> = {}) =>
  values.map((value) => ({ value, label: spelled[value] ?? value }))

const yesOrNo = (no: string, yes: string) => [
  { value: false, label: no },
  { value: true, label: yes },
]

/** Grades that resistors are sold in. */
const GRADES = [0.001, 0.005, 0.01, 0.02, 0.05]

export const CHOICES: readonly ChoiceField[] = [
  { path: 'load.permanent', caption: 'Load', choices: yesOrNo('can be taken off', 'is permanent') },
  { path: 'limits.survivesShort', caption: 'Shorted output', choices: yesOrNo('not judged', 'survives') },
  { path: 'parts.resistorSeries', caption: 'Resistors', choices: words(WORDS['parts.resistorSeries'].values) },
  {
    path: 'parts.resistorTolerance',
    caption: 'Tolerance',
    choices: GRADES.map((value) => ({ value, label: percent(value) })),
  },
  {
    path: 'parts.mounting',
    caption: 'Mounting',
    choices: words(WORDS['parts.mounting'].values, { 'surface-mount': 'surface' }),
  },
  {
    path: 'derating',
    caption: 'Derating',
    choices: WORDS.derating.values.map((value) => {
      const { label, source } = DERATING_WORDS[value]
      return { value, label, note: source }
    }),
  },
  {
    path: 'assumptions.environment',
    caption: 'Environment',
    choices: words(WORDS['assumptions.environment'].values, {
      'ground-benign': 'ground, benign',
      'ground-fixed': 'ground, fixed',
      'ground-mobile': 'ground, mobile',
    }),
  },
  {
    path: 'assumptions.quality',
    caption: 'Quality',
    choices: words(WORDS['assumptions.quality'].values, {
      lower: 'lower military',
      military: 'military, screened',
    }),
  },
].map((field) => ({ ...field, name: labelOf(field.path) }))

/** The paths of all numbers in the requirements, in the order of the panel. */
export const QUANTITY_PATHS: readonly string[] = Object.keys(QUANTITIES)

/** Words of the entries whose names come from lists of the engine: weights, prices and areas. */
function listedWords(path: string): QuantityWords {
  const entry = { caption: path.replace(/^weights\./u, ''), isOptional: true, isPlain: true }
  if (!path.startsWith('assumptions.')) return entry
  const otherwise = rangeOf(path)?.otherwise ?? ''
  return {
    ...entry,
    otherwise,
    ...(path.startsWith('assumptions.areas.') && { written: { unit: 'mm²', factor: 1e6 } }),
  }
}

const ROW_WORDS: Record<string, QuantityWords> = {
  load: { caption: 'current' },
  share: { caption: 'share', isPlain: true },
  ambient: { caption: 'ambient', isPlain: true, isOptional: true, otherwise: 'nominal' },
}

/** The number field at a path such as `input.max`, `weights.heat` or `assumptions.prices.diode-1w`. */
export function quantityField(path: string): QuantityField {
  const known = QUANTITIES[path] ?? ROW_WORDS[/^profile\.\d+\.(\w+)$/u.exec(path)?.[1] ?? ''] ?? listedWords(path)
  return { path, name: labelOf(path), unit: rangeOf(path)?.unit ?? '', ...known }
}

/** Takes away the zeros behind the point: 7 % and not 7.00 %. */
function withoutZeros(text: string): string {
  return text.replace(/(\.\d*?)0+(?=\D|$)/u, (_, kept: string) => (kept === '.' ? '' : kept))
}

function percent(fraction: number): string {
  return `±${withoutZeros(formatQuantity(fraction, 'fraction'))}`
}

const figures = (text: string) =>
  text
    .replace(/[^\d.]/gu, '')
    .replace('.', '')
    .replace(/^0+/u, '').length

/** A value as it stands in its entry: three significant figures, or as many more as it exactly has. */
export function shown(field: QuantityField, value: number): string {
  if (field.written) {
    const { written, ...plain } = field
    return `${shown({ ...plain, unit: '' }, Number((value * written.factor).toPrecision(12)))}\u202F${written.unit}`
  }
  const isLonger = Number(value.toPrecision(3)) !== value
  const digits = isLonger ? Math.min(figures(entryText(value, field.unit)), 12) : 3
  const text = formatQuantity(value, field.unit, Math.max(digits, 3))
  return (field.sign ?? '') + (field.sign === '≤' ? '\u202F' : '') + (field.isPlain ? withoutZeros(text) : text)
}

/** The value of one step in the last digit that `shown` writes. Same unit as the value; `zero` is the step at 0. */
export function lastDigit(field: QuantityField, value: number, zero: number): number {
  const mantissa = /\d+(?:\.(\d+))?/u.exec(shown(field, value))
  const number = Number(mantissa?.[0] ?? 0)
  if (value === 0 || number === 0) return zero
  const scale = Math.round(Math.log10(Math.abs(value) / number))
  return Number(`1e${scale - (mantissa?.[1]?.length ?? 0)}`)
}
