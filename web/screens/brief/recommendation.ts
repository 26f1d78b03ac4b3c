/** What is recommended, why, and what would change it. Every number is one that the comparison holds. */
import type { Answer, Comparison, Design } from '../../../engine/compare/comparison.ts'
import { capital, entryText, lower } from '../../../engine/units/index.ts'
import { contrast, headline } from '../../panels/headline/headline.ts'
import { closest } from '../../panels/headline/relaxations.ts'
import { checkWords, counted, judgedCount, listed, margins, missedChecks } from '../../panels/lane/checks.ts'
import { reasons } from '../../panels/lane/reasons.ts'
import { type IsAllowed, NAMED, changeItems, tighter } from './changes.ts'
import { decidingRows, pointsText } from './rows.ts'
import { type Standing, type Standings, nameOf } from './standings.ts'

export interface Passage {
  readonly title: string
  readonly items: readonly string[]
}

export interface Recommendation {
  /** The title of the sheet. */
  readonly finding: string
  /** Who meets, who leads, who falls short. */
  readonly lead: string
  readonly why: Passage
  readonly change: Passage
  /** The designs to look at: the one recommended, those that are level, or the closest. */
  readonly chosen: readonly Design[]
}

/** Reasons that fit beside the plots. */
const MOST_REASONS = 2
/** Points that are worth a sentence. */
const WORTH = 0.05

const rail = ({ requirements }: Comparison): string =>
  `${entryText(requirements.output.voltage, 'V').replace(' ', '\u202F')} rail`

export function recommendationOf(answer: Answer, standings: Standings, isAllowed: IsAllowed): Recommendation {
  const { comparison } = answer
  const { winner, level } = standings
  const lead = headline(comparison)
  if (winner) {
    return {
      finding: `Use ${winner.name} for the ${rail(comparison)}`,
      lead,
      why: { title: `Why ${winner.name}`, items: whyItems(answer, standings, winner) },
      change: { title: 'What would change it', items: changeItems(answer, standings, winner, isAllowed) },
      chosen: [winner.design],
    }
  }
  if (level.length > 1) return undecided(comparison, standings, lead)
  return noneMeets(comparison, lead, isAllowed)
}

// --- one is to be taken

interface Difference {
  readonly label: string
  readonly own: string
  readonly other: string
  readonly points: number
}

/** Weighed figures by the points that the winner gains or loses on them, most gained first. */
function differences(answer: Answer, standings: Standings, winner: Standing, rival: Standing): Difference[] {
  return decidingRows(answer, standings)
    .flatMap(({ name, label, cells }) => {
      const [own, other] = [winner.entry.contributions[name], rival.entry.contributions[name]]
      if (own === undefined || other === undefined) return []
      return [
        {
          label: capital(label),
          own: cells[winner.index]!.text,
          other: cells[rival.index]!.text,
          points: own - other,
        },
      ]
    })
    .toSorted((a, b) => b.points - a.points)
}

/** The figures by which the winner leads the next one, most first. */
export function decisive({ winner, rival }: Standings): string[] {
  if (!winner || !rival) return []
  const gain = (name: string) => Math.abs(winner.entry.contributions[name]! - (rival.entry.contributions[name] ?? 0))
  return Object.keys(winner.entry.contributions).toSorted((a, b) => gain(b) - gain(a))
}

function whyItems(answer: Answer, standings: Standings, winner: Standing): string[] {
  const { rival, short } = standings
  const { requirements } = answer.comparison
  const tight = margins(winner.design, requirements)[0]
  const weakest = tight ? [`Weakest point: ${tight.text}.`] : []
  if (!rival) {
    const judged = judgedCount(winner.design, requirements)
    return [
      `It alone keeps all ${judged} requirements and ratings that were judged; points play no part in that.`,
      ...short.map(({ name, design }) => missedWords(name, design)),
      ...weakest,
    ]
  }
  const all = differences(answer, standings, winner, rival)
  const gains = all.filter(({ points }) => points >= WORTH).slice(0, MOST_REASONS)
  const loss = all.findLast(({ points }) => points <= -WORTH)
  return [
    ...gains.map(
      ({ label, own, other, points }) =>
        `${label}: ${own} against ${other} of ${rival.name}, worth ${pointsText(points)} points.`,
    ),
    ...(loss
      ? [
          `It gives away ${pointsText(-loss.points)} points on ${lower(loss.label)}: ${loss.own} against ${loss.other} of ${rival.name}.`,
        ]
      : ['It loses no points to the next.']),
    ...weakest,
  ]
}

