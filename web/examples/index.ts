/** Three invented jobs to start from, one for each topology that was meant to win it. */
import type { Study } from '../../engine/requirements/study.ts'
import loomCounter from './loom-counter.study.json'
import millRace from './mill-race.study.json'
import peatBog from './peat-bog.study.json'
import { readStudyFile } from '../store/check.ts'

export interface Example {
  /** Never changes: tests and saved links use it. */
  id: string
  /** The job in one sentence. */
  story: string
  study: Study
}

function example(id: string, story: string, file: unknown): Example {
  const read = readStudyFile(JSON.stringify(file))
  if (!read.study) throw new Error(`examples/${id}: ${read.problems.join(' ')}`)
  return { id, story, study: read.study }
}

export const EXAMPLES: readonly Example[] = [
  example(
    'peat-bog',
    'A gas sensor on a bog runs from a lead-acid battery under a small solar panel; its converter wants a stiff 5 V.',
    peatBog,
  ),
  example(
    'loom-counter',
    'A counter on a loom takes 9 V for its lamp and logic from a rectified machine supply that sags with every shift start.',
    loomCounter,
  ),
  example(
    'mill-race',
    'A float switch at the end of a long damp cable needs a few milliamps at 9 V, and the cable gets shorted.',
    millRace,
  ),
]
