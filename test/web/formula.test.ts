/**
 * Formulas as MathML. What is set is read back as a reader would (bars and brackets first, then powers, products, sums) and
 * reckoned with the numbers of the working: it must come to what the engine computed.
 */
import { describe, expect, it } from 'vitest'
import type { Tree } from '../../engine/compare/comparison.ts'
import { parseFormula } from '../../engine/formula/index.ts'
import { EXAMPLES } from '../../web/examples/index.ts'
import { formulaMath, mathOf, numberLeaf, symbolMath } from '../../web/formula/mathml.ts'
import { symbolParts } from '../../web/formula/symbol.ts'
import { markupText } from '../../web/look/markup.ts'
import { solvedAnswer } from '../fixtures/answers/solved.ts'

type Values = (symbol: string) => number

const childrenOf = (element: Element): Element[] => [...element.children]

/** The value of one element: a number, a symbol, a fraction, a power, a root, or a row. */
function reckon(element: Element, values: Values): number {
  const symbol = element.getAttribute('data-symbol')
  if (symbol !== null) return values(symbol)
  const [first, second] = childrenOf(element)
  switch (element.tagName.toLowerCase()) {
    case 'mn':
      return Number(element.textContent.replace('\u2212', '-'))
    case 'mfrac':
      return reckon(first!, values) / reckon(second!, values)
    case 'msup':
      return reckon(first!, values) ** reckon(second!, values)
    case 'msqrt':
      return Math.sqrt(reckon(first!, values))
    case 'mrow':
    case 'math':
      return sum(flat(childrenOf(element)), values)
    default:
      throw new Error(`cannot read ${element.outerHTML}`)
  }
}

/** Rows within a row say nothing: what counts is what is seen. */
const flat = (elements: readonly Element[]): Element[] =>
  elements.flatMap((element) => (element.tagName.toLowerCase() === 'mrow' ? flat(childrenOf(element)) : [element]))

const isSign = (element: Element | undefined, sign: string): boolean =>
  element?.tagName.toLowerCase() === 'mo' && element.textContent === sign

function sum(tokens: readonly Element[], values: Values): number {
  let at = 0
  const list = (): number[] => {
    const args = [total()]
    while (isSign(tokens[at], ',')) {
      at++
      args.push(total())
    }
    return args
  }
  const closed = <T>(read: () => T): T => {
    at++
    const inside = read()
    if (!isSign(tokens[at], ')')) throw new Error('a bracket stays open')
    at++
    return inside
  }
  const atom = (): number => {
    const token = tokens[at]
    if (token === undefined) throw new Error('something is missing')
    if (isSign(token, '(')) return closed(parallel)
    if (token.tagName.toLowerCase() === 'mi' && !token.hasAttribute('data-symbol')) {
      at++
      const args = closed(list)
      const call = token.textContent
      if (call === 'min') return Math.min(...args)
      if (call === 'max') return Math.max(...args)
      if (call === 'ln') return Math.log(args[0]!)
      if (call === 'exp') return Math.exp(args[0]!)
      throw new Error(`cannot read ${call}`)
    }
    at++
    return reckon(token, values)
  }
  const product = (): number => {
    let value = atom()
    while (isSign(tokens[at], '·')) {
      at++
      value *= atom()
    }
    return value
  }
  const total = (): number => {
    const isNegative = isSign(tokens[at], '\u2212')
    if (isNegative) at++
    let value = isNegative ? -product() : product()
    while (isSign(tokens[at], '+') || isSign(tokens[at], '\u2212')) {
      const sign = isSign(tokens[at], '+') ? 1 : -1
      at++
      value += sign * product()
    }
    return value
  }
  const parallel = (): number => {
    let admittance = 0
    let branches = 0
    let only = 0
    for (;;) {
      only = total()
      branches++
      admittance += 1 / only
      if (!isSign(tokens[at], '∥')) break
      at++
    }
    return branches === 1 ? only : 1 / admittance
  }
  const value = total()
  if (at !== tokens.length) throw new Error('something is left over')
  return value
}

