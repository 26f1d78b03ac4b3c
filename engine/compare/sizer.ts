/** Sizes every topology of a study, and remembers the last study: an answer and what is asked about it afterwards size once. */
import type { Study } from '../requirements/study.ts'
import { type Bench, newBench } from '../sizing/bench.ts'
import { type Sized, type Unbuilt, needOf, size } from '../sizing/size.ts'
import { type Need, TOPOLOGIES, type Topology } from '../topologies/index.ts'

export interface Sizer {
  /** The designs with nominal parts alone, in the order in which they are always listed; undefined where they are proven already. */
  readonly first: (study: Study) => (Sized | Unbuilt)[] | undefined
  /** The proven designs; yields after each that had to be sized. */
  readonly proven: (study: Study) => Generator<void, readonly (Sized | Unbuilt)[]>
}

/** What a study asks of one topology, its pins included. */
export const needFor = ({ requirements, pins }: Study, { name }: Pick<Topology, 'name'>): Need =>
  needOf(requirements, pins?.[name])

/** Weights, title and notes size nothing: only requirements and pins are compared with those before. */
export function createSizer(): Sizer {
  let asked = ''
  let sized: (Sized | Unbuilt)[] = []
  let bench: Bench = newBench()

  const turnTo = (study: Study): void => {
    const asking = JSON.stringify([study.requirements, study.pins])
    if (asking === asked) return
    asked = asking
    sized = []
    bench = newBench()
  }

  return {
    first(study) {
      turnTo(study)
      if (sized.length === TOPOLOGIES.length) return undefined
      return TOPOLOGIES.map((topology) => size(topology, needFor(study, topology), bench, 'nominal'))
    },
    *proven(study) {
      turnTo(study)
      const mine = sized
      const shared = bench
      while (mine.length < TOPOLOGIES.length) {
        const topology = TOPOLOGIES[mine.length]!
        mine.push(size(topology, needFor(study, topology), shared))
        yield
      }
      return mine
    },
  }
}
