/** Study files on the person's own disk. */
import type { Study } from '../../engine/requirements/study.ts'
import { writeStudyFile } from './check.ts'

/** A file name from a title: small letters and hyphens. */
export function studyFileName(title: string): string {
  const plain = title
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^a-z0-9]+/gu, '-')
    .replace(/^-|-$/gu, '')
  return `${plain || 'study'}.study.json`
}

/** Hands the study to the browser as a download. */
export function saveStudyFile(study: Study): void {
  const address = URL.createObjectURL(new Blob([writeStudyFile(study)], { type: 'application/json' }))
  const link = document.createElement('a')
  link.href = address
  link.download = studyFileName(study.title)
  link.click()
  // the download has its own hold on the data once the click is through
  setTimeout(() => URL.revokeObjectURL(address), 0)
}
