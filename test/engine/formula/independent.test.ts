/** Random formulas against mathjs, an independent parser and evaluator of expressions. */
import { all, create } from 'mathjs'
import { describe, expect, test } from 'vitest'
import { compileFormula, parseFormula, printFormula } from '../../../engine/formula/index.ts'
import { randomOf, type Random } from '../../../engine/random/index.ts'

// predictable: the root or logarithm of a negative number is NaN, not a complex number
const math = create(all!, { predictable: true })
const SYMBOLS = ['Vin_min', 'Vz', 'Iz', 'R1', 'hFE', 'x2']

/** A text of our grammar with many needless and needed brackets. A minus sign never stands right before a power: that form is refused. */
function anyFormula(random: Random, depth: number): string {
  const pick = <T>(choices: readonly T[]): T => choices[Math.floor(random() * choices.length)]!
  const inner = () => anyFormula(random, depth - 1)
  if (depth === 0) return pick([...SYMBOLS, '2', '0.5', '1.5e-1', '3'])
  switch (Math.floor(random() * 10)) {
    case 0:
      return `(${inner()})`
    case 1:
      return `-(${inner()})`
    case 2:
      return `${pick(['sqrt', 'abs', 'ln', 'exp'])}(${inner()})`
    case 3:
      return `${pick(['min', 'max', 'par'])}(${inner()}, ${inner()})`
    case 4:
      return `abs(${inner()})^${pick(['2', '3', '0.5', '-1', '(1/3)', 'x2'])}`
    case 5:
      return `${pick(SYMBOLS)}^${pick(SYMBOLS)}^${pick(['2', '0.5'])}`
    default:
      return inner() + pick([' + ', ' - ', '*', ' / ', '-', '+']) + inner()
  }
}

/** The same text for mathjs: natural logarithm and parallel under its own names. */
function expectedOf(text: string, scope: Record<string, number>): unknown {
  return math.evaluate(text.replaceAll('ln(', 'log('), {
    ...scope,
    par: (a: number, b: number) => math.evaluate('a * b / (a + b)', { a, b }) as number,
  })
}

function agrees(found: number, expected: unknown): boolean {
  if (typeof expected !== 'number') return false
  if (!Number.isFinite(expected) || !Number.isFinite(found)) return Object.is(found, expected)
  return Math.abs(found - expected) <= 1e-9 * Math.max(1e-6, Math.abs(expected))
}

function evaluateOf(text: string, scope: Record<string, number>): number {
  return compileFormula(parseFormula(text), (symbol) => SYMBOLS.indexOf(symbol))(
    Float64Array.from(SYMBOLS, (symbol) => scope[symbol]!),
  )
}

const cases = Array.from({ length: 3000 }, (_, k) => {
  const random = randomOf(3, k)
  const text = anyFormula(random, 1 + (k % 4))
  return { text, scope: Object.fromEntries(SYMBOLS.map((symbol) => [symbol, 0.2 + 3 * random()])) }
})

describe('random formulas', () => {
  test('have the value that mathjs gives them', () => {
    let real = 0
    const wrong: string[] = []
    for (const { text, scope } of cases) {
      const expected = expectedOf(text, scope)
      const found = evaluateOf(text, scope)
      if (!agrees(found, expected)) wrong.push(`${text}: ${found}, expected ${String(expected)}`)
      if (Number.isFinite(found)) real++
    }
    expect(wrong).toEqual([])
    // most of them must be numbers, or the comparison would say little
    expect(real).toBeGreaterThan(0.7 * cases.length)
  })

  test('keep their value when they are printed and read again', () => {
    const superscripts = '⁰¹²³⁴⁵⁶⁷⁸⁹'
    let checked = 0
    const wrong: string[] = []
    for (const { text, scope } of cases) {
      const again = printFormula(parseFormula(text).tree)
        .replaceAll('−', '-')
        .replaceAll('·', '*')
        .replaceAll('√(', 'sqrt(')
        .replace(/[⁰¹²³⁴-⁹]/gu, (digit) => `^${superscripts.indexOf(digit)}`)
      // absolute values and parallel branches have no unique way back to text
      if (/[|∥]/u.test(again)) continue
      checked++
      // mathjs reads -x² as the trade does, so it reads the print as a person would
      const [found, expected] = [expectedOf(again, scope), evaluateOf(text, scope)]
      if (!agrees(expected, found)) wrong.push(`${text} -> ${again}: ${String(found)}, expected ${expected}`)
    }
    expect(wrong).toEqual([])
    expect(checked).toBeGreaterThan(1000)
  })
})
