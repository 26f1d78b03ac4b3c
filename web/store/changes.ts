/** What changed from one study to another, in words for the undo button. */
import type { Study } from '../../engine/requirements/study.ts'
import { readPath } from './check.ts'
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

/** Everything that two studies may differ in. */
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
  const [path] = changed
  if (path === undefined) return before.notes === after.notes ? undefined : { label: 'Notes', short: 'notes' }
  const more = changed.length > 1 ? ` and ${changed.length - 1} more` : ''
  const short = fromTo(say(path, readPath(before, path)), say(path, readPath(after, path)))
  return { label: `${named(path)} ${short}${more}`, short: short + more }
}
