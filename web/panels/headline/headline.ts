/** The outcome of a comparison in words. */
import type { Comparison, Design, Figures, TopologyName } from '../../../engine/compare/comparison.ts'
import { markOf } from '../../charts/marks.ts'
import { capital, formatQuantity } from '../../../engine/units/index.ts'
import { readFigure } from '../figures/rows.ts'
import { counted, listed, missedChecks } from '../lane/checks.ts'

/** Said wherever there is no design to show. */
export const NOTHING_BUILT = 'None of the three can be built to these requirements.'

/** Scores nearer than this many points are called level: less than what is shown. */
const LEVEL = 0.5

/** Whether nothing can be chosen by these scores: too near, or nothing is weighed. */
export const isLevel = (leader: number, other: number): boolean => !(leader > 0) || leader - other < LEVEL

interface Standing {
  readonly design: Design
  readonly name: string
  readonly score: number
}

const nameOf = (topology: TopologyName) => markOf(topology).name.toLowerCase()

function standings({ designs, ranking }: Comparison): Standing[] {
  return designs
    .map((design) => ({
      design,
      name: nameOf(design.topology),
      score: ranking.find(({ topology }) => topology === design.topology)?.score ?? Number.NaN,
    }))
    .toSorted((a, b) => (Number.isNaN(b.score) ? 0 : b.score) - (Number.isNaN(a.score) ? 0 : a.score))
}

function points(score: number): string {
  const rounded = Math.round(score)
  return `${rounded} ${rounded === 1 ? 'point' : 'points'}`
}

/** "Shunt falls short of two and series-pass of one. Feedback cannot be built." */
function shortSentences(short: readonly Standing[]): string[] {
  const built = short.filter(({ design }) => design.circuit)
  const unbuilt = short.filter(({ design }) => !design.circuit)
  const sentences: string[] = []
  const clauses = built.map(({ name, design }, i) => {
    const count = counted(missedChecks(design).length)
    return i === 0 ? `${name} falls short of ${count}` : `${name} of ${count}`
  })
  if (clauses.length > 0) sentences.push(`${capital(listed(clauses))}.`)
  if (unbuilt.length > 0) sentences.push(`${capital(listed(unbuilt.map(({ name }) => name)))} cannot be built.`)
  return sentences
}

interface Trait {
  readonly gain: number
  readonly text: string
}

function times(ratio: number): string {
  // beyond that nobody tells one from the other
  if (ratio >= 1000) return 'over 1000 times'
  if (ratio >= 9.5) return `${Math.round(ratio)} times`
  const rounded = Math.round(ratio * 2) / 2
  return rounded === 2 ? 'twice' : `${rounded} times`
}

/** What sets the second apart from the leader, best and worst: "holds the output 3 times closer with 6 more parts". */
export function contrast(leader: Figures, other: Figures): string {
  const traits: Trait[] = []
  const closer = leader.loadRegulation.fraction / other.loadRegulation.fraction
  if (closer >= 1.75)
    traits.push({ gain: Math.log(closer), text: `holds the output ${times(closer)} closer under load` })
  else if (closer <= 1 / 1.75) {
    traits.push({ gain: Math.log(closer), text: `lets the output move ${times(1 / closer)} as far under load` })
  }
  const hotter = other.heat.worst / leader.heat.worst
  if (hotter >= 1.15 || hotter <= 0.87) {
    const share = `${Math.abs(Math.round((hotter - 1) * 100))}\u202F%`
    traits.push({
      gain: -2 * Math.log(hotter),
      text: hotter >= 1.75 ? `sheds ${times(hotter)} the heat` : `sheds ${share} ${hotter > 1 ? 'more' : 'less'} heat`,
    })
  }
  const more = other.partCount - leader.partCount
  if (more !== 0) {
    const count = Math.abs(more)
    const word = `${counted(count)} ${more > 0 ? 'more' : 'fewer'} ${count === 1 ? 'part' : 'parts'}`
    traits.push({ gain: -Math.log(other.partCount / leader.partCount), text: `takes ${word}` })
  }
  const ordered = traits.toSorted((a, b) => b.gain - a.gain)
  const best = ordered[0]
  const worst = ordered.at(-1)
  if (!best || !worst) return ''
  return best === worst ? best.text : `${best.text} and ${worst.text}`
}

