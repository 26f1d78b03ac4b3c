/** Which requirements a design was held against, which it misses, and how near it comes to those it keeps. */
import { formatQuantity } from '../../../engine/units/index.ts'
import type { Design } from '../../../engine/compare/comparison.ts'
import type { Requirements } from '../../../engine/requirements/study.ts'
import { ratingUses } from '../parts/uses.ts'

/** The limits of a study by name, in words for the middle of a sentence. */
const LIMIT_WORDS: Record<string, string> = {
  loadRegulation: 'load regulation',
  lineRegulation: 'line regulation',
  outputRipple: 'output ripple',
  survivesShort: 'surviving a shorted output',
}

/** Shortfalls of one requirement share a key: `output.tolerance` and `output.voltage` are both the output band. */
export function checkKey(path: string): string {
  const [head = path, tail] = path.split('.')
  if (head === 'limits' && tail) return `limits.${tail}`
  return ['input', 'output', 'load', 'ambient'].includes(head) ? head : path
}

/** A requirement's path in words; `start-up` and `solution` are words already: `limits.loadRegulation` is "load regulation", `D1.power` is "power in D1". */
export function checkWords(path: string): string {
  const key = checkKey(path)
  if (key === 'output') return 'output band'
  if (key === 'input') return 'input range'
  if (key === 'load') return 'load range'
  if (key === 'ambient') return 'ambient range'
  if (key === 'solution') return 'points that have no solution'
  const [head = key, tail] = key.split('.')
  if (head === 'limits' && tail) return LIMIT_WORDS[tail] ?? spaced(tail)
  return tail ? `${spaced(tail)} in ${head}` : spaced(head)
}

/** `loopStability` as words: "loop stability". A text with spaces stays as it is. */
function spaced(text: string): string {
  return text.includes(' ') ? text : text.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`).trim()
}

/** Keys of the requirements that a design misses, each once. */
export function missedChecks(design: Design): string[] {
  return [...new Set(design.shortfalls.map(({ requirement }) => checkKey(requirement)))]
}

/** How many requirements and part ratings were judged: the output band, each limit asked for, each rating under stress. */
export function judgedCount(design: Design, requirements: Requirements): number {
  const keys = new Set<string>(['output', ...missedChecks(design)])
  for (const [name, limit] of Object.entries(requirements.limits)) {
    if (limit !== undefined && limit !== false) keys.add(`limits.${name}`)
  }
  for (const part of design.parts) {
    for (const quantity of Object.keys(part.ratings)) {
      if (part.stress[quantity] !== undefined) keys.add(`${part.id}.${quantity}`)
    }
  }
  for (const limit of design.notEvaluated) keys.delete(checkKey(limit))
  return keys.size
}

export interface Margin {
  /** Share of what is allowed that is left: 0 at the limit, 1 unused, negative beyond. */
  readonly left: number
  /** What, how much, against which limit. */
  readonly text: string
}

function volts(value: number): string {
  return formatQuantity(value, 'V')
}

function outputMargins({ figures }: Design, { output }: Requirements): Margin[] {
  if (!figures) return []
  const half = output.voltage * output.tolerance
  const low = figures.output.lowest - (output.voltage - half)
  const high = output.voltage + half - figures.output.highest
  return [
    { left: low / half, text: `lowest output ${volts(figures.output.lowest)}, ${volts(low)} above the limit` },
    { left: high / half, text: `highest output ${volts(figures.output.highest)}, ${volts(high)} below the limit` },
  ]
}

function limitMargins({ figures }: Design, { limits }: Requirements): Margin[] {
  if (!figures) return []
  const rows: [string, number | undefined, number | undefined, string][] = [
    ['load regulation', figures.loadRegulation.fraction, limits.loadRegulation, 'fraction'],
    ['line regulation', figures.lineRegulation.fraction, limits.lineRegulation, 'fraction'],
    ['output ripple', figures.outputRipple, limits.outputRipple, 'V'],
  ]
  return rows.flatMap(([name, got, limit, unit]) =>
    got === undefined || limit === undefined || !(limit > 0)
      ? []
      : [
          {
            left: 1 - got / limit,
            text: `${name} ${formatQuantity(got, unit)} of ${formatQuantity(limit, unit, 2)} allowed`,
          },
        ],
  )
}

function partMargins({ parts }: Design): Margin[] {
  return parts.flatMap((part) => {
    const most = ratingUses(part)[0]
    if (!most || !Number.isFinite(part.margin)) return []
    const left = formatQuantity(part.margin, 'fraction', 2)
    return [{ left: part.margin, text: `${part.id} ${most.words} ${most.text}, ${left} of the derated rating left` }]
  })
}

/** All margins of a design that has a circuit, the tightest first. */
export function margins(design: Design, requirements: Requirements): Margin[] {
  return [
    ...outputMargins(design, requirements),
    ...limitMargins(design, requirements),
    ...partMargins(design),
  ].toSorted((a, b) => a.left - b.left)
}

/** "a, b and c"; empty for no items. */
export function listed(items: readonly string[], joint = 'and'): string {
  if (items.length < 2) return items.join('')
  return `${items.slice(0, -1).join(', ')} ${joint} ${items.at(-1)}`
}

const WORDS = ['none', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten']

/** A count in a sentence: words to ten, digits beyond. */
export function counted(count: number): string {
  return WORDS[count] ?? String(count)
}
