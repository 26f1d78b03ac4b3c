/** Studies side by side: where their requirements differ, how their designs do, and the outcome in a sentence. */
import type { Answer, Design, FigureDescriptor, TopologyName } from '../../../engine/compare/comparison.ts'
import type { Study } from '../../../engine/requirements/study.ts'
import { capital, formatQuantity } from '../../../engine/units/index.ts'
import { MARKS, markOf } from '../../charts/marks.ts'
import { roundAxis } from '../../charts/scale.ts'
import { type FigureValue, rangeText, readFigure } from '../../panels/figures/rows.ts'
import { counted, listed, missedChecks } from '../../panels/lane/checks.ts'
import { paths, say } from '../../store/changes.ts'
import { readPath } from '../../store/check.ts'
import { CHOICES, quantityField } from '../../store/fields.ts'

export interface StudySet {
  /** Unlike those of the others, even where two studies have one title. */
  readonly title: string
  readonly study: Study
  readonly answer?: Answer
}

export interface RequirementRow {
  readonly path: string
  readonly name: string
  readonly texts: readonly string[]
  /** By set: whether it differs from the first. */
  readonly differs: readonly boolean[]
}

/** Every requirement, those that differ first. Titles are the heads of the columns and no row. */
export function requirementRows(sets: readonly StudySet[]): RequirementRow[] {
  const [first, ...others] = sets
  if (!first) return []
  const all = [...new Set([first, ...others].flatMap(({ study }) => paths(first.study, study)))]
  const rows = all
    .filter((path) => path !== 'title')
    .map((path): RequirementRow => {
      const values = sets.map(({ study }) => readPath(study, path))
      return {
        path,
        name: CHOICES.find((field) => field.path === path)?.name ?? quantityField(path).name,
        texts: values.map((value) =>
          value === undefined ? (quantityField(path).otherwise ?? 'not judged') : say(path, value),
        ),
        differs: values.map((value) => value !== values[0]),
      }
    })
  const isSame = ({ differs }: RequirementRow) => !differs.includes(true)
  return [...rows.filter((row) => !isSame(row)), ...rows.filter(isSame)]
}

export type Sense = 'better' | 'worse' | 'same'

export interface FigureCell {
  readonly text: string
  /** Share of the axis; absent where the figure does not apply. */
  readonly share?: number
  /** Where on the axis the bar of a range begins, as a share; any other begins at its beginning. */
  readonly from?: number
  /** Against the first set: its sense and its size in words. */
  readonly change?: { readonly sense: Sense; readonly text: string }
}

export interface FigureBlock {
  readonly name: string
  readonly label: string
  readonly help: string
  /** The end of the one scale of all its bars; both ends where it does not begin at zero. */
  readonly scale: string
  readonly rows: readonly { readonly topology: TopologyName; readonly cells: readonly FigureCell[] }[]
}

/** Shown at once; the other figures stand behind a fold. */
export const MAIN_FIGURES: readonly string[] = [
  'heat',
  'efficiency',
  'output',
  'loadRegulation',
  'minimumInput',
  'partCount',
  'cost',
]

const text = (value: number, { unit, digits }: FigureDescriptor) =>
  (unit === '' || unit === '1') && Number.isInteger(value) ? String(value) : formatQuantity(value, unit, digits)

const designOf = ({ answer }: StudySet, topology: TopologyName) =>
  answer?.comparison.designs.find((design) => design.topology === topology)
const valueOf = (set: StudySet, topology: TopologyName, { name }: FigureDescriptor) =>
  readFigure(designOf(set, topology)?.figures, name)

