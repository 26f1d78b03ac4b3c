/** The whole comparison of one study: size and prove every topology, then rank them. */
import { type Curves, curvesOf } from '../analyses/curves.ts'
import { FIGURES } from '../figures/index.ts'
import type { PinsByTopology, Study } from '../requirements/study.ts'
import { type Sized, type Unbuilt, isUnbuilt, needOf, size } from '../sizing/size.ts'
import { TOPOLOGIES } from '../topologies/index.ts'
import type { Answer, Comparison, Design } from './comparison.ts'
import { designOf } from './design.ts'
import { DETAIL_NAMES, type Details, inspect } from './details.ts'
import { dominationsOf } from './dominated.ts'
import { rank } from './ranking.ts'
import { type Sizer, createSizer } from './sizer.ts'
import { weightLimits } from './weights.ts'

/** Every topology sized and proven, in the order in which they are always listed. For analyses that need more than the comparison prints. */
export function sizeAll(study: Study, pins: PinsByTopology = study.pins ?? {}): (Sized | Unbuilt)[] {
  return TOPOLOGIES.map((topology) => size(topology, needOf(study.requirements, pins[topology.name])))
}

function comparisonOf(study: Study, designs: Design[]): Comparison {
  const ranked = designs.map(({ topology, verdict, figures }) => ({
    topology,
    meets: verdict === 'meets',
    ...(figures ? { figures } : {}),
  }))
  return {
    format: 'wattfork-comparison',
    version: 1,
    title: study.title,
    requirements: study.requirements,
    weights: study.weights,
    assumptions: study.assumptions,
    ...(study.pins && { pins: study.pins }),
    ...(study.profile && { profile: study.profile }),
    designs,
    ranking: rank(ranked, study.weights),
    weightLimits: weightLimits(ranked, study.weights),
    dominated: dominationsOf(ranked, study.weights),
  }
}

/** One study in, one comparison out: plain data, no NaN, ready for JSON. The study must have passed `checkStudy`. */
export function compare(study: Study, pins: PinsByTopology = study.pins ?? {}): Comparison {
  const sized = sizeAll(study, pins)
  return comparisonOf(
    study,
    TOPOLOGIES.map(({ name }, k) => designOf(name, sized[k]!, study.assumptions)),
  )
}

/**
 * The same as a job that can be interrupted between topologies, with the curves that the plots draw. Unless the designs are
 * known already, it first hands out those with nominal parts alone.
 */
export function* answer(study: Study, sizer: Sizer): Generator<Answer | { done: number; total: number }, Answer> {
  const first = sizer.first(study)
  if (first) yield answerOf(study, first, 'first')
  const total = TOPOLOGIES.length
  let done = 0
  const proving = sizer.proven(study)
  let step = proving.next()
  for (; !step.done; step = proving.next()) yield { done: ++done, total }
  return answerOf(study, step.value, 'proven')
}

function answerOf(study: Study, sized: readonly (Sized | Unbuilt)[], stage: Answer['stage']): Answer {
  const designs = TOPOLOGIES.map(({ name }, k) => designOf(name, sized[k]!, study.assumptions))
  const curves = sized.map((one): Curves | undefined =>
    isUnbuilt(one) ? undefined : curvesOf(one.proof.observer.prepared, study.requirements),
  )
  const formulas = sized.map((one) => (isUnbuilt(one) ? [] : one.proof.design.worked.formulas))
  return { stage, comparison: comparisonOf(study, designs), curves, formulas, figures: [...FIGURES] }
}

/** A comparison whose designs carry every detail: what the headless run prints. */
export type Report = Comparison & { designs: (Design & Partial<Details>)[] }

/** The comparison with every detail, as a job that can be interrupted. The study must have passed `checkStudy`. */
export function* reporting(study: Study, sizer: Sizer): Generator<{ done: number; total: number }, Report> {
  const details = yield* inspect(study, DETAIL_NAMES, sizer)
  const sized = finish(sizer.proven(study))
  const designs = TOPOLOGIES.map(({ name }, k) => ({ ...designOf(name, sized[k]!, study.assumptions), ...details[k] }))
  return { ...comparisonOf(study, designs), designs }
}

/** The same in one go. */
export const report = (study: Study): Report => finish(reporting(study, createSizer()))

function finish<T>(job: Generator<unknown, T>): T {
  for (;;) {
    const step = job.next()
    if (step.done) return step.value
  }
}
