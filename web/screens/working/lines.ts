/** A design's working, line by line, as the screen and a copied text show it. */
import type { Design, Tree, WorkedLine } from '../../../engine/compare/comparison.ts'
import type { Details } from '../../../engine/compare/details.ts'
import { capital, formatQuantity } from '../../../engine/units/index.ts'
import { markOf } from '../../charts/marks.ts'
import { formulaMath, numberLeaf, numberMath, symbolMath } from '../../formula/mathml.ts'
import { type Markup, markup } from '../../look/markup.ts'
import { cornerWords } from '../../panels/heat/words.ts'

export type HandValue = Details['handValues'][number]

export interface Solved {
  readonly value: string
  /** Where it was read. */
  readonly at: string
  readonly because: string
}

export interface Line {
  /** From 1, givens and steps together. */
  readonly number: number
  /** Of its element and in the address. */
  readonly anchor: string
  readonly symbol: string
  readonly symbolMath: Markup
  readonly quantity: string
  readonly isGiven: boolean
  /** Undefined for givens and choices. */
  readonly formula: Markup | undefined
  readonly numbers: Markup | undefined
  /** A choice in words, symbols apart; empty where there is a formula. */
  readonly words: readonly (string | Markup)[]
  /** The same with numbers; empty where it names no symbol. */
  readonly counted: readonly (string | Markup)[]
  readonly value: string
  readonly source: string
  readonly why: readonly (string | Markup)[]
  /** The part that is bought with this value. */
  readonly part: string | undefined
  readonly solved: Solved | undefined
  /** As it is read aloud and copied. */
  readonly spoken: string
}

export const anchorOf = (topology: string, symbol: string): string => `working/${topology}/${symbol}`

/** Symbols within a sentence are set as symbols, or as their numbers. */
function pieces(text: string, values: ReadonlyMap<string, WorkedLine>, set: (line: WorkedLine) => Markup) {
  return text.split(/(\b[A-Za-z][A-Za-z0-9]*(?:_[A-Za-z0-9_]+)?\b)/u).flatMap((piece): (string | Markup)[] => {
    const line = values.get(piece)
    // a word of the language may be spelt as a symbol is: a symbol has a capital, a digit or a subscript
    return line && /[A-Z\d_]/u.test(piece) ? [set(line)] : piece === '' ? [] : [piece]
  })
}

const inline = (inside: Markup): Markup => markup('math', {}, [inside])
const amount = ({ value, unit }: Pick<WorkedLine, 'value' | 'unit'>): string => formatQuantity(value, unit)

function conditionWords({ condition, thermal, isWorst }: HandValue): string {
  const state = thermal === 'settled' ? '' : thermal === 'cold' ? ', before it warms' : ', temperatures held'
  return `${cornerWords(condition)}${state}; ${isWorst ? 'worst corner' : 'nominal parts'}`
}

export function linesOf(
  { topology, derivation }: Design,
  formulas: readonly (Tree | null)[],
  handValues: readonly HandValue[] = [],
): Line[] {
  const bySymbol = new Map(derivation.map((line) => [line.symbol, line]))
  const numberOf = (symbol: string): string => amount(bySymbol.get(symbol) ?? { value: Number.NaN, unit: '1' })
  const setSymbol = ({ symbol }: WorkedLine): Markup => inline(symbolMath(symbol))
  const setNumber = (line: WorkedLine): Markup => inline(numberMath(amount(line)))
  return derivation.map((line, k): Line => {
    const tree = formulas[k] ?? undefined
    const isGiven = line.formula === 'given'
    const counted = pieces(tree || isGiven ? '' : line.formula, bySymbol, setNumber)
    const words = tree || isGiven ? '' : line.formula
    const hand = handValues.find(({ symbol }) => symbol === line.symbol)
    return {
      number: k + 1,
      anchor: anchorOf(topology, line.symbol),
      symbol: line.symbol,
      symbolMath: symbolMath(line.symbol),
      quantity: line.quantity,
      isGiven,
      formula: tree && formulaMath(tree),
      numbers: tree && formulaMath(tree, numberLeaf(numberOf)),
      words: pieces(words, bySymbol, setSymbol),
      counted: counted.some((piece) => typeof piece !== 'string') ? counted : [],
      value: amount(line),
      source: line.source,
      why: line.why === undefined ? [] : pieces(line.why, bySymbol, setSymbol),
      part: line.part,
      solved: hand && {
        value: formatQuantity(hand.solved, line.unit),
        at: conditionWords(hand),
        because: hand.because,
      },
      spoken: spokenOf(line, tree !== undefined),
    }
  })
}

const spokenOf = (line: WorkedLine, hasFormula: boolean): string =>
  hasFormula
    ? `${line.symbol} = ${line.formula} = ${line.substituted} = ${amount(line)}`
    : `${line.symbol} = ${amount(line)}${line.formula === 'given' ? '' : `, ${line.formula}`}`

/** The whole working as plain text, a line each. */
export function workingText({ topology, variant, derivation }: Design, lines: readonly Line[]): string {
  const body = lines.map(({ number, quantity, spoken, source, part, solved }, k) => {
    const { why } = derivation[k]!
    return [
      `${number}. ${quantity}: ${spoken}.`,
      ...(part === undefined ? [] : [`Bought as ${part}.`]),
      ...(why === undefined ? [] : [why]),
      ...(solved ? [`Solved: ${solved.value} (${solved.at}). ${solved.because}`] : []),
      `Source: ${source}.`,
    ].join(' ')
  })
  return [`${markOf(topology).name}, ${capital(variant)}`, ...body].join('\n')
}
