/** A study of the library in memory, and the way to and from the record that is stored. */
import { LONGEST_TITLE, studyFile } from '../../engine/requirements/index.ts'
import type { Study } from '../../engine/requirements/index.ts'
import { readStudyFile } from './check.ts'
import { isSameContent } from './shelf.ts'
import type { StudyRecord } from './shelf.ts'

export interface Kept {
  readonly id: string
  readonly study: Study
  /** Texts of entries that are not in force, by path. */
  readonly texts: Readonly<Record<string, string>>
  /** When its content last changed, in milliseconds since 1970. */
  readonly changed: number
}

/** A record that this version cannot read: it is left as it is. */
export interface Unreadable {
  readonly id: string
  readonly title: string
  readonly problems: readonly string[]
  readonly record: StudyRecord
}

export function recordOf({ id, study, texts, changed }: Kept, token: string): StudyRecord {
  return { id, token, changed, file: studyFile(study), texts: { ...texts } }
}

/** The study of a record; where it cannot be read, why not. */
export function keptOf(record: StudyRecord): Kept | Unreadable {
  const read = readStudyFile(JSON.stringify(record.file ?? null))
  const { id, changed, texts } = record
  if (read.study) return { id, study: read.study, texts: texts ?? {}, changed }
  const title: unknown = (record.file as { title?: unknown } | null | undefined)?.title
  return { id, title: typeof title === 'string' ? title : 'A study without a title', problems: read.problems, record }
}

export const isReadable = (entry: Kept | Unreadable): entry is Kept => 'study' in entry

/** Whether two states of a study hold the same. */
export function isSame(a: Kept, b: Kept): boolean {
  return a.study === b.study && a.texts === b.texts
    ? true
    : isSameContent(
        { file: studyFile(a.study), texts: { ...a.texts } },
        { file: studyFile(b.study), texts: { ...b.texts } },
      )
}

const COPY = /, copy(?: (\d+))?$/u

/** The title of a copy, unlike all `taken` ones: `Bench rail, copy`, then `Bench rail, copy 2`. */
export function copyTitle(title: string, taken: readonly string[]): string {
  const stem = title.replace(COPY, '')
  for (let n = 1; ; n++) {
    const ending = n === 1 ? ', copy' : `, copy ${n}`
    const copy = stem.slice(0, LONGEST_TITLE - ending.length) + ending
    if (!taken.includes(copy)) return copy
  }
}

/** A name that no other has: 128 random bits. */
export function newId(): string {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join('')
}
