/** What would change a recommendation: other weights, tighter limits, a short to survive, or less asked of the others. */
import type { Answer, Comparison, Design } from '../../../engine/compare/comparison.ts'
import { capital, formatQuantity, lower } from '../../../engine/units/index.ts'
import { readFigure } from '../../panels/figures/rows.ts'
import { closeness } from '../../panels/headline/relaxations.ts'
import { listed } from '../../panels/lane/checks.ts'
import { pointsText, weightText } from './rows.ts'
import { type Standing, type Standings, nameOf } from './standings.ts'

/** Whether the requirements may hold a value: what they may not is no way out. */
export type IsAllowed = (path: string, value: number | boolean) => boolean

/** Requirements named before the rest is counted. */
export const NAMED = 4

export function changeItems(answer: Answer, standings: Standings, winner: Standing, isAllowed: IsAllowed): string[] {
  const { comparison } = answer
  const { meeting, short, rival } = standings
  const others = meeting.filter((one) => one !== winner)
  if (rival) {
    return [
      weightWords(answer, winner, rival),
      ...tighter(comparison, winner, others),
      ...shortWords(comparison, winner, others),
    ]
  }
  return [
    ...short.flatMap(({ name, design }) => easierWords(comparison, name, design, isAllowed)),
    ...shortWords(comparison, winner, others),
    'Each change is sized and proven anew; another variant may then come in.',
  ]
}

/** How far the next one is behind, and the weight nearest to its own value at which another comes first. */
function weightWords({ comparison, figures }: Answer, winner: Standing, rival: Standing): string {
  const behind = `By points ${rival.name} is ${pointsText(winner.entry.score - rival.entry.score)} behind`
  const turns = comparison.weightLimits.limits.flatMap(({ figure, weight, from, to, below, above }) => [
    ...(below ? [{ figure, weight, at: from, side: 'below', who: below }] : []),
    ...(above ? [{ figure, weight, at: to, side: 'above', who: above }] : []),
  ])
  // what is weighed already comes before what is not
  const [nearest] = turns.toSorted(
    (a, b) => Number(b.weight > 0) - Number(a.weight > 0) || Math.abs(a.at - a.weight) - Math.abs(b.at - b.weight),
  )
  if (!nearest) return `${behind}; no single weight, moved alone, puts another first.`
  const label = figures.find(({ name }) => name === nearest.figure)?.label ?? nearest.figure
  return `${behind}; with ${lower(label)} weighed ${nearest.side} ${weightText(nearest.figure, nearest.at)} instead of ${weightText(nearest.figure, nearest.weight)}, ${nameOf({ topology: nearest.who })} comes first.`
}

interface Reach {
  readonly words: string
  readonly unit: string
  readonly of: (standing: Standing) => number | undefined
}

/** How far a rival must reach beyond the winner to be worth naming. */
const CLEARLY = 0.9

/** Limits that the winner as sized could not keep and another that meets could, the widest apart first. */
export function tighter({ requirements }: Comparison, winner: Standing, others: readonly Standing[]): string[] {
  const { voltage } = requirements.output
  const band = ({ design }: Standing) => {
    const output = design.figures?.output
    return output && Math.max(output.highest - voltage, voltage - output.lowest) / voltage
  }
  const figure = (name: string) => (one: Standing) => readFigure(one.design.figures, name)?.at
  const reaches: Reach[] = [
    { words: 'An output band narrower than ±', unit: 'fraction', of: band },
    { words: 'A load regulation asked below ', unit: 'fraction', of: figure('loadRegulation') },
    { words: 'A line regulation asked below ', unit: 'fraction', of: figure('lineRegulation') },
    { words: 'An output ripple asked below ', unit: 'V', of: figure('outputRipple') },
  ]
  return reaches
    .flatMap(({ words, unit, of }) => {
      const own = of(winner)
      const best = others
        .flatMap((one) => {
          const value = of(one)
          return value === undefined ? [] : [{ name: one.name, value }]
        })
        .toSorted((a, b) => a.value - b.value)[0]
      if (own === undefined || !best || !(best.value < CLEARLY * own)) return []
      const text = `${words}${formatQuantity(own, unit)}: beyond this ${winner.name} circuit; ${best.name} as sized holds ${formatQuantity(best.value, unit)}.`
      return [{ text, gap: best.value / own }]
    })
    .toSorted((a, b) => a.gap - b.gap)
    .slice(0, 2)
    .map(({ text }) => text)
}

/** What it would mean to ask for a survived short, where that is not asked for. */
function shortWords({ requirements, designs }: Comparison, winner: Standing, others: readonly Standing[]): string[] {
  if (requirements.limits.survivesShort || winner.design.figures?.shortCircuit?.survives !== false) return []
  const surviving = others.filter(({ design }) => design.figures?.shortCircuit?.survives).map(({ name }) => name)
  const all = designs.filter(({ figures }) => figures?.shortCircuit?.survives).map(nameOf)
  const who = surviving.length > 0 ? surviving : all
  const rest = who.length > 0 ? `as sized only ${listed(who)} does` : 'as sized none does'
  return [`A shorted output to be survived: ${rest}; asked for, each is sized anew with a limiter.`]
}

/** What a design that falls short would need to be asked. */
function easierWords({ requirements }: Comparison, name: string, design: Design, isAllowed: IsAllowed): string[] {
  if (!design.circuit) return []
  const { relaxations, others } = closeness(design, requirements.output.voltage, isAllowed)
  if (others.length > 0)
    return [`${capital(name)} misses ${listed(others.slice(0, NAMED))}, which no single number eases.`]
  return [`${capital(name)} would do too if you ${listed(relaxations.map(({ label }) => lower(label)))}.`]
}
