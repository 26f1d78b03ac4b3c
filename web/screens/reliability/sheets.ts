/** The failure rate of each design as tables and as a title: one row a part, one column a ground of its factors. */
import type { Design, TopologyName } from '../../../engine/compare/comparison.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import type { Factor, FactorGround, Reliability } from '../../../engine/analyses/reliability/index.ts'
import { entryText, formatQuantity } from '../../../engine/units/index.ts'
import { markOf } from '../../charts/marks.ts'
import { partText } from '../../panels/parts/uses.ts'

/** Columns of the sheet in the order of the handbook's equations. */
export const GROUNDS: readonly { readonly ground: FactorGround; readonly title: string }[] = [
  { ground: 'style', title: 'Base rate' },
  { ground: 'temperature', title: 'Temperature' },
  { ground: 'stress', title: 'Stress' },
  { ground: 'size', title: 'Size' },
  { ground: 'use', title: 'Use' },
  { ground: 'quality', title: 'Quality' },
  { ground: 'environment', title: 'Environment' },
]

export interface FactorText {
  /** The symbol before and after its underscore. */
  readonly symbol: string
  readonly subscript: string
  readonly value: string
  readonly at: string
  readonly equation: string
  readonly numbers: string
  readonly source: string
  /** "from memory", "assumed", or nothing. */
  readonly doubt: string
}

export interface PartRow {
  readonly part: string
  readonly what: string
  readonly model: string
  /** Factors by column of `GROUNDS`. */
  readonly columns: readonly (readonly FactorText[])[]
  readonly equation: string
  readonly numbers: string
  readonly source: string
  readonly fit: string
  readonly share: number
  /** Why there is no rate. */
  readonly without: string
}

export interface DesignSheet {
  readonly topology: TopologyName
  /** Undefined where there is no circuit, or where its nominal point has no solution. */
  readonly fit: number | undefined
  readonly detail: Reliability | undefined
  /** The largest rate first, parts without one last. */
  readonly rows: readonly PartRow[]
}

/** No more figures than can be told apart in a sum of factors that have one or two. */
export const fitText = (fit: number): string => formatQuantity(fit, 'FIT', fit >= 100 ? 3 : 2)

const DOUBTS: Readonly<Record<Factor['confidence'], string>> = {
  read: '',
  memory: 'from memory',
  derived: 'derived',
  assumption: 'assumed',
}

function factorText({ symbol, value, at, formula = '', substituted = '', source, confidence }: Factor): FactorText {
  const [base = '', subscript = ''] = symbol.split('_')
  return {
    symbol: base,
    subscript,
    // what stands in a table is printed as it stands there
    value: formula ? formatQuantity(value, '1') : entryText(value, '1'),
    at,
    equation: formula,
    numbers: substituted,
    source,
    doubt: DOUBTS[confidence],
  }
}

export function designSheets(designs: readonly Design[], inspection: Inspection | undefined): DesignSheet[] {
  return designs.map((design, k) => {
    const detail = inspection?.[k]?.reliability
    const rows = (detail?.parts ?? []).map(({ part, sheet, share = 0, without = '' }): PartRow => {
      const bought = design.parts.find(({ id }) => id === part)
      const factors = sheet?.factors ?? []
      return {
        part,
        what: bought ? partText(bought).main : '',
        model: sheet?.model ?? '',
        columns: GROUNDS.map(({ ground }) => factors.filter((f) => f.ground === ground).map(factorText)),
        equation: sheet?.formula ?? '',
        numbers: sheet?.substituted ?? '',
        source: sheet?.source ?? '',
        fit: sheet ? fitText(sheet.perMillionHours * 1e3) : '',
        share,
        without,
      }
    })
    return {
      topology: design.topology,
      fit: detail?.fit,
      detail,
      rows: rows.toSorted((a, b) => b.share - a.share),
    }
  })
}

const percent = (share: number): string => formatQuantity(share, 'fraction', 2)

/** Closer than this the handbook cannot tell two designs apart: its factors have one or two figures. */
const ALIKE = 1.1

/** The title: the lowest rate, the highest, and what makes it so. */
export function finding(sheets: readonly DesignSheet[]): string {
  const rated = sheets
    .flatMap((sheet) => (sheet.fit === undefined ? [] : [{ ...sheet, fit: sheet.fit }]))
    .toSorted((a, b) => a.fit - b.fit)
  const [best, next] = rated
  const worst = rated.at(-1)
  if (!best || !worst) return 'No design has a failure rate: there is no circuit, or no nominal point.'
  const name = ({ topology }: DesignSheet) => markOf(topology).name
  const main = ({ rows }: DesignSheet) => `${percent(rows[0]!.share)} of it ${rows[0]!.part}`
  if (worst === best) return `${name(best)} comes to ${fitText(best.fit)} by the handbook, ${main(best)}.`
  if (worst.fit < best.fit * ALIKE)
    return `By the handbook, the designs are alike: ${rated.map((s) => `${name(s).toLowerCase()} ${fitText(s.fit)}`).join(', ')}.`
  const isTie = next !== worst && next!.fit < best.fit * ALIKE
  const least = isTie
    ? `By the handbook, ${name(best).toLowerCase()} and ${name(next!).toLowerCase()} are alike, ${fitText(best.fit)} and ${fitText(next!.fit)}`
    : `By the handbook, ${name(best).toLowerCase()} has the lowest failure rate, ${fitText(best.fit)}`
  return `${least}; ${name(worst).toLowerCase()} has the highest, ${fitText(worst.fit)}, ${main(worst)}.`
}
