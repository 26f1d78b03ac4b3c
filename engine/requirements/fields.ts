/**
 * The fields of a study as data: label, unit, allowed range, choices and defaults, for the checks and for the page alike. Paths are those
 * of the study without the leading `requirements.`: `input.max`, `limits.loadRegulation`.
 */
import { type EnvironmentName, type QualityName, assumedRange } from './assumed.ts'
import { profileRange } from './profile.ts'
import type { DeratingName, Mounting, SeriesName, Weights } from './study.ts'

export interface FieldRange {
  /** As messages and forms name it. */
  readonly label: string
  /** Unit of the stored value as `engine/units` knows it; `fraction` is written in per cent. */
  readonly unit: string
  /** Both ends are allowed; rules between fields (`rules.ts`) narrow them further. */
  readonly min: number
  readonly max: number
  /** The file may leave it out; what then holds, in words. */
  readonly otherwise?: string
}

const volts = { unit: 'V', min: 1, max: 100 } as const
// Least load current at `max`: the range of the file format; 0 is a load that can be switched off.
const amperes = { unit: 'A', min: 0, max: 10 } as const
const celsius = { unit: '°C', min: -55, max: 125 } as const

/** Allowed values of every number in the requirements. The file format states the ranges; those marked are this version's own. */
export const RANGES = {
  'input.min': { label: 'Lowest input voltage', ...volts },
  'input.nominal': { label: 'Nominal input voltage', ...volts, otherwise: 'halfway between lowest and highest' },
  'input.max': { label: 'Highest input voltage', ...volts },
  'input.ripple': { label: 'Input ripple, peak to peak', unit: 'V', min: 0, max: 99, otherwise: 'none' },
  // our own: from slow sags to switching converters
  'input.rippleFrequency': { label: 'Ripple frequency', unit: 'Hz', min: 1, max: 10e6, otherwise: '100 Hz' },
  'output.voltage': { label: 'Output voltage', unit: 'V', min: 1, max: 60 },
  'output.tolerance': { label: 'Output band', unit: 'fraction', min: 0.001, max: 0.3 },
  'load.min': { label: 'Least load current', ...amperes },
  'load.nominal': { label: 'Nominal load current', ...amperes, otherwise: 'the most load current' },
  'load.max': { label: 'Most load current', unit: 'A', min: 1e-6, max: 10 },
  'ambient.min': { label: 'Coldest ambient', ...celsius },
  'ambient.nominal': { label: 'Nominal ambient', ...celsius, otherwise: 'halfway between coldest and hottest' },
  'ambient.max': { label: 'Hottest ambient', ...celsius },
  // our own, wide on purpose: a limit that nothing meets is an answer, not an error
  'limits.loadRegulation': {
    label: 'Limit of load regulation',
    unit: 'fraction',
    min: 0,
    max: 1,
    otherwise: 'not judged',
  },
  'limits.lineRegulation': {
    label: 'Limit of line regulation',
    unit: 'fraction',
    min: 0,
    max: 1,
    otherwise: 'not judged',
  },
  'limits.outputRipple': {
    label: 'Limit of output ripple, peak to peak',
    unit: 'V',
    min: 0,
    max: 100,
    otherwise: 'not judged',
  },
  // our own: from the best bulk-metal foil to the E6 series' grade
  'parts.resistorTolerance': { label: 'Resistor tolerance', unit: 'fraction', min: 0.0001, max: 0.2, otherwise: '1 %' },
} as const satisfies Record<string, FieldRange>

export type NumberPath = keyof typeof RANGES

/** Range of every weight; which figures may be weighed is a parameter of `checkStudy`. */
export const WEIGHT_RANGE: FieldRange = { label: 'Weight', unit: '', min: 0, max: 10, otherwise: '0' }

