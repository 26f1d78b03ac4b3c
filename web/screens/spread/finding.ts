/** The outcome of a run as one sentence. */
import type { BoardSummary } from '../../../engine/compare/boards.ts'
import type { TopologyName } from '../../../engine/compare/comparison.ts'
import { capital, formatQuantity } from '../../../engine/units/index.ts'
import { markOf } from '../../charts/marks.ts'
import { countText } from '../../panels/spread/words.ts'

export interface Drawn {
  readonly topology: TopologyName
  /** Undefined where nothing could be built. */
  readonly summary: BoardSummary | undefined
}
const nameOf = ({ topology }: Drawn): string => markOf(topology).name.toLowerCase()

/** `a`, `a and b`, `a, b and c`. */
function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

/** Fewer than one in two hundred are counted, more are a share. */
function outside({ yield: found, solved }: BoardSummary): string {
  const boards = solved - found!.inside
  return boards / solved < 0.005
    ? `${countText(boards)} of ${countText(solved)}`
    : formatQuantity(boards / solved, 'fraction', 2)
}

export function findingOf(all: readonly Drawn[]): string {
  const solved = all.filter(({ summary }) => summary?.yield)
  if (solved.length === 0) return 'No board of any topology has a solution.'
  const kept = solved.filter(({ summary }) => summary!.yield!.inside === summary!.solved)
  const lost = solved.filter((drawn) => !kept.includes(drawn))
  const boards = countText(Math.max(...solved.map(({ summary }) => summary!.solved)))
  const clauses: string[] = []
  if (kept.length > 0) {
    const each = kept.length > 1 ? ' each' : ''
    clauses.push(
      `${listed(kept.map(nameOf))} ${kept.length > 1 ? 'keep' : 'keeps'} all ${boards} boards${each} inside the band`,
    )
  }
  if (lost.length > 0)
    clauses.push(
      lost
        .map(
          (drawn, k) =>
            `${nameOf(drawn)} ${k === 0 ? 'puts ' : ''}${outside(drawn.summary!)}${k === 0 ? ' outside it' : ''}`,
        )
        .join(', '),
    )
  const unbuilt = all.filter(({ summary }) => !summary?.yield)
  if (unbuilt.length > 0)
    clauses.push(`${listed(unbuilt.map(nameOf))} ${unbuilt.length > 1 ? 'have' : 'has'} no boards to draw`)
  const text = capital(clauses.join('; '))
  return `${kept.length > 0 ? text : text.replace('outside it', 'outside the band')}.`
}
