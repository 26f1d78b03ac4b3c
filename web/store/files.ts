/** Study files on the person's own disk. */
import type { Study } from '../../engine/requirements/study.ts'
import { writeStudyFile } from './check.ts'

/** Words as a file name: small letters and hyphens; `study` where nothing is left of them. */
export function fileStem(...words: readonly string[]): string {
  const stems = words.map((word) =>
    word
      .toLowerCase()
      .normalize('NFKD')
      .replace(/[^a-z0-9]+/gu, '-')
      .replace(/^-|-$/gu, ''),
  )
  return stems.filter((stem) => stem !== '').join('-') || 'study'
}

export const studyFileName = (title: string): string => `${fileStem(title)}.study.json`

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

/** Hands the study to the browser as a download. */
export function saveStudyFile(study: Study): void {
  saveFile(studyFileName(study.title), new Blob([writeStudyFile(study)], { type: 'application/json' }))
}