function missedWords(name: string, design: Design): string {
  if (!design.circuit) return `${capital(name)} cannot be built.`
  const missed = missedChecks(design).map(checkWords)
  const named = missed.length > NAMED + 1 ? [...missed.slice(0, NAMED), `${missed.length - NAMED} more`] : missed
  return `${capital(name)} misses ${listed(named)}.`
}

// --- several are level, or none meets

function undecided(comparison: Comparison, { level }: Standings, lead: string): Recommendation {
  const [first, ...others] = level as [Standing, ...Standing[]]
  const isWeighed = first.entry.score > 0
  return {
    finding: `${capital(listed(level.map(({ name }) => name)))} ${isWeighed ? 'are level' : 'both meet, and nothing is weighed'} for the ${rail(comparison)}`,
    lead,
    why: {
      title: 'What tells them apart',
      items: [
        ...others.flatMap(({ name, design }) => {
          const trait = contrast(first.design.figures!, design.figures!)
          return trait ? [`Against ${first.name}, ${name} ${trait}.`] : []
        }),
        ...level.flatMap(({ name, design }) => {
          const tight = margins(design, comparison.requirements)[0]
          return tight ? [`Weakest point of ${name}: ${tight.text}.`] : []
        }),
      ],
    },
    change: {
      title: 'What would decide',
      items: [
        isWeighed ? 'Any change of a weight may decide.' : 'Give weights to the figures that matter.',
        ...tighter(comparison, first, others),
        ...others.flatMap((one) => tighter(comparison, one, [first])),
      ].slice(0, 4),
    },
    chosen: level.map(({ design }) => design),
  }
}

function noneMeets(comparison: Comparison, lead: string, isAllowed: IsAllowed): Recommendation {
  const near = closest(comparison, isAllowed)
  if (!near) {
    return {
      finding: `None of the ${counted(comparison.designs.length)} can be built for the ${rail(comparison)}`,
      lead,
      why: {
        title: 'What stands in the way',
        items: comparison.designs.map(
          (design) => `${capital(nameOf(design))}: ${first(reasons(design, comparison.requirements))}`,
        ),
      },
      change: {
        title: 'What would change it',
        items: ['A narrower input range, a lighter load, a milder ambient or a wider band gives all more room.'],
      },
      chosen: [],
    }
  }
  const { design, name, relaxations, others } = near
  return {
    finding: `None of the ${counted(comparison.designs.length)} meets the requirements; ${name} comes closest`,
    lead,
    why: {
      title: `What ${name} lacks`,
      items: reasons(design, comparison.requirements)
        .map(({ text }) => firstSentence(text))
        .slice(0, 4),
    },
    change: {
      title: 'What would let it through',
      items: [
        ...(relaxations.length > 0
          ? [
              `${relaxations.map(({ label }) => label).join('; ')}: ${others.length === 0 ? `${relaxations.length > 1 ? 'together ' : ''}that is enough as sized` : 'that is not enough by itself'}.`,
            ]
          : []),
        ...(others.length > 0
          ? [`It ${relaxations.length > 0 ? 'also ' : ''}misses ${listed(others)}, which no single number eases.`]
          : []),
        'Each change is sized and proven anew; another variant may then come in.',
      ],
    },
    chosen: [design],
  }
}

/** What, how much, against which limit; the advice that follows stands elsewhere on the sheet. */
export const firstSentence = (text: string): string => text.split(/(?<=\.) (?=\p{Lu})/u)[0]!

const first = (texts: readonly { text: string }[]): string => texts[0]?.text ?? 'no reason is known.'
