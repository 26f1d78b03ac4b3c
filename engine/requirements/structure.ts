/** Checks of single values and keys: what can be said without looking at two fields at once. */
import * as v from 'valibot'
import { CHOICES, isText, rangeOf, TEXTS, type ChoicePath } from './fields.ts'
import { allowedPins, pinnedFamily, pinnedValues } from './pins.ts'
import { entriesOf, FORMAT, itemOf, studySchema, VERSION, type CheckedFile } from './schema.ts'
import { MOST_ROWS } from './profile.ts'
import { gotText, joinPath, oneOf, quoted, rangeText, type Finding, type Words } from './wording.ts'

/** Unknown keys that are named one by one; the rest of an object is counted. */
const MOST_STRAY_KEYS = 20

/** All problems of shape, type and range in the content of a file; `output` is there when the schema has none. */
export function structure(file: object, figureNames: readonly string[]): { findings: Finding[]; output?: CheckedFile } {
  const schema = studySchema(figureNames)
  const result = v.safeParse(schema, file)
  const findings = strayKeys(file, schema, '')
  // A list passes for an object in the schema, so what the schema finds beneath it would only be noise.
  const lists = findings.filter(({ code }) => code === 'type').map(({ path }) => path)
  const seen = new Set(lists)
  for (const issue of result.issues ?? []) {
    const path = v.getDotPath(issue) ?? ''
    // One problem a value: out of range is not worth saying of a number that is not finite.
    if (seen.has(path) || lists.some((list) => path.startsWith(`${list}.`))) continue
    seen.add(path)
    findings.push(fromSchema(path, issue))
  }
  return { findings, ...(result.success && { output: result.output }) }
}

/** The value of an own key; inherited ones (`constructor`) are not there. */
export function readOwn(value: unknown, key: string): unknown {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined
  return (value as Record<string, unknown>)[key]
}

/** Keys that the schema does not know, looked up as own keys: `constructor` and `__proto__` are keys like all others. */
function strayKeys(value: unknown, schema: v.GenericSchema, path: string): Finding[] {
  const item = itemOf(schema)
  if (item !== undefined && Array.isArray(value))
    return value.slice(0, MOST_ROWS).flatMap((entry, k) => strayKeys(entry, item, `${path}.${k}`))
  const entries = entriesOf(schema)
  if (entries === undefined || typeof value !== 'object' || value === null) return []
  if (Array.isArray(value)) return [{ path, code: 'type', says: () => 'is a list; it must be an object' }]
  const findings: Finding[] = []
  let stray = 0
  for (const key of Object.keys(value)) {
    const known = Object.hasOwn(entries, key) ? entries[key] : undefined
    if (known !== undefined) findings.push(...strayKeys(readOwn(value, key), known, joinPath(path, key)))
    else if (++stray <= MOST_STRAY_KEYS) findings.push(strayKey(joinPath(path, key), Object.keys(entries)))
  }
  const more = stray - MOST_STRAY_KEYS
  if (more > 0) findings.push({ path, code: 'unknown-key', says: () => `has ${more} more unknown keys` })
  return findings
}

/** The problem of a key that has no place at `path`; `allowed` are those that have one. */
export function strayKey(path: string, allowed: readonly string[]): Finding {
  const isPlace = /^pins\.[^.]+[.[]/u.test(path)
  const what = isPlace
    ? 'is no part of any variant'
    : path.startsWith('weights')
      ? 'is not a figure that can be weighed'
      : 'is not a known key'
  return {
    path,
    code: 'unknown-key',
    says: () => (allowed.length > 0 ? `${what}; known here: ${allowed.join(', ')}` : what),
  }
}

/** What the schema found, in our words. */
function fromSchema(path: string, issue: v.BaseIssue<unknown>): Finding {
  const got = issue.input
  const own = path.replace(/^requirements\./u, '')
  const range = rangeOf(own)
  const choice = Object.hasOwn(CHOICES, own) ? CHOICES[own as ChoicePath] : undefined
  const isNumber = typeof got === 'number'
  const [, topology = '', id = ''] = /^pins\.([^.]+)\.([^.]+)$/u.exec(path) ?? []
  const family = pinnedFamily(topology, id)
  const due = (words: Words): string => {
    if (range !== undefined) return `${isNumber ? '' : 'a number '}from ${rangeText(range, words)}`
    if (choice !== undefined) return oneOf(choice.values.map(quoted))
    if (family !== undefined) return allowedPins(family, got, (allowed) => rangeText(allowed, words))
    if (path === 'format') return quoted(FORMAT)
    if (path === 'version') return String(VERSION)
    if (isText(path)) return `a text of at most ${TEXTS[path].longest} characters`
    if (path === 'profile') return `a list of 1 to ${MOST_ROWS} rows`
    return issue.type === 'boolean' ? 'true or false' : 'an object'
  }

  if (got === undefined) return { path, code: 'missing', says: (words) => `is missing; it must be ${due(words)}` }
  if (issue.type === 'max_length' && typeof got === 'string') {
    return { path, code: 'length', says: (words) => `has ${got.length} characters; it must be ${due(words)}` }
  }
  if (Array.isArray(got) && (issue.type === 'min_length' || issue.type === 'max_length')) {
    return { path, code: 'length', says: (words) => `has ${got.length} rows; it must be ${due(words)}` }
  }
  let code: Finding['code'] = 'type'
  if (range !== undefined && isNumber) code = 'range'
  else if (family !== undefined && isNumber) code = pinnedValues(family) ? 'range' : 'type'
  else if (choice !== undefined || (family !== undefined && typeof got === 'string')) code = 'choice'
  else if (path === 'format' || path === 'version') code = path
  return {
    path,
    code,
    says: (words) =>
      `is ${gotText(got, words, range?.unit ?? (family && pinnedValues(family)?.unit))}; it must be ${due(words)}`,
    ...(range !== undefined &&
      Number.isFinite(got) && { nearest: Math.min(Math.max(got as number, range.min), range.max) }),
  }
}
