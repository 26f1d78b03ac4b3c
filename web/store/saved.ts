/** The study on the desk, unfinished entries included, kept from one visit to the next. */
import type { Study } from '../../engine/requirements/study.ts'
import { readStudyFile, writeStudyFile } from './check.ts'
import { readText, writeText } from './persistence.ts'

const KEY = 'wattfork.study'

export interface Saved {
  study: Study
  /** Texts that are not in force, by path. */
  texts: Record<string, string>
}

/** What the last visit left; undefined where there is nothing or nothing valid. */
export function readSaved(): Saved | undefined {
  const text = readText(KEY)
  if (text === undefined) return undefined
  try {
    const { study: file, texts } = JSON.parse(text) as { study?: unknown; texts?: Record<string, unknown> }
    const { study } = readStudyFile(JSON.stringify(file))
    if (!study) return undefined
    const kept = Object.entries(texts ?? {}).filter((e): e is [string, string] => typeof e[1] === 'string')
    return { study, texts: Object.fromEntries(kept) }
  } catch {
    // a text that another version or another hand wrote is not worth a failure
    return undefined
  }
}

export function writeSaved({ study, texts }: Saved): void {
  writeText(KEY, JSON.stringify({ study: JSON.parse(writeStudyFile(study)) as unknown, texts }))
}
