/** The figures that decide: those that are weighed, with their points, then those that are limited, then what is always asked. */
import type { Answer } from '../../../engine/compare/comparison.ts'
import { figureText } from '../../charts/plot.ts'
import { type FigureRow, figureRows } from '../../panels/figures/rows.ts'
import { quantityField, shown } from '../../store/fields.ts'
import type { Standings } from './standings.ts'

export interface BriefCell {
  readonly text: string
  readonly isBest: boolean
  readonly isFailing: boolean
  /** Points that it earns, where it is weighed and the design is ranked. */
  readonly points?: string
}

export interface BriefRow {
  readonly name: string
  readonly label: string
  /** Limit and weight, where there are any. */
  readonly note: string
  /** In the order of the comparison's designs. */
  readonly cells: readonly BriefCell[]
}

/** What a reader asks for whether or not it is weighed, the most asked for first. */
const ALWAYS = [
  'heat',
  'efficiency',
  'output',
  'partCount',
  'cost',
  'shortCircuit.survives',
  'boardArea',
  'failureRateFit',
]

/** More do not fit beside the circuits and the reasons. */
const MOST = 8

/** Points as a table shows them. */
export const pointsText = (points: number): string => figureText(points, 3, 1)

/** A weight as its entry shows it. */
export const weightText = (name: string, weight: number): string =>
  shown(quantityField(`weights.${name}`), Number(weight.toPrecision(3)))

export function weightedNames({ comparison: { weights } }: Answer): string[] {
  return Object.entries(weights)
    .filter(([, weight]) => weight > 0)
    .toSorted(([, a], [, b]) => b - a)
    .map(([name]) => name)
}

export function decidingRows(answer: Answer, { meeting }: Standings): BriefRow[] {
  const rows = figureRows(answer)
  const { weights } = answer.comparison
  const byName = new Map(rows.map((row) => [row.name, row]))
  const limited = rows.filter(({ note }) => note !== '').map(({ name }) => name)
  const names = new Set([...weightedNames(answer), ...limited.filter((name) => name !== 'minimumInput'), ...ALWAYS])
  return [...names]
    .flatMap((name) => byName.get(name) ?? [])
    .slice(0, MOST)
    .map((row) => briefRow(row, weights[row.name] ?? 0, meeting))
}

function briefRow({ name, label, note, cells }: FigureRow, weight: number, meeting: Standings['meeting']): BriefRow {
  const weighs = weight > 0 ? [`weight ${weightText(name, weight)}`] : []
  return {
    name,
    label,
    note: [...(note ? [note] : []), ...weighs].join(', '),
    cells: cells.map(({ text, isBest, isFailing }, k) => {
      const points = meeting.find(({ index }) => index === k)?.entry.contributions[name]
      return {
        text,
        isBest,
        isFailing,
        ...(weight > 0 && points !== undefined ? { points: pointsText(points) } : {}),
      }
    }),
  }
}

/** The scores of those that are ranked, in the order of the designs; undefined where nothing is weighed or none is ranked. */
export function scoreCells(answer: Answer, { meeting }: Standings): string[] | undefined {
  if (weightedNames(answer).length === 0 || meeting.length === 0) return undefined
  return answer.comparison.designs.map((_, k) => {
    const score = meeting.find(({ index }) => index === k)?.entry.score
    return score === undefined ? 'not ranked' : pointsText(score)
  })
}