/** One block a figure, one scale for all its bars: from zero, or around the ranges where the figure is one. */
export function figureBlocks(sets: readonly StudySet[]): FigureBlock[] {
  const descriptors = sets.find(({ answer }) => answer)?.answer?.figures ?? []
  return descriptors.flatMap((figure) => {
    const values = MARKS.map(({ topology }) => sets.map((set) => valueOf(set, topology, figure)))
    const known = values.flat().filter((value) => value !== undefined)
    if (known.length === 0) return []
    const isRange = known.every(isWide)
    if (!isRange && known.some((value) => isWide(value) || value.at < 0)) return []
    const low = isRange ? Math.min(...known.map((value) => value.low)) : 0
    const axis = roundAxis(low, Math.max(...known.map(({ at, high = at }) => high)))
    const shareOf = (value: number): number => (value - axis.min) / (axis.max - axis.min)
    const rows = MARKS.map(({ topology }, k) => ({
      topology,
      cells: sets.map((set, n): FigureCell => {
        const value = values[k]![n]
        if (value === undefined) return { text: absent(set, topology, figure) }
        const first = values[k]![0]
        const isBeside = n > 0 && first !== undefined && isComparable(first, value)
        const change = isBeside ? { change: changeOf(first, value, figure) } : {}
        if (!isWide(value)) return { text: text(value.at, figure), share: shareOf(value.at), ...change }
        const from = shareOf(value.low)
        return {
          text: rangeText(value.low, value.high, figure.unit),
          share: shareOf(value.high) - from,
          from,
          ...change,
        }
      }),
    }))
    const scale = isRange ? rangeText(axis.min, axis.max, figure.unit) : text(axis.max, figure)
    return [{ name: figure.name, label: figure.label, help: figure.help, scale, rows }]
  })
}

interface Wide extends FigureValue {
  readonly low: number
  readonly high: number
}

const isWide = (value: FigureValue): value is Wide => value.low !== undefined && value.high !== undefined

function absent(set: StudySet, topology: TopologyName, figure: FigureDescriptor): string {
  if (!set.answer) return 'not known yet'
  return designOf(set, topology)?.circuit ? (figure.absent ?? 'does not apply') : 'no circuit'
}

/** A difference of two percentages is no percentage of either. */
const amount = (difference: number, figure: FigureDescriptor) =>
  ['%', 'fraction'].includes(figure.unit)
    ? `${(100 * difference).toPrecision(2)} percentage points`
    : text(difference, figure)

/** Ranges around different nominal values have no width in common: wider around 9 V is not worse than around 5 V. */
const SAME_NOMINAL = 0.02
const isComparable = (first: FigureValue, value: FigureValue): boolean =>
  !isWide(value) || Math.abs(value.at / first.at - 1) < SAME_NOMINAL

/**
 * What is finer than the figure's own resolution is told, but is neither better nor worse; a range is better where it is
 * narrower.
 */
function changeOf(first: FigureValue, value: FigureValue, figure: FigureDescriptor): NonNullable<FigureCell['change']> {
  if (isWide(first) && isWide(value)) return widthChange(first.high - first.low, value.high - value.low, figure)
  const difference = value.at - first.at
  if (text(first.at, figure) === text(value.at, figure)) return SAME
  if (Math.abs(difference) < (figure.resolution ?? 0)) return { sense: 'same', text: 'too little to count' }
  const isMore = difference > 0
  return {
    sense: isMore === (figure.better === 'more') ? 'better' : 'worse',
    text: `${amount(Math.abs(difference), figure)} ${isMore ? 'more' : 'less'}`,
  }
}

const SAME = { sense: 'same', text: 'the same' } as const

function widthChange(first: number, width: number, figure: FigureDescriptor): NonNullable<FigureCell['change']> {
  if (text(first, figure) === text(width, figure)) return { sense: 'same', text: 'as wide' }
  const difference = text(Math.abs(width - first), figure)
  return width > first
    ? { sense: 'worse', text: `${difference} wider` }
    : { sense: 'better', text: `${difference} narrower` }
}

export function verdictText(design: Design | undefined): string {
  if (!design) return 'not known yet'
  if (!design.circuit) return 'cannot be built'
  if (design.verdict === 'meets') return design.notEvaluated.length > 0 ? 'meets all that was evaluated' : 'meets all'
  return `falls short of ${counted(missedChecks(design).length)}`
}

export const verdictOf = (set: StudySet, topology: TopologyName): Design | undefined => designOf(set, topology)

