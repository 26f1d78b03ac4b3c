import { DEFAULTS, FIGURE_NAMES, isText } from './fields.ts'
import { migrate, MIGRATIONS, studyFile, type Migration } from './file.ts'
import { listedNumber, pinnedFamily, pinnedIds, PINNED_TOPOLOGIES } from './pins.ts'
import { brokenProfileRules, MOST_ROWS } from './profile.ts'
import { brokenRules } from './rules.ts'
import { VERSION, type CheckedFile } from './schema.ts'
import { readOwn, strayKey, structure } from './structure.ts'
import type { PinsByTopology, Study } from './study.ts'
import { FILE_WORDS, gotText, joinPath, PAGE_WORDS, type Finding, type Issue, type Words } from './wording.ts'

export type Checked = { ok: true; study: Study } | { ok: false; issues: Issue[] }

/**
 * Checks the content of a study file and fills in its defaults. Every problem is reported, each with its place, the value got and what
 * is allowed; nothing is thrown, whatever `value` is. `figureNames` are the figures that may carry a weight; `migrations` bring
 * files of earlier versions up to this one.
 */
export function checkStudy(
  value: unknown,
  figureNames: readonly string[] = FIGURE_NAMES,
  migrations: readonly Migration[] = MIGRATIONS,
): Checked {
  const checked = inspect(value, figureNames, migrations)
  if (checked.study !== undefined) return { ok: true, study: checked.study }
  return { ok: false, issues: checked.findings.map((finding) => worded(finding, FILE_WORDS)) }
}

/**
 * Checks one new value in an otherwise valid study: all problems in which the field has a part, worded with the fields' labels. `path`
 * is `input.max`, `weights.heat` or the same with `requirements.` before it; `value` is SI, `undefined` stands for a field left out.
 */
export function checkField(
  path: string,
  value: unknown,
  study: Study,
  figureNames: readonly string[] = FIGURE_NAMES,
): Issue[] {
  const keys = (
    /^(requirements|assumptions|weights|pins|profile)\./u.test(path) || path === 'profile' || isText(path)
      ? path
      : `requirements.${path}`
  ).split('.')
  // a row of a list stands in paths as it does in those of the schema
  const filed = keys[0] === 'profile' ? keys.join('.') : keys.reduce(joinPath, '')
  const last = keys.pop() ?? ''
  const file = studyFile(study)
  let place: unknown = file
  for (const key of keys) place = filed.startsWith('pins.') ? opened(place, key) : readOwn(place, key)
  if (typeof place !== 'object' || place === null) return [worded(strayKey(filed, []), PAGE_WORDS)]
  Object.defineProperty(place, last, { value, enumerable: true, configurable: true, writable: true })
  return inspect(file, figureNames)
    .findings.filter(
      ({ path: at, involves }) => at === filed || at.startsWith(`${filed}.`) || involves?.includes(filed),
    )
    .map((finding) => worded(finding, PAGE_WORDS))
}

/** The object at `key`, put there where there is none: a study without pins has no place for the first one. */
function opened(place: unknown, key: string): unknown {
  const there = readOwn(place, key)
  if (there !== undefined || typeof place !== 'object' || place === null) return there
  const made = {}
  Object.defineProperty(place, key, { value: made, enumerable: true, configurable: true, writable: true })
  return made
}

function worded(finding: Finding, words: Words): Issue {
  const { path, code, nearest } = finding
  return {
    path,
    code,
    message: `${words.name(path)} ${finding.says(words)}.`,
    ...(nearest !== undefined && { nearest }),
  }
}

function inspect(
  value: unknown,
  figureNames: readonly string[],
  migrations?: readonly Migration[],
): { study?: Study; findings: Finding[] } {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return {
      findings: [{ path: '', code: 'type', says: (words) => `is ${gotText(value, words)}; it must be an object` }],
    }
  }
  const newer = newerVersion(value)
  if (newer !== undefined) return { findings: [newer] }
  const file = migrate(value, migrations)

  const { findings, output } = structure(file, figureNames)
  const refused = new Set(findings.map((finding) => finding.path))
  const read = (path: string): number | undefined => {
    const got = refused.has(path) ? undefined : path.split('.').reduce<unknown>(readOwn, file)
    return typeof got === 'number' && Number.isFinite(got) ? got : undefined
  }
  findings.push(...brokenRules((path) => read(`requirements.${path}`)))
  findings.push(...brokenProfileRules(profileAsRead(file, read)))
  if (findings.length > 0 || output === undefined) return { findings }
  return { study: completed(output), findings }
}

