/** What each pin of a design costs: the design is sized once more without this one pin, all others kept, and compared. */
import { FIGURES, type FigureDescriptor, type Figures, figuresOf, headlineOf } from '../figures/index.ts'
import { pinText } from '../requirements/pins.ts'
import type { Study } from '../requirements/study.ts'
import { type Sized, type Unbuilt, isUnbuilt, needOf, size } from '../sizing/size.ts'
import type { Topology, TopologyName } from '../topologies/index.ts'
import { formatQuantity, lower } from '../units/index.ts'
import type { Verdict } from './comparison.ts'

/** One figure with the pin and without it; a side is absent where its design has no such figure. */
export interface FigureChange {
  figure: string
  unit: string
  with?: number
  without?: number
  /** With less without. */
  change?: number
}

/** A design in short. `unbuilt`: nothing could be built. */
export interface PinnedSide {
  verdict: Verdict | 'unbuilt'
  variant?: string
  /** Requirements and ratings that are missed; 0 where it meets. */
  shortfalls?: number
  /** What stands in the pinned place; absent where the variant has no such part. */
  value?: number
  partNumber?: string
}

export interface PinCost {
  part: string
  pin: string | number
  /** One sentence: what the pin costs and what it keeps away. */
  sentence: string
  with: PinnedSide
  without: PinnedSide
  /** Every weighed figure, and always heat, parts and cost. */
  figures: FigureChange[]
}

/** Told whatever they weigh. */
const ALWAYS: readonly string[] = ['heat', 'partCount', 'cost']
/** Changes named in the sentence; the table has them all. */
const NAMED = 3

/** One entry a pin, in the order of the study; sized with every other pin in place. Yields after each. */
export function* pinCostsOf(topology: Topology, sized: Sized | Unbuilt, study: Study): Generator<void, PinCost[]> {
  const pins = study.pins?.[topology.name] ?? {}
  const costs: PinCost[] = []
  for (const [part, pin] of Object.entries(pins)) {
    const { [part]: _, ...others } = pins
    const without = size(topology, needOf(study.requirements, others))
    costs.push(costOf(topology.name, part, pin, [sized, without], study))
    yield
  }
  return costs
}

function costOf(
  topology: TopologyName,
  part: string,
  pin: string | number,
  [pinned, free]: readonly [Sized | Unbuilt, Sized | Unbuilt],
  study: Study,
): PinCost {
  const [here, there] = [pinned, free].map((each) =>
    isUnbuilt(each) ? undefined : figuresOf(each.proof, study.assumptions),
  )
  const told = FIGURES.filter(({ name }) => ALWAYS.includes(name) || (study.weights[name] ?? 0) > 0)
  const figures = told.map((figure) => changeOf(figure, here, there))
  const sides = { with: sideOf(pinned, part), without: sideOf(free, part) }
  return { part, pin, sentence: sentenceOf(topology, { part, pin, ...sides, figures }), ...sides, figures }
}

function sideOf(sized: Sized | Unbuilt, id: string): PinnedSide {
  if (isUnbuilt(sized)) return { verdict: 'unbuilt' }
  const part = sized.proof.design.parts.find((each) => each.id === id)
  return {
    verdict: sized.findings.length === 0 ? 'meets' : 'falls-short',
    variant: sized.variant.name,
    shortfalls: sized.findings.length,
    ...(part?.value === undefined ? {} : { value: part.value }),
    ...(part?.partNumber === undefined ? {} : { partNumber: part.partNumber }),
  }
}

function changeOf({ name, unit }: FigureDescriptor, here?: Figures, there?: Figures): FigureChange {
  const [got, was] = [here && headlineOf(name, here), there && headlineOf(name, there)]
  return {
    figure: name,
    unit,
    ...(got === undefined ? {} : { with: got }),
    ...(was === undefined ? {} : { without: was }),
    ...(got === undefined || was === undefined ? {} : { change: got - was }),
  }
}

