/** How problems are worded: always on one line, so that a terminal shows one problem a line. */
import { entryText } from '../units/index.ts'
import { labelOf, type FieldRange } from './fields.ts'

export type IssueCode =
  | 'missing'
  | 'type'
  | 'range'
  | 'choice'
  | 'order'
  | 'unknown-key'
  | 'length'
  | 'format'
  | 'version'
  | 'size'
  | 'json'

/** One problem of a study, for the person who wrote it. */
export interface Issue {
  /** Place in the study file, `requirements.input.max`; empty for the file as a whole. */
  path: string
  /** One sentence on one line: the place, the value got, what is allowed. */
  message: string
  code: IssueCode
  /** The nearest value that this rule would accept, where there is one. */
  nearest?: number
}

/** A problem before it is known whether it will speak of paths or of labels. Paths are those of the file. */
export interface Finding {
  path: string
  code: IssueCode
  /** Further fields that the rule looks at. */
  involves?: readonly string[]
  /** What follows the name of the field, without the full stop. */
  says: (words: Words) => string
  nearest?: number
}

/** The two ways to speak: of the file (paths, numbers as they stand in it) and of the page (labels, prefixed units). */
export interface Words {
  /** Name of the field at a path of the file. */
  name: (path: string) => string
  value: (value: number, unit: string) => string
}

export const FILE_WORDS: Words = {
  name: (path) => path || 'The study',
  value: (value, unit) => (unit === 'fraction' || unit === '' ? String(value) : `${value} ${unit}`),
}

export const PAGE_WORDS: Words = {
  name: (path) => labelOf(path.replace(/^requirements\./u, '')),
  value: entryText,
}

const LONGEST_SHOWN = 40

/** The allowed range in words: `1 V to 100 V`; as the page says it unless told otherwise. */
export function rangeText({ min, max, unit }: Pick<FieldRange, 'min' | 'max' | 'unit'>, words = PAGE_WORDS): string {
  return `${words.value(min, unit)} to ${words.value(max, unit)}`
}

/** What was got, whatever it is, short and on one line. */
export function gotText(value: unknown, words: Words, unit = ''): string {
  if (typeof value === 'number') {
    if (Number.isNaN(value)) return 'not a number (NaN)'
    return Number.isFinite(value) ? words.value(value, unit) : `beyond every number (${value})`
  }
  if (typeof value === 'string') return `the text ${quoted(value)}`
  if (typeof value === 'boolean' || value === null) return String(value)
  if (Array.isArray(value)) return 'a list'
  return typeof value === 'object' ? 'an object' : `of the type ${typeof value}`
}

/** A text in quotation marks, escaped to one line and cut to a readable length. */
export function quoted(text: string): string {
  const cut = text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text
  // JSON leaves these two line ends and the C1 controls as they are
  return JSON.stringify(cut).replace(
    /[\u007f-\u009f\u2028\u2029]/gu,
    (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )
}

/** `path` with one more key; a key that is no plain word is quoted: `weights["part count"]`. */
export function joinPath(path: string, key: string): string {
  if (!/^[A-Za-z][\w-]{0,60}$/u.test(key)) return `${path}[${quoted(key)}]`
  return path === '' ? key : `${path}.${key}`
}

/** A list of words: `a, b or c`. */
export function oneOf(words: readonly string[]): string {
  const last = words.at(-1) ?? ''
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} or ${last}`
}

/** A size in bytes to three figures: `50.0 MB`. */
export function sizeText(bytes: number): string {
  const megabytes = bytes / 1e6
  return `${megabytes >= 100 ? Math.round(megabytes) : megabytes.toPrecision(3)} MB`
}