/** The words that a field may hold. */
export const CHOICES = {
  'parts.resistorSeries': { label: 'Resistor series', values: ['E6', 'E12', 'E24', 'E48', 'E96', 'E192'] },
  'parts.mounting': { label: 'Mounting', values: ['through-hole', 'surface-mount', 'any'] },
  derating: {
    label: 'Derating',
    values: [
      'standard',
      'navsea-sd-18-protected',
      'navsea-sd-18',
      'navsea-sd-18-severe',
      'nasa-eee-inst-002',
      'ecss-q-st-30-11c',
      'none',
    ],
  },
  'assumptions.environment': { label: 'Environment', values: ['ground-benign', 'ground-fixed', 'ground-mobile'] },
  'assumptions.quality': { label: 'Quality of the parts', values: ['commercial', 'lower', 'military'] },
} as const satisfies {
  'parts.resistorSeries': { label: string; values: readonly SeriesName[] }
  'parts.mounting': { label: string; values: readonly Mounting[] }
  derating: { label: string; values: readonly DeratingName[] }
  'assumptions.environment': { label: string; values: readonly EnvironmentName[] }
  'assumptions.quality': { label: string; values: readonly QualityName[] }
}

export type ChoicePath = keyof typeof CHOICES

/** Fields that are true or false. */
export const SWITCHES = {
  'load.permanent': { label: 'Load is permanent' },
  'limits.survivesShort': { label: 'Survives a shorted output' },
} as const satisfies Record<string, { label: string }>

export const LONGEST_TITLE = 200
/** Characters: some pages of text, and still a link that can be sent. */
export const LONGEST_NOTES = 10_000

/** The texts of a study, with the most characters that each may have. */
export const TEXTS = {
  title: { label: 'Title', longest: LONGEST_TITLE },
  notes: { label: 'Notes', longest: LONGEST_NOTES },
} as const satisfies Record<string, { label: string; longest: number }>

export type TextPath = keyof typeof TEXTS

/** Whether a path is that of a text, which hangs on the study and not on its requirements. */
export const isText = (path: string): path is TextPath => Object.hasOwn(TEXTS, path)

/** Figures that may carry a weight, unless the caller knows more. */
export const FIGURE_NAMES: readonly string[] = [
  'efficiency',
  'heat',
  'partCount',
  'loadRegulation',
  'lineRegulation',
  'standbyPower',
  'outputResistance',
  'temperatureDrift',
  'minimumInput',
  'cost',
  'boardArea',
  'failureRateFit',
]

/**
 * What holds where the file says nothing. Nominal values have no constant: input and ambient take the midpoint of their range, load
 * takes its maximum. A limit that is left out is not judged. Weights stand for the whole record: a file that gives weights gives them all,
 * and a figure it leaves out weighs 0.
 */
export const DEFAULTS = {
  title: 'Untitled study',
  ripple: 0,
  rippleFrequency: 100,
  permanent: false,
  survivesShort: false,
  resistorSeries: 'E24',
  resistorTolerance: 0.01,
  mounting: 'through-hole',
  derating: 'standard',
  environment: 'ground-fixed',
  quality: 'commercial',
  weights: { efficiency: 3, heat: 3, partCount: 2, loadRegulation: 3 },
} as const satisfies Record<string, string | number | boolean | Weights>

/** A name of the file as words: `partCount` is part count. */
const spaced = (name: string): string => name.replace(/[A-Z]/gu, (letter) => ` ${letter.toLowerCase()}`)

/** Label and range of a number at `path`, weights included; `undefined` where the path holds no number. */
export function rangeOf(path: string): FieldRange | undefined {
  if (path.startsWith('weights.'))
    return { ...WEIGHT_RANGE, label: `Weight of ${spaced(path.slice('weights.'.length))}` }
  return Object.hasOwn(RANGES, path) ? RANGES[path as NumberPath] : (assumedRange(path) ?? profileRange(path))
}

/** The label of any field; the path itself where it has none. */
export function labelOf(path: string): string {
  const range = rangeOf(path)
  if (range !== undefined) return range.label
  if (Object.hasOwn(CHOICES, path)) return CHOICES[path as ChoicePath].label
  if (Object.hasOwn(SWITCHES, path)) return SWITCHES[path as keyof typeof SWITCHES].label
  if (isText(path)) return TEXTS[path].label
  if (path === 'profile') return 'Load profile'
  const [, topology, id] = /^pins\.([^.]+)\.([^.]+)$/u.exec(path) ?? []
  return topology !== undefined && id !== undefined ? `Pinned ${id} of ${topology}` : path
}
