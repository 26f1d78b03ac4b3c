/** Study files on the person's own disk. */
import type { Study } from '../../engine/requirements/study.ts'
import { writeStudyFile } from './check.ts'

/** A file name without its ending from a title: small letters and hyphens. */
export function plainName(title: string): string {
  const plain = title
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^a-z0-9]+/gu, '-')
    .replace(/^-|-$/gu, '')
  return plain || 'study'
}

export const studyFileName = (title: string): string => `${plainName(title)}.study.json`

/** Hands the study to the browser as a download. */
export function saveStudyFile(study: Study): void {
  saveFile(writeStudyFile(study), 'application/json', studyFileName(study.title))
}

/** Hands a text, or a file made already, to the browser as a download. */
export function saveFile(content: string | Blob, type: string, name: string): void {
  const address = URL.createObjectURL(new Blob([content], { type }))
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  // the download has its own hold on the data once the click is through
  setTimeout(() => URL.revokeObjectURL(address), 0)
}
