/** What changed from one study to another, in words for the undo button. */
import { capital } from '../../engine/units/index.ts'
import type { Study } from '../../engine/requirements/study.ts'
import { readPath, rooted } from './check.ts'
import type { FieldValue } from './check.ts'
import { pinPath, pinPlace, pinsOf, pinText } from './pins.ts'
import { CHOICES, QUANTITY_PATHS, quantityField, shown } from './fields.ts'

export interface Change {
  /** "Highest input voltage 12.0 → 12.4 V" */
  label: string
  /** "12.0 → 12.4 V" */
  short: string
}

/** A value in words. */
export function say(path: string, value: FieldValue): string {
  const place = pinPlace(path)
  if (place)
    return typeof value === 'string' || typeof value === 'number' ? pinText(place.topology, place.part, value) : 'none'
  if (value === undefined) return quantityField(path).otherwise ?? 'not judged'
  const choice = CHOICES.find((field) => field.path === path)
  if (choice) return choice.choices.find((c) => c.value === value)?.label ?? String(value)
  return typeof value === 'number' ? shown(quantityField(path), value) : String(value)
}

/** Two values of one unit name it once: "12.0 → 12.4 V". */
function fromTo(before: string, after: string): string {
  const unit = /[^\d.]+$/u
  const [from, to] = [unit.exec(before)?.[0], unit.exec(after)?.[0]]
  return `${from !== undefined && from === to ? before.slice(0, -from.length) : before} → ${after}`
}

const pinsOfStudy = (study: Study): string[] => pinsOf(study).map(({ topology, part }) => pinPath(topology, part))

/** The field's name, before the values. */
function named(path: string): string {
  if (path === 'title') return 'Title'
  const place = pinPlace(path)
  if (place) return `Pin on ${place.part} of ${place.topology}:`
  return CHOICES.find((field) => field.path === path)?.name ?? quantityField(path).name
}

/** What the study's keys are called where no value of theirs can be named. */
const KEYS: Record<string, string> = { notes: 'Notes', profile: 'Load profile' }

/** Whether two plain values differ; a key that holds nothing is none, and the order of keys does not count. */
function isUnlike(a: unknown, b: unknown): boolean {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return !Object.is(a, b)
  if (Array.isArray(a) !== Array.isArray(b)) return true
  const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>]
  return Object.keys({ ...one, ...other }).some((key) => isUnlike(one[key], other[key]))
}

/** The keys of the study that differ though none of `named` says how: notes, rows of a profile, whatever has no field. */
function otherKeys(before: Study, after: Study, named: readonly string[]): string[] {
  const [from, to] = [{ ...before } as Record<string, unknown>, { ...after } as Record<string, unknown>]
  const told = new Set(named.map((path) => rooted(path)[0]))
  return Object.keys({ ...from, ...to }).filter((key) => !told.has(key) && isUnlike(from[key], to[key]))
}

/** Every path in a field of the page at which two studies may differ. */
export function paths(before: Study, after: Study): string[] {
  const weights = new Set([...Object.keys(before.weights), ...Object.keys(after.weights)])
  const assumed = (['prices', 'areas'] as const).flatMap((kind) => {
    const names = [before, after].flatMap(({ assumptions }) => Object.keys(assumptions[kind]))
    return [...new Set(names)].map((name) => `assumptions.${kind}.${name}`)
  })
  const rows = Math.min(before.profile?.length ?? 0, after.profile?.length ?? 0)
  const profile = Array.from({ length: rows }, (_, k) =>
    ['load', 'share', 'ambient'].map((name) => `profile.${k}.${name}`),
  )
  return [
    'title',
    ...QUANTITY_PATHS,
    ...CHOICES.map((field) => field.path),
    ...[...weights].map((name) => `weights.${name}`),
    ...assumed,
    ...new Set([before, after].flatMap(pinsOfStudy)),
    ...profile.flat(),
  ]
}

/** The first difference, and how many more there are; undefined where there is none. */
export function describeChange(before: Study, after: Study): Change | undefined {
  const changed = paths(before, after).filter((path) => readPath(before, path) !== readPath(after, path))
  const others = otherKeys(before, after, changed)
  const count = changed.length + others.length
  const more = count > 1 ? ` and ${count - 1} more` : ''
  const [path] = changed
  if (path === undefined) {
    const [key] = others
    if (key === undefined) return undefined
    const name = KEYS[key] ?? capital(key)
    return { label: name + more, short: name.toLowerCase() + more }
  }
  const short = fromTo(say(path, readPath(before, path)), say(path, readPath(after, path)))
  return { label: `${named(path)} ${short}${more}`, short: short + more }
}
