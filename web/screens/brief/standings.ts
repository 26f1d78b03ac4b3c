/** Who is recommended, and against whom: one reading of verdicts and scores that every passage of the brief shares. */
import type { Comparison, Design, RankingEntry } from '../../../engine/compare/comparison.ts'
import { markOf } from '../../charts/marks.ts'
import { isLevel } from '../../panels/headline/headline.ts'

export interface Standing {
  readonly design: Design
  /** Place in `Comparison.designs`. */
  readonly index: number
  /** In lower case, for the middle of a sentence. */
  readonly name: string
  readonly entry: RankingEntry
}

export interface Standings {
  /** Those that meet, best first. */
  readonly meeting: readonly Standing[]
  /** Those that fall short, in the order of the comparison. */
  readonly short: readonly Standing[]
  /** The one to take; undefined where none meets or where several are level. */
  readonly winner: Standing | undefined
  /** The design that the winner is held against: the next that meets. */
  readonly rival: Standing | undefined
  /** Several that meet, with nothing to choose between them by points. */
  readonly level: readonly Standing[]
}

export const nameOf = ({ topology }: Pick<Design, 'topology'>): string => markOf(topology).name.toLowerCase()

export function standingsOf({ designs, ranking }: Comparison): Standings {
  const all = ranking.flatMap((entry): Standing[] => {
    const index = designs.findIndex(({ topology }) => topology === entry.topology)
    const design = designs[index]
    return design ? [{ design, index, name: nameOf(design), entry }] : []
  })
  const meeting = all.filter(({ design }) => design.verdict === 'meets')
  const short = all.filter(({ design }) => design.verdict !== 'meets').toSorted((a, b) => a.index - b.index)
  const [first, second] = meeting
  const level = first && second ? meeting.filter(({ entry }) => isLevel(first.entry.score, entry.score)) : []
  const isTied = level.length > 1
  return { meeting, short, level: isTied ? level : [], winner: isTied ? undefined : first, rival: second }
}
