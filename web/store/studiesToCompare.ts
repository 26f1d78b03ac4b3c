/** The studies that may stand beside the one on the desk: every place that keeps studies adds its own here. */
import type { Study } from '../../engine/requirements/study.ts'
import { EXAMPLES } from '../examples/index.ts'

export interface Offered {
  /** Never changes while the page is open. */
  readonly id: string
  readonly study: Study
  /** Where it is from, in a few words. */
  readonly from: string
}

/** In the order in which they are offered, before those that were set aside or opened for comparison. */
export function studiesToCompare(): readonly Offered[] {
  return EXAMPLES.map(({ id, study }) => ({ id: `example-${id}`, study, from: 'example' }))
}
