/** Sizes every topology of a study, and remembers the last study: an answer and what is asked about it afterwards size once. */
import type { Study } from '../requirements/study.ts'
import { type Bench, type Sized, type Unbuilt, needOf, newBench, size } from '../sizing/size.ts'
import { TOPOLOGIES } from '../topologies/index.ts'

export interface Sizer {
  /** The designs with nominal parts alone, in the order in which they are always listed; undefined where they are proven already. */
  readonly first: (study: Study) => (Sized | Unbuilt)[] | undefined
  /** The proven designs; yields after each that had to be sized. */
  readonly proven: (study: Study) => Generator<void, readonly (Sized | Unbuilt)[]>
}

/** Weights, title and notes size nothing: only the requirements are compared with those before. */
export function createSizer(): Sizer {
  let asked = ''
  let sized: (Sized | Unbuilt)[] = []
  let bench: Bench = newBench()

  const turnTo = (study: Study): void => {
    const asking = JSON.stringify(study.requirements)
    if (asking === asked) return
    asked = asking
    sized = []
    bench = newBench()
  }

  return {
    first(study) {
      turnTo(study)
      if (sized.length === TOPOLOGIES.length) return undefined
      const need = needOf(study.requirements)
      return TOPOLOGIES.map((topology) => size(topology, need, bench, 'nominal'))
    },
    *proven(study) {
      turnTo(study)
      const mine = sized
      const shared = bench
      while (mine.length < TOPOLOGIES.length) {
        mine.push(size(TOPOLOGIES[mine.length]!, needOf(study.requirements), shared))
        yield
      }
      return mine
    },
  }
}
