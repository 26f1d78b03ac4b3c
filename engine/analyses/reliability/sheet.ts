/**
 * The sheet of one part: its factors and what they multiply to. Numbers are in the handbook's own units (degrees Celsius,
 * watts, microfarads, failures in 10⁶ hours): its equations are fits, and their constants hold for these units alone.
 */
import { compileFormula, parseFormula, printFormula, printSubstituted } from '../../formula/index.ts'
import type { Confidence } from '../../parts/index.ts'
import { formatQuantity } from '../../units/index.ts'

/** What a factor depends on: one column of the sheet each. */
export type FactorGround = 'style' | 'temperature' | 'stress' | 'size' | 'use' | 'quality' | 'environment'

export interface Factor {
  /** `π_T`: what follows the underscore is a subscript. */
  symbol: string
  ground: FactorGround
  value: number
  /** What it was taken at, in words: "body at 61.2 °C". */
  at: string
  /** The equation, and the same with its numbers; absent where the value stands in a table. */
  formula?: string
  substituted?: string
  source: string
  /** `memory`: the constant was not seen in print. `assumption`: the choice of the line is ours. */
  confidence: Confidence
}

export interface Sheet {
  /** "fixed resistor, film". */
  model: string
  source: string
  factors: Factor[]
  /** Failures in 10⁶ hours. */
  perMillionHours: number
  formula: string
  substituted: string
}

type Numbers = Readonly<Record<string, number>>

export interface Worked {
  value: number
  formula: string
  substituted: string
}

/** A number as it stands in the substituted equation. */
const figure = (value: number): string => formatQuantity(value, '1', 4)

/** An equation of the handbook as one text, read once: its value, its print, its print with numbers. */
export function equation(text: string): (numbers: Numbers) => Worked {
  const { tree, symbols } = parseFormula(text)
  const evaluate = compileFormula({ text, tree, symbols }, (symbol) => symbols.indexOf(symbol))
  const formula = printFormula(tree)
  return (numbers) => {
    const values = Float64Array.from(symbols, (symbol) => numberOf(numbers, symbol, text))
    return {
      value: evaluate(values),
      formula,
      substituted: printSubstituted(tree, (symbol) => figure(numberOf(numbers, symbol, text))),
    }
  }
}

function numberOf(numbers: Numbers, symbol: string, text: string): number {
  const value = numbers[symbol]
  if (value === undefined) throw new Error(`reliability: "${text}" lacks ${symbol}`)
  return value
}

/** What a factor is besides its number. */
export type FactorWords = Pick<Factor, 'symbol' | 'ground' | 'at' | 'source'> & { confidence?: Confidence }

/** A factor that an equation gives. */
export const computed = ({ value, formula, substituted }: Worked, words: FactorWords): Factor => ({
  ...words,
  confidence: words.confidence ?? 'read',
  value,
  formula,
  substituted,
})

/** A factor that stands in a table. */
export const tabled = (value: number, words: FactorWords): Factor => ({
  ...words,
  confidence: words.confidence ?? 'read',
  value,
})

/** The sheet whose rate is `rate` of its factors' symbols. */
export function sheet(
  model: string,
  source: string,
  rate: (numbers: Numbers) => Worked,
  factors: readonly Factor[],
): Sheet {
  const { value, formula, substituted } = rate(Object.fromEntries(factors.map((f) => [f.symbol, f.value])))
  return { model, source, factors: [...factors], perMillionHours: value, formula, substituted }
}
