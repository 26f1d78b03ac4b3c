/** Checks one entry together with all the others. */
import {
  checkField,
  checkStudy,
  isText,
  parseStudyText,
  rangeOf as fieldRange,
  studyFile,
} from '../../engine/requirements/index.ts'
import type { Issue, Study } from '../../engine/requirements/index.ts'
import { quantityField, shown } from './fields.ts'
import { withoutEmptyPins } from './pins.ts'

export type FieldValue = number | string | boolean | undefined

/** A value that would be accepted in place of the one that was not. */
export interface Fix {
  label: string
  value: number
}

/** Either the whole study with the value in place, or why it cannot be. */
export type CheckedEdit = { study: Study; problem?: undefined } | { study?: undefined; problem: string; fix?: Fix }

/** Where a path leads: texts and these keys hang on the study, all else on its requirements. */
function rooted(path: string): string[] {
  const keys = path.split('.')
  return isText(path) || ['weights', 'assumptions', 'pins', 'profile'].includes(keys[0]!)
    ? keys
    : ['requirements', ...keys]
}

/** The value of a study at a path such as `input.max`; undefined where a limit is left out. */
export function readPath(study: Study, path: string): FieldValue {
  let at: unknown = study
  for (const key of rooted(path)) at = (at as Record<string, unknown> | undefined)?.[key]
  return at as FieldValue
}

/** A copy with `value` at `path`; `undefined` takes the key away. */
export function withPath(study: Study, path: string, value: FieldValue): Study {
  const put = (node: object, keys: readonly string[]): object => {
    const [key, ...rest] = keys as [string, ...string[]]
    const copy = (Array.isArray(node) ? [...(node as unknown[])] : { ...node }) as Record<string, unknown>
    if (rest.length > 0) copy[key] = put(copy[key] ?? {}, rest)
    else if (value === undefined) delete copy[key]
    else copy[key] = value
    return copy
  }
  const next = put(study, rooted(path)) as Study
  return next.pins ? withoutEmptyPins(next) : next
}

/** Smallest and largest value that the field may ever hold; the other requirements may narrow it. */
export function rangeOf(path: string): { min: number; max: number } {
  const range = fieldRange(path)
  if (!range) throw new Error(`store: no number at ${path}`)
  return range
}

/** The study with `value` at `path`, if that is a valid study; otherwise why not, and the nearest value that would be. */
export function checkEdit(study: Study, path: string, value: FieldValue): CheckedEdit {
  const next = withPath(study, path, value)
  const issues = checkField(path, value, study)
  // one sentence is enough; one about this very field says it best
  const issue = issues.find((own) => isAbout(own, path)) ?? issues[0]
  if (!issue) return { study: next }
  const problem = issue.message
  const own = nearestAllowed(study, path, value, issue)
  return own === undefined ? { problem } : { problem, fix: { label: shown(quantityField(path), own), value: own } }
}

const isAbout = (issue: Issue, path: string) => issue.path.replace(/^requirements\./u, '') === path

/** Of the values that the problem and the neighbouring fields suggest, the closest one that would be accepted. */
function nearestAllowed(study: Study, path: string, value: FieldValue, issue: Issue): number | undefined {
  if (typeof value !== 'number') return undefined
  const [group] = path.split('.')
  const candidates = [
    isAbout(issue, path) ? issue.nearest : undefined,
    ...['min', 'nominal', 'max'].map((key) => readPath(study, `${group}.${key}`)),
  ]
  return candidates
    .filter((candidate) => typeof candidate === 'number')
    .filter((candidate) => checkField(path, candidate, study).length === 0)
    .toSorted((a, b) => Math.abs(a - value) - Math.abs(b - value))[0]
}

/** Whether a whole study could be put in force. */
export function isValid(study: Study): boolean {
  return checkStudy(studyFile(study)).ok
}

/** The study that a file holds, or one sentence for each of its problems. */
export type StudyRead = { study: Study; problems?: undefined } | { study?: undefined; problems: string[] }

/** A study file's text read and checked. */
export function readStudyFile(text: string): StudyRead {
  const read = parseStudyText(text)
  return read.ok ? { study: read.study } : { problems: read.issues.map(({ message }) => message) }
}

/** The study as the text of a study file. */
export function writeStudyFile(study: Study): string {
  return `${JSON.stringify(studyFile(study), undefined, 2)}\n`
}
