/** Checks one entry together with all the others. */
import type { Study } from '../../engine/requirements/study.ts'

export type FieldValue = number | string | boolean | undefined

/** Either the whole study with the value in place, or why it cannot be. */
export type CheckedEdit =
  | { study: Study; problem?: undefined }
  | { study?: undefined; problem: string; fix?: { label: string; value: number } }

/** Where a path leads: `title` and `weights.…` hang on the study, all else on its requirements. */
function rooted(path: string): string[] {
  const keys = path.split('.')
  return keys[0] === 'title' || keys[0] === 'weights' ? keys : ['requirements', ...keys]
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
    const copy: Record<string, unknown> = { ...node }
    if (rest.length > 0) copy[key] = put((copy[key] ?? {}) as object, rest)
    else if (value === undefined) delete copy[key]
    else copy[key] = value
    return copy
  }
  return put(study, rooted(path)) as Study
}

export declare function checkEdit(study: Study, path: string, value: FieldValue): CheckedEdit
