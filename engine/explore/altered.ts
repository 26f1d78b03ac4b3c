/** Another study than the one in force: one requirement changed, and whatever must follow it so that the study stays valid. */
import { checkStudy, movedTo, studyFile } from '../requirements/index.ts'
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
  const next = movedTo(study, path, value)
  if (!checkStudy(studyFile(next)).ok) return undefined
  const nominal = `${path.split('.')[0]!}.nominal`
  const followed = valueAt(next, nominal)
  const follows = followed !== undefined && followed !== valueAt(study, nominal)
  return { study: next, edits: follows ? { [path]: value, [nominal]: followed } : { [path]: value } }
}