/** The design that stands first; undefined where none meets every requirement. */
export function winner({ answer }: StudySet): { topology: TopologyName; text: string } | undefined {
  const entry = answer?.comparison.ranking[0]
  const design = entry && answer.comparison.designs.find(({ topology }) => topology === entry.topology)
  if (!entry || design?.verdict !== 'meets') return undefined
  return { topology: entry.topology, text: markOf(entry.topology).name }
}

const hasHeatsink = ({ parts }: Design) => parts.some(({ role }) => /heatsink/iu.test(role))
const nameOf = (topology: TopologyName) => markOf(topology).name.toLowerCase()

/** "With an input of 20.0 to 28.0 V" where nothing else differs; else by the title. */
function opening(first: StudySet, other: StudySet): string {
  const groups = new Set(
    requirementRows([first, other]).flatMap(({ path, differs }) => (differs[1] ? [path.split('.')[0]!] : [])),
  )
  const { input, load, output } = other.study.requirements
  const volts = (value: number) => formatQuantity(value, 'V')
  if (groups.size === 0) return `With the same requirements (“${other.title}”)`
  if (groups.size === 1 && groups.has('input')) return `With the input at ${volts(input.min)} to ${volts(input.max)}`
  if (groups.size === 1 && groups.has('load')) return `With a load up to ${formatQuantity(load.max, 'A')}`
  if (groups.size === 1 && groups.has('output')) return `With an output of ${volts(output.voltage)}`
  return `With “${other.title}”`
}

interface DesignClause {
  /** It meets the requirements of one of the studies at least: others are told of only where there is none such. */
  readonly isUsable: boolean
  readonly weight: number
  readonly text: string
}

/** What the heat of one design does from one study to the other, and what comes of it. */
function designClause(topology: TopologyName, before: Design, after: Design): DesignClause {
  const [cool, hot] = [before.figures!.heat.worst, after.figures!.heat.worst]
  const difference = hot - cool
  const ratio = Math.abs(Math.log(hot / cool))
  const heat =
    ratio < 0.01
      ? 'sheds as much heat'
      : `runs ${formatQuantity(Math.abs(difference), 'W')} ${difference > 0 ? 'hotter' : 'cooler'}`
  const clauses = [heat]
  if (hasHeatsink(before) !== hasHeatsink(after))
    clauses.push(hasHeatsink(after) ? 'needs a heatsink' : 'needs no heatsink')
  if (before.verdict !== after.verdict)
    clauses.push(after.verdict === 'meets' ? 'now meets every requirement' : verdictText(after))
  return {
    isUsable: [before, after].some(({ verdict }) => verdict === 'meets'),
    weight: ratio + 2 * (clauses.length - 1),
    text: `the ${nameOf(topology)} design ${listed(clauses)}`,
  }
}

function leadClause(first: StudySet, other: StudySet): string {
  const [before, after] = [winner(first), winner(other)]
  if (!after) return before ? 'no design meets every requirement any more' : 'no design meets every requirement either'
  if (!before) return `${nameOf(after.topology)} now leads`
  return before.topology === after.topology
    ? `${nameOf(after.topology)} still leads`
    : `${nameOf(after.topology)} leads in the place of ${nameOf(before.topology)}`
}

/** One sentence for each study that is set beside the first and known: its most telling design, and who leads. */
export function outcome(sets: readonly StudySet[]): string {
  const [first, ...others] = sets
  const known = others.filter(({ answer }) => answer)
  if (others.length === 0) return 'Which study should stand beside this one?'
  if (!first?.answer || known.length === 0) return 'The studies are being worked out.'
  return known
    .map((other) => {
      const clauses = MARKS.flatMap(({ topology }) => {
        const [before, after] = [designOf(first, topology), designOf(other, topology)]
        return before?.figures && after?.figures ? [designClause(topology, before, after)] : []
      }).toSorted((a, b) => Number(b.isUsable) - Number(a.isUsable) || b.weight - a.weight)
      const parts = [clauses[0]?.text, leadClause(first, other)].filter((part) => part !== undefined)
      return `${capital(opening(first, other))} ${parts.join('; ')}.`
    })
    .join(' ')
}
