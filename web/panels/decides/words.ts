/** What decides, in words: who leads and what would unseat it, which designs are dominated, and what would have to change. */
import { capital, lower } from '../../../engine/units/index.ts'
import { NOTHING_BUILT } from '../headline/headline.ts'
import type {
  Comparison,
  Domination,
  FigureDescriptor,
  TopologyName,
  WeightLimit,
} from '../../../engine/compare/comparison.ts'
import type { Change, ChangeAnswer } from '../../../engine/explore/change.ts'
import type { Study } from '../../../engine/requirements/study.ts'
import { markOf } from '../../charts/marks.ts'
import { describeChange } from '../../store/changes.ts'
import { withPath } from '../../store/check.ts'
import { quantityField, shown } from '../../store/fields.ts'
import { counted, listed } from '../lane/checks.ts'

const nameOf = (topology: TopologyName): string => markOf(topology).name.toLowerCase()

/** A figure in the middle of a sentence, without what its label adds behind a comma: "efficiency". */
export function figureName(name: string, figures: readonly FigureDescriptor[]): string {
  const [label] = (figures.find((figure) => figure.name === name)?.label ?? name).split(',') as [string]
  return lower(label)
}

/** A weight, to the digit in which limits matter: 3, 5.2, 0.64. */
export const weightText = (weight: number): string =>
  String(Number(weight < 1 ? weight.toPrecision(2) : weight.toFixed(1)))

interface Unseating {
  readonly limit: WeightLimit
  readonly at: number
  readonly by: TopologyName
  readonly way: 'above' | 'below'
}

/** Every limit that another design waits behind, the nearest first. */
export function unseatings({ weightLimits }: Comparison): Unseating[] {
  return weightLimits.limits
    .flatMap((limit): Unseating[] => [
      ...(limit.below ? [{ limit, at: limit.from, by: limit.below, way: 'below' as const }] : []),
      ...(limit.above ? [{ limit, at: limit.to, by: limit.above, way: 'above' as const }] : []),
    ])
    .toSorted((a, b) => Math.abs(a.at - a.limit.weight) - Math.abs(b.at - b.limit.weight))
}

/** The title of the screen. */
export function decidesFinding(comparison: Comparison, figures: readonly FigureDescriptor[]): string {
  const { weightLimits, ranking, designs } = comparison
  const { leader, isSettled } = weightLimits
  if (designs.every(({ circuit }) => !circuit)) return NOTHING_BUILT
  if (!leader) return 'Nothing is weighed, so nothing leads.'
  const name = capital(nameOf(leader))
  const meets = designs.find(({ topology }) => topology === leader)?.verdict === 'meets'
  if (isSettled) return `${name} alone meets every requirement: no weighting changes that.`
  const [first, second] = ranking
  const gap = (first?.score ?? 0) - (second?.score ?? 0)
  const lead = meets
    ? `${name} leads by ${gap.toFixed(1)} points`
    : `No design meets; ${nameOf(leader)} has the most points`
  const [nearest] = unseatings(comparison)
  if (!nearest) return `${lead}, and no single weight puts another design first.`
  const { limit, at, by, way } = nearest
  return `${lead}; weighing ${figureName(limit.figure, figures)} ${way} ${weightText(at)} puts ${nameOf(by)} first.`
}

/** How far one weight may move: "series-pass stays first from 1.3 to 10; below that feedback". */
export function limitWords({ from, to, below, above }: WeightLimit, leader: TopologyName | undefined): string {
  if (!leader) return ''
  if (!below && !above) return `${nameOf(leader)} stays first at any weight`
  const ends =
    below && above
      ? `from ${weightText(from)} to ${weightText(to)}`
      : below
        ? `from ${weightText(from)} up`
        : `up to ${weightText(to)}`
  const others = [...(below ? [`below it ${nameOf(below)}`] : []), ...(above ? [`above it ${nameOf(above)}`] : [])]
  return `${nameOf(leader)} stays first ${ends}, ${others.join(', ')}`
}

export function dominationSentence(
  { topology, by, over, better, level }: Domination,
  figures: readonly FigureDescriptor[],
): string {
  const where = over === 'all' ? 'every figure that may be weighed' : 'every figure that is weighed'
  const named = better.map((name) => figureName(name, figures))
  const few = named.length > 4 ? `${counted(named.length)} of them` : listed(named)
  const same = level.length > 0 ? `, and level in ${listed(level.map((name) => figureName(name, figures)))}` : ''
  return `${capital(nameOf(topology))} is dominated: ${nameOf(by)} is at least as good in ${where}, better in ${few}${same}.`
}

/** "Highest input voltage 27.0 → 24.6 V", as a button says it. */
export function changeLabel(study: Study, { path, to }: Change): string {
  if (path === 'limits.survivesShort')
    return to ? 'Ask that it survives a short' : 'Do not ask that it survives a short'
  if (path === 'load.permanent') return to ? 'Make the load permanent' : 'Let the load be taken off'
  return describeChange(study, withPath(study, path, to))?.label ?? ''
}

/** What the search says of one design before its buttons. */
export function changeSentence({ topology, goal, changes, trials }: ChangeAnswer): string {
  const aim = goal === 'meet' ? 'meets every requirement' : 'comes first'
  const [first] = changes
  if (!first)
    return `No single change that was tried ${goal === 'meet' ? `lets ${nameOf(topology)} meet` : `puts ${nameOf(topology)} first`}: ${trials} studies, numbers moved by up to 80\u202F%, limits eased up to 16 times.`
  return `${capital(nameOf(topology))} ${aim} with ${first.size === undefined ? 'this change' : 'the smallest single change'}:`
}

/** What stands behind a change: where it is still missed, and how the designs then stand. */
export function changeProof({ path, missedAt, standings }: Change, goal: ChangeAnswer['goal']): string {
  const clauses: string[] = []
  if (missedAt !== undefined) {
    const field = quantityField(path)
    clauses.push(`at ${shown(field, missedAt)} it does not yet`)
  }
  if (goal === 'win' && standings) {
    const words = standings.map(({ topology, meets, score }) =>
      meets ? `${nameOf(topology)} ${score.toFixed(1)}` : `${nameOf(topology)} falls short`,
    )
    clauses.push(`points then: ${listed(words)}`)
  }
  return clauses.length > 0 ? `${capital(clauses.join('; '))}.` : ''
}
