/** The engine's door. */
import type { Comparison } from './compare/comparison.ts'
import type { Study } from './requirements/index.ts'

/** Not written yet: throws. */
export function compare(study: Study): Comparison {
  throw new Error(`engine: "${study.title}" cannot be compared yet.`)
}