const elementOf = (tree: Tree): Element =>
  new DOMParser().parseFromString(markupText(mathOf(formulaMath(tree), '')), 'text/html').body.firstElementChild!

const trees = EXAMPLES.flatMap(({ study }) => {
  const answer = solvedAnswer(study)
  return answer.comparison.designs.flatMap(({ topology, derivation }, k) =>
    derivation.flatMap((line, n) => {
      const tree = answer.formulas[k]![n]
      return tree ? [{ title: `${study.title}, ${topology}, ${line.symbol}`, tree, line, derivation }] : []
    }),
  )
})

describe('every formula of the workings', () => {
  it('are many, so that this tests something', () => expect(trees.length).toBeGreaterThan(100))

  it.each(trees)('$title reads as what the engine computed', ({ tree, line, derivation }) => {
    const values: Values = (symbol) => derivation.find((other) => other.symbol === symbol)!.value
    // relative: sums in another order
    expect(reckon(elementOf(tree), values) / line.value).toBeCloseTo(1, 12)
  })
})

describe('brackets', () => {
  const numbers: Readonly<Record<string, number>> = { a: 3, b: 5, c: 7, d: -2 }
  it.each([
    ['a - (b - c)', 3 - (5 - 7)],
    ['a - (b + c)', 3 - (5 + 7)],
    ['(a + b) * c', (3 + 5) * 7],
    ['a * (b - c)', 3 * (5 - 7)],
    ['(a / b)^2', (3 / 5) ** 2],
    ['(a * b)^2', (3 * 5) ** 2],
    ['a / b / c', 3 / 5 / 7],
    ['a / (b / c)', 3 / (5 / 7)],
    ['a * (b / c)', 3 * (5 / 7)],
    ['-(a + b) * c', -(3 + 5) * 7],
    ['a - -b', 3 + 5],
    ['par(a, b + c, c) + b', 1 / (1 / 3 + 1 / 12 + 1 / 7) + 5],
    ['max(a - b, c) * 2', 14],
    ['sqrt(a + b) * ln(c)', Math.sqrt(8) * Math.log(7)],
    ['exp(0 - a / b)', Math.exp(-3 / 5)],
    ['2^a^2', 512],
  ])('%s keeps its meaning', (text, expected) => {
    expect(reckon(elementOf(parseFormula(text).tree), (symbol) => numbers[symbol]!)).toBeCloseTo(expected, 12)
  })

  it('stand around numbers that would be misread: with a unit under a power, negative behind a sign', () => {
    const set = (text: string) =>
      new DOMParser().parseFromString(
        markupText(
          mathOf(
            formulaMath(
              parseFormula(text).tree,
              numberLeaf((symbol) => `${numbers[symbol]} V`.replace('-', '\u2212')),
            ),
            '',
          ),
        ),
        'text/html',
      ).body.textContent
    expect(set('a^2')).toBe('(3 V)2')
    expect(set('a - d')).toBe('3 V\u2212(\u22122 V)')
    expect(set('d + a')).toBe('\u22122 V+3 V')
  })
})

describe('symbols', () => {
  it.each([
    ['Vin_min', 'V', 'in,min'],
    ['IB_max', 'I', 'B,max'],
    ['C_out_min', 'C', 'out,min'],
    ['R1', 'R', '1'],
    ['beta_min', 'β', 'min'],
    ['theta', 'θ', ''],
    ['efficiency', 'η', ''],
    ['tol_R', 'tol', 'R'],
    ['fold', 'fold', ''],
    ['rz', 'r', 'z'],
  ])('%s is %s with %s', (symbol, base, subscript) => expect(symbolParts(symbol)).toMatchObject({ base, subscript }))

  it('of every working are told apart in print', () => {
    for (const { derivation } of trees) {
      const printed = derivation.map(({ symbol }) => {
        const { base, subscript } = symbolParts(symbol)
        return `${base} ${subscript}`
      })
      expect(new Set(printed).size).toBe(printed.length)
    }
  })

  it('cannot break out of the markup', () => {
    expect(markupText(symbolMath('V_<b>&"'))).not.toMatch(/<b>|"">/u)
  })
})