/** What the rules of the load profile look at, as far as it is valid by itself. */
function profileAsRead(file: object, read: (path: string) => number | undefined) {
  const listed = readOwn(file, 'profile')
  const known = <K extends string>(names: readonly K[], at: string) =>
    Object.fromEntries(
      names.flatMap((name) => {
        const value = read(`${at}.${name}`)
        return value === undefined ? [] : [[name, value]]
      }),
    ) as Partial<Record<K, number>>
  const rows = Array.isArray(listed) ? listed.slice(0, MOST_ROWS) : []
  return {
    rows: rows.map((_, k) => known(['load', 'share', 'ambient'], `profile.${k}`)),
    load: known(['min', 'max'], 'requirements.load'),
    ambient: known(['min', 'max'], 'requirements.ambient'),
  }
}

/** A file of a later version may hold what this one does not know: its other problems would mislead. */
function newerVersion(file: object): Finding | undefined {
  const version = readOwn(file, 'version')
  if (typeof version !== 'number' || !(version > VERSION)) return undefined
  return {
    path: 'version',
    code: 'version',
    says: () =>
      `is ${version}, newer than ${VERSION}, the newest that this program reads; open the study with a newer program`,
  }
}

/** The study with its defaults; `+ 0` turns minus zero into zero, which a file cannot tell apart. */
function completed(file: CheckedFile): Study {
  const { input, output, load, ambient, limits, parts, derating } = file.requirements
  const { loadRegulation, lineRegulation, outputRipple, survivesShort } = limits
  const { environment, quality, prices, areas } = file.assumptions
  const weights = Object.entries(file.weights ?? DEFAULTS.weights)
  return {
    title: file.title,
    // no notes and empty notes are one
    ...(file.notes && { notes: file.notes }),
    requirements: {
      input: {
        min: input.min,
        nominal: input.nominal ?? midpoint(input),
        max: input.max,
        ripple: input.ripple + 0,
        rippleFrequency: input.rippleFrequency,
      },
      output,
      load: {
        min: load.min + 0,
        nominal: (load.nominal ?? load.max) + 0,
        max: load.max,
        permanent: load.permanent,
      },
      ambient: {
        min: ambient.min + 0,
        nominal: (ambient.nominal ?? midpoint(ambient)) + 0,
        max: ambient.max + 0,
      },
      limits: {
        ...(loadRegulation !== undefined && { loadRegulation: loadRegulation + 0 }),
        ...(lineRegulation !== undefined && { lineRegulation: lineRegulation + 0 }),
        ...(outputRipple !== undefined && { outputRipple: outputRipple + 0 }),
        survivesShort,
      },
      parts,
      derating,
    },
    assumptions: { environment, quality, prices: given(prices), areas: given(areas) },
    weights: given(Object.fromEntries(weights)),
    ...pinned(file.pins),
    ...(file.profile && {
      profile: file.profile.map(({ load: current, share, ambient: own }) => ({
        load: current + 0,
        share: share + 0,
        ...(own !== undefined && { ambient: own + 0 }),
      })),
    }),
  }
}

/** The pins that there are, in the order of the places; nothing where there are none. */
function pinned(file: CheckedFile['pins']): Pick<Study, 'pins'> {
  const pins: PinsByTopology = {}
  for (const topology of PINNED_TOPOLOGIES) {
    const here = pinnedIds(topology).flatMap((id) => {
      const pin = file?.[topology]?.[id]
      if (pin === undefined) return []
      const meant = typeof pin === 'string' ? listedNumber(pinnedFamily(topology, id)!, pin)! : pin
      return [[id, meant] as const]
    })
    if (here.length > 0) pins[topology] = Object.fromEntries(here)
  }
  return Object.keys(pins).length > 0 ? { pins } : {}
}

/** The entries that hold a number. */
function given(record: Readonly<Record<string, number | undefined>>): Record<string, number> {
  return Object.fromEntries(
    Object.entries(record).flatMap(([name, value]) => (value === undefined ? [] : [[name, value + 0]])),
  )
}

function midpoint({ min, max }: { min: number; max: number }): number {
  return (min + max) / 2
}
