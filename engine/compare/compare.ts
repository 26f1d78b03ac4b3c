/** The whole comparison of one study: size and prove every topology, then rank them. */
import { type Curves, curvesOf } from '../analyses/curves.ts'
import { FIGURES } from '../figures/index.ts'
import type { Study } from '../requirements/study.ts'
import { type Sized, type Unbuilt, isUnbuilt, needOf, size } from '../sizing/size.ts'
import { type Pins, TOPOLOGIES, type TopologyName } from '../topologies/index.ts'
import type { Answer, Comparison, Design } from './comparison.ts'
import { designOf } from './design.ts'
import { type RankingEntry, rank } from './ranking.ts'

export type PinsByTopology = Partial<Record<TopologyName, Pins>>

/** Every topology sized and proven, in the order in which they are always listed. For analyses that need more than the comparison prints. */
export function sizeAll(study: Study, pins: PinsByTopology = {}): (Sized | Unbuilt)[] {
  return TOPOLOGIES.map((topology) => size(topology, needOf(study.requirements, pins[topology.name])))
}

function comparisonOf(study: Study, designs: Design[]): Comparison {
  return {
    format: 'wattfork-comparison',
    version: 1,
    title: study.title,
    requirements: study.requirements,
    weights: study.weights,
    designs,
    ranking: rankingOf(designs, study),
  }
}

function rankingOf(designs: readonly Design[], study: Study): RankingEntry[] {
  return rank(
    designs.map(({ topology, verdict, figures }) => ({
      topology,
      meets: verdict === 'meets',
      ...(figures ? { figures } : {}),
    })),
    study.weights,
  )
}

/** One study in, one comparison out: plain data, no NaN, ready for JSON. The study must have passed `checkStudy`. */
export function compare(study: Study, pins: PinsByTopology = {}): Comparison {
  const sized = sizeAll(study, pins)
  return comparisonOf(
    study,
    TOPOLOGIES.map(({ name }, k) => designOf(name, sized[k]!)),
  )
}

/** The same as a job that can be interrupted between topologies, with the curves that the plots draw. */
export function* answer(study: Study): Generator<{ done: number; total: number }, Answer> {
  const designs: Design[] = []
  const curves: (Curves | undefined)[] = []
  const total = TOPOLOGIES.length
  for (const topology of TOPOLOGIES) {
    const sized = size(topology, needOf(study.requirements))
    designs.push(designOf(topology.name, sized))
    curves.push(isUnbuilt(sized) ? undefined : curvesOf(sized.proof.observer.prepared, study.requirements))
    yield { done: designs.length, total }
  }
  return { stage: 'proven', comparison: comparisonOf(study, designs), curves, figures: [...FIGURES] }
}
