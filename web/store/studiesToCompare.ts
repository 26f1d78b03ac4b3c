/** The studies that may stand beside the one on the desk: every place that keeps studies adds its own here. */
import type { Study } from '../../engine/requirements/study.ts'
import { EXAMPLES } from '../examples/index.ts'
import { useLibraryStore } from './library.ts'
import { useStudyStore } from './study.ts'

export interface Offered {
  /** Never changes while the page is open. */
  readonly id: string
  readonly study: Study
  /** Where it is from, in a few words. */
  readonly from: string
}

/** In the order in which they are offered, before those that were set aside or opened for comparison. Called in a `computed`. */
export function studiesToCompare(): readonly Offered[] {
  const studies = useStudyStore()
  const kept = useLibraryStore().list.flatMap(({ id, study }) =>
    id === studies.id ? [] : [{ id: `kept-${id}`, study, from: 'kept here' }],
  )
  const examples = EXAMPLES.map(({ id, study }) => ({ id: `example-${id}`, study, from: 'example' }))
  return [...kept, ...examples]
}