/**
 * `Pinning R1 to 470 Ω costs 210 mW of heat; without it R1 would be 680 Ω.` Where the verdict turns on the pin, that comes
 * first.
 */
function sentenceOf(topology: TopologyName, cost: Omit<PinCost, 'sentence'>): string {
  const { part, pin, with: here, without } = cost
  const subject = `Pinning ${part} to ${pinText(topology, part, pin)}`
  const instead = insteadOf(topology, cost)
  if (here.verdict === 'unbuilt' && without.verdict === 'unbuilt')
    return `${subject} is not alone in the way: without it nothing can be built either.`
  if (without.verdict === 'unbuilt') return `${subject} is what makes it possible: without it nothing can be built.`
  const end = without.verdict === 'meets' ? 'every requirement would be met' : 'the design would fall short'
  if (here.verdict === 'unbuilt') return `${subject} leaves nothing that can be built; ${instead} and ${end}.`
  const changes = changesIn(cost.figures)
  if (here.verdict !== without.verdict) {
    const verdict = here.verdict === 'meets' ? 'lets the design meet every requirement' : 'makes the design fall short'
    return `${subject} ${verdict}${changes && `, ${changes}`}; ${instead} and ${end}.`
  }
  const missed =
    here.shortfalls === without.shortfalls
      ? ''
      : ` (${here.shortfalls} requirements and ratings missed instead of ${without.shortfalls})`
  return `${subject} ${changes || 'changes no figure that counts'}${missed}; ${instead}.`
}

function insteadOf(topology: TopologyName, { part, pin, without }: Omit<PinCost, 'sentence'>): string {
  const free = typeof pin === 'number' ? without.value : without.partNumber
  if (free === undefined) return `without it the ${without.variant} variant, which has no ${part}, would be taken`
  return `without it ${part} would be ${free === pin ? 'the same' : pinText(topology, part, free)}`
}

/** `costs 210 mW of heat and 1 part, saves 0.05 EUR`: the figures that change the most against what they were. */
function changesIn(figures: readonly FigureChange[]): string {
  const moved = figures
    .flatMap((each) => {
      const { resolution = 0, better } = FIGURES.find(({ name }) => name === each.figure)!
      const { change } = each
      if (change === undefined) return []
      const [got, was] = [Math.max(each.with!, resolution), Math.max(each.without!, resolution)]
      // what rounds to nothing at three figures is not worth a word
      if (Math.abs(got - was) <= 5e-4 * Math.abs(was)) return []
      const isWorse = better === 'less' ? change > 0 : change < 0
      const verb = isWorse ? 'costs' : better === 'less' ? 'saves' : 'gains'
      return [{ each, verb, size: Math.abs(got - was) / Math.max(Math.abs(got), Math.abs(was)) }]
    })
    .toSorted((a, b) => b.size - a.size)
    .slice(0, NAMED)
  return ['costs', 'saves', 'gains']
    .flatMap((verb) => {
      const amounts = moved.filter((m) => m.verb === verb).map(({ each }) => amount(each))
      return amounts.length > 0 ? [`${verb} ${and(amounts)}`] : []
    })
    .join(', ')
}

const and = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`

/** What is lost or gained, by figure: `210 mW of heat`, `3.1 percentage points of efficiency`, `1 part`. */
function amount({ figure, unit, change = 0 }: FigureChange): string {
  const by = Math.abs(change)
  if (figure === 'partCount') return `${by} ${by === 1 ? 'part' : 'parts'}`
  if (figure === 'cost') return formatQuantity(by, unit, 2)
  const { label } = FIGURES.find(({ name }) => name === figure)!
  const of = label.replace(/,.*$/u, '')
  return unit === '%'
    ? `${(by * 100).toPrecision(2)} percentage points of ${lower(of)}`
    : `${formatQuantity(by, unit)} of ${lower(of)}`
}
