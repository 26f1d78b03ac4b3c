/**
 * What is written down at once, before any database has answered: the study on this tab's desk with its unfinished entries,
 * and every edit that is not stored yet. A tab that is closed in the middle of an edit loses nothing.
 */
import type { Study } from '../../engine/requirements/study.ts'
import { readStudyFile, writeStudyFile } from './check.ts'
import { forgetText, keysOf, readShared, readText, writeShared, writeText } from './persistence.ts'

const DESK = 'wattfork.study'
const EDIT = 'wattfork.edit.'

export interface Saved {
  /** Its name in the library; absent in what was written before there was a library. */
  id?: string
  study: Study
  /** Texts that are not in force, by path. */
  texts: Record<string, string>
  /** When it changed, in milliseconds since 1970. */
  changed?: number
  /** Tokens of the stored record that this is a later state of: the last one known to be stored, and one on its way. */
  seen?: readonly string[]
  /** Everything in it is stored. */
  isStored?: boolean
}

function read(text: string | undefined): Saved | undefined {
  if (text === undefined) return undefined
  try {
    const content = JSON.parse(text) as Record<'id' | 'study' | 'texts' | 'changed' | 'seen' | 'isStored', unknown>
    const { study } = readStudyFile(JSON.stringify(content.study))
    if (!study) return undefined
    const texts = Object.entries(content.texts ?? {}).filter((e): e is [string, string] => typeof e[1] === 'string')
    const seen = Array.isArray(content.seen) ? content.seen.filter((token) => typeof token === 'string') : []
    return {
      ...(typeof content.id === 'string' && { id: content.id }),
      study,
      texts: Object.fromEntries(texts),
      ...(typeof content.changed === 'number' && { changed: content.changed }),
      seen,
      isStored: content.isStored === true,
    }
  } catch {
    // a text that another version or another hand wrote is not worth a failure
    return undefined
  }
}

const write = ({ study, ...rest }: Saved) =>
  JSON.stringify({ study: JSON.parse(writeStudyFile(study)) as unknown, ...rest })

/** What the last visit left on the desk; undefined where there is nothing or nothing valid. */
export const readSaved = (): Saved | undefined => read(readText(DESK))

export function writeSaved(saved: Saved): void {
  writeText(DESK, write(saved))
}

/** Writes down an edit that is not stored yet, for whichever page comes next. */
export function writeEdit(id: string, saved: Saved): void {
  writeShared(EDIT + id, write({ ...saved, id }))
}

/** The edit is stored. */
export function forgetEdit(id: string): void {
  forgetText(EDIT + id)
}

/** Edits that no page has stored, with the id of their study. */
export function unstoredEdits(): (Saved & { id: string })[] {
  return keysOf(EDIT).flatMap((key) => {
    const saved = read(readShared(key))
    return saved ? [{ ...saved, id: key.slice(EDIT.length) }] : []
  })
}
