/** Another study than the one in force: one requirement changed, and whatever must follow it so that the study stays valid. */
import { checkStudy, studyFile } from '../requirements/index.ts'
import type { Requirements, Study } from '../requirements/study.ts'

export type RequirementValue = number | boolean

/** Values to put in force together, by path such as `input.max`. */
export type Edits = Record<string, RequirementValue>

export interface Altered {
  study: Study
  edits: Edits
}

type Groups = Record<string, Record<string, RequirementValue> | undefined>

const groupsOf = (requirements: Requirements): Groups => requirements as unknown as Groups

/** The value at a path of two keys; undefined where a limit is left out. */
export function valueAt({ requirements }: Study, path: string): RequirementValue | undefined {
  const [group, key] = path.split('.') as [string, string]
  return groupsOf(requirements)[group]?.[key]
}

/**
 * The study with one value changed; undefined where that is no valid study. A nominal value stays where it is as long as it
 * lies inside its range, and goes with the end that passes it.
 */
export function altered(study: Study, path: string, value: RequirementValue): Altered | undefined {
  const [group, key] = path.split('.') as [string, string]
  const edits: Edits = { [path]: value }
  const nominal = valueAt(study, `${group}.nominal`)
  if (typeof value === 'number' && typeof nominal === 'number') {
    if ((key === 'max' && nominal > value) || (key === 'min' && nominal < value)) edits[`${group}.nominal`] = value
  }
  const requirements = { ...study.requirements }
  for (const [at, entry] of Object.entries(edits)) {
    const [of, name] = at.split('.') as [string, string]
    Object.assign(requirements, { [of]: { ...groupsOf(requirements)[of], [name]: entry } })
  }
  const next: Study = { ...study, requirements }
  return checkStudy(studyFile(next)).ok ? { study: next, edits } : undefined
}
