/** Sizes every topology of a study, and remembers the last study: an answer and what is asked about it afterwards size once. */
import type { Study } from '../requirements/study.ts'
import { type Sized, type Unbuilt, needOf, size } from '../sizing/size.ts'
import { TOPOLOGIES } from '../topologies/index.ts'

export interface Sizer {
  /** The designs in the order in which they are always listed; yields after each that had to be sized. */
  (study: Study): Generator<void, readonly (Sized | Unbuilt)[]>
}

/** Weights, title and notes size nothing: only the requirements are compared with those before. */
export function createSizer(): Sizer {
  let asked = ''
  let sized: (Sized | Unbuilt)[] = []
  return function* sizeEach(study) {
    const asking = JSON.stringify(study.requirements)
    if (asking !== asked) {
      asked = asking
      sized = []
    }
    const mine = sized
    while (mine.length < TOPOLOGIES.length) {
      mine.push(size(TOPOLOGIES[mine.length]!, needOf(study.requirements)))
      yield
    }
    return mine
  }
}
