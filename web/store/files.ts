/** Files on the person's own disk. */
import type { Study } from '../../engine/requirements/study.ts'
import { writeStudyFile } from './check.ts'

/** A title as a part of a file name: small letters and hyphens, `study` where nothing is left. */
export function plainName(title: string): string {
  const plain = title
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^a-z0-9]+/gu, '-')
    .slice(0, 80)
    .replace(/^-|-$/gu, '')
  return plain || 'study'
}

/** A file name from a title. */
export const studyFileName = (title: string): string => `${plainName(title)}.study.json`

/** Hands a file to the browser as a download. */
export function saveFile(name: string, content: Blob): void {
  const address = URL.createObjectURL(content)
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  // the download has its own hold on the data once the click is through
  setTimeout(() => URL.revokeObjectURL(address), 0)
}

/** The study as a download. */
export function saveStudyFile(study: Study): void {
  saveFile(studyFileName(study.title), new Blob([writeStudyFile(study)], { type: 'application/json' }))
}