/** What a design meets: all, or all that this version can judge. */
function everyOf(standing: readonly Standing[]): string {
  const isPartial = standing.some(({ design }) => design.notEvaluated.length > 0)
  return isPartial ? 'every requirement that was evaluated' : 'every requirement'
}

function meetSentences(meeting: readonly Standing[]): string[] {
  const [leader, ...others] = meeting as [Standing, ...Standing[]]
  const hasScores = Number.isFinite(leader.score) && leader.score > 0
  const level = meeting.filter(({ score }) => isLevel(leader.score, score))
  const behind = meeting.filter((standing) => !level.includes(standing))
  const names = capital(listed(level.map(({ name }) => name)))
  const every = everyOf(level)
  const them = (standing: Standing) => (everyOf([standing]) === every ? 'them' : 'all that was evaluated')
  if (level.length > 1) {
    const tie = hasScores ? `are level at ${points(leader.score)}` : 'none leads, as nothing is weighted'
    const first = hasScores ? `${names} meet ${every} and ${tie}.` : `${names} meet ${every}; ${tie}.`
    const rest = behind.length > 0 ? [`${capital(behind[0]!.name)} also meets ${them(behind[0]!)}.`] : []
    return [first, ...rest]
  }
  const [second, ...further] = others as [Standing, ...Standing[]]
  const sentences = [`${names} meets ${every} and leads by ${points(leader.score - second.score)}.`]
  const trait = contrast(leader.design.figures!, second.design.figures!)
  sentences.push(`${capital(second.name)} also meets ${them(second)}${trait ? `, ${trait}` : ''}.`)
  if (further.length > 0) sentences.push(`${capital(further[0]!.name)} meets ${them(further[0]!)} too.`)
  return sentences
}

/** Two to four sentences; those that fall short stand by how many they miss, then by score: who meets the requirements, who leads and by how much, who falls short of how many. */
export function headline(comparison: Comparison): string {
  const all = standings(comparison)
  const meeting = all.filter(({ design }) => design.verdict === 'meets')
  const short = all
    .filter(({ design }) => design.verdict !== 'meets')
    .toSorted((a, b) => missedChecks(a.design).length - missedChecks(b.design).length)
  if (meeting.length > 1) return [...meetSentences(meeting), ...shortSentences(short)].join(' ')
  if (meeting.length === 1)
    return [`Only ${meeting[0]!.name} meets ${everyOf(meeting)}.`, ...shortSentences(short)].join(' ')
  const built = short.filter(({ design }) => design.circuit)
  if (built.length === 0) return NOTHING_BUILT
  return ['No design meets every requirement.', ...shortSentences(short)].join(' ')
}

/** What may be said before the corners are proven: the heat at nominal, and no verdict. */
export function unprovenLine({ designs }: Comparison): string {
  const heats = designs.flatMap(({ topology, figures }) => {
    const watts = readFigure(figures, 'heat.nominal')?.at
    return watts === undefined ? [] : [`${formatQuantity(watts, 'W')} in ${nameOf(topology)}`]
  })
  const nominal = heats.length > 0 ? `At nominal input and load the heat is ${listed(heats)}. ` : ''
  return `${nominal}The corners are not proven yet.`
}

/** The same finding in a few words for a live region: it changes only when a verdict or the leader does. */
export function verdictLine(comparison: Comparison): string {
  return standings(comparison)
    .map(({ name, design }) => {
      const missed = missedChecks(design).length
      return `${capital(name)} ${design.verdict === 'meets' ? 'meets' : design.circuit ? `falls short of ${counted(missed)}` : 'cannot be built'}`
    })
    .join('. ')
}
