/** The margin note beside the headline: what is tight and what was not judged. */
import { capital } from '../../../engine/units/index.ts'
import type { Comparison, Design } from '../../../engine/compare/comparison.ts'
import { markOf } from '../../charts/marks.ts'
import { checkWords, listed, margins } from '../lane/checks.ts'

export interface Note {
  readonly title: string
  readonly text: string
}

function leaderOf({ designs, ranking }: Comparison): Design | undefined {
  const score = (d: Design) => ranking.find(({ topology }) => topology === d.topology)?.score ?? 0
  return designs.filter(({ verdict }) => verdict === 'meets').toSorted((a, b) => score(b) - score(a))[0]
}

/** Limits that were not judged, with the designs it concerns unless it is all of them. */
function unjudged({ designs }: Comparison): string[] {
  const byLimit = new Map<string, string[]>()
  for (const { topology, notEvaluated } of designs) {
    for (const limit of notEvaluated)
      byLimit.set(limit, [...(byLimit.get(limit) ?? []), markOf(topology).name.toLowerCase()])
  }
  return [...byLimit].map(([limit, names]) =>
    names.length === designs.length ? checkWords(limit) : `${checkWords(limit)} (${listed(names)})`,
  )
}

export function marginNotes(comparison: Comparison): Note[] {
  const notes: Note[] = []
  const leader = leaderOf(comparison)
  const tightest = leader && margins(leader, comparison.requirements)[0]
  if (leader && tightest) {
    notes.push({ title: `Tightest in ${markOf(leader.topology).name.toLowerCase()}:`, text: `${tightest.text}.` })
  }
  const open = unjudged(comparison)
  if (open.length > 0) {
    notes.push({
      title: 'Not evaluated:',
      text: `${listed(open)}. Check ${open.length > 1 ? 'these' : 'it'} on the bench.`,
    })
  }
  const unsolved = comparison.designs.filter((design) => design.unsolved.length > 0)
  if (unsolved.length > 0) {
    const isShort = unsolved.every((design) =>
      design.unsolved.every(({ condition }) => condition.includes('a shorted output')),
    )
    const names = unsolved.map(({ topology, unsolved: points }) => {
      if (isShort) return markOf(topology).name.toLowerCase()
      return `${points.length} ${points.length === 1 ? 'condition' : 'conditions'} of ${markOf(topology).name.toLowerCase()}`
    })
    notes.push({
      title: 'Without a solution:',
      text: `${listed(names)}${isShort ? ' with a shorted output' : ''}; no numbers are given there.`,
    })
  }
  return notes
}

const OUTCOME_WORDS: Record<string, string> = { thermalRunaway: 'the parts run away thermally' }

/** Every condition without a solution, design by design, and what the solver met with there. */
export function unsolvedOf({ designs }: Comparison): { name: string; lines: string[] }[] {
  return designs
    .filter(({ unsolved }) => unsolved.length > 0)
    .map(({ topology, unsolved }) => ({
      name: markOf(topology).name,
      lines: unsolved.map(
        ({ condition, outcome }) => `${capital(condition)}: ${OUTCOME_WORDS[outcome] ?? 'no solution was found'}.`,
      ),
    }))
}

/** Cautions of all designs, each once: first those of some designs, then those of all. */
export function cautionsOf({
  designs,
}: {
  designs: readonly Pick<Design, 'topology' | 'cautions'>[]
}): { text: string; names: string[] }[] {
  const byText = new Map<string, string[]>()
  for (const { topology, cautions } of designs) {
    for (const text of cautions) byText.set(text, [...(byText.get(text) ?? []), markOf(topology).name.toLowerCase()])
  }
  return [...byText]
    .toSorted(([, a], [, b]) => Math.floor(a.length / designs.length) - Math.floor(b.length / designs.length))
    .map(([text, names]) => ({ text, names: names.length === designs.length ? [] : names }))
}
