import { checkStudy, type Checked } from './check.ts'
import { FIGURE_NAMES } from './fields.ts'
import { sizeText, type Issue } from './wording.ts'

/** Bytes: far above any study, far below what would hold up a page. */
export const LARGEST_STUDY = 1_000_000

/** The problem of a file that is too large to be read. `bytes` is its size, or as much as was seen of it with `isAtLeast`. */
export function sizeIssue(bytes: number, isAtLeast = false): Issue {
  const got = `${isAtLeast ? 'at least ' : ''}${sizeText(bytes)}`
  return { path: '', code: 'size', message: `The study is ${got} long; at most ${sizeText(LARGEST_STUDY)} is read.` }
}

/** Reads and checks the text of a study file. A text that is too large is refused before it is parsed; nothing is thrown. */
export function parseStudyText(text: string, figureNames: readonly string[] = FIGURE_NAMES): Checked {
  // A character is at least one byte: cheap, and exact for the plain ASCII of a study.
  if (text.length > LARGEST_STUDY) return { ok: false, issues: [sizeIssue(text.length)] }
  const content = text.replace(/^\uFEFF/u, '')
  if (content.trim() === '') {
    return { ok: false, issues: [{ path: '', code: 'json', message: 'The study is empty; it must be a JSON object.' }] }
  }
  let value: unknown
  try {
    value = JSON.parse(content)
  } catch (error) {
    const why = (error instanceof Error ? error.message : String(error)).replace(/\s+/gu, ' ').slice(0, 200)
    return { ok: false, issues: [{ path: '', code: 'json', message: `The study is not JSON: ${why}.` }] }
  }
  return checkStudy(value, figureNames)
}
