import type { Operator, Tree } from './tree.ts'

const MINUS = '\u2212'
const SIGNS: Readonly<Record<Operator, string>> = { '+': '+', '-': MINUS, '*': '·', '/': '/', '^': '^' }
const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹'
const PRECEDENCE: Readonly<Record<Operator, number>> = { '+': 1, '-': 1, '*': 2, '/': 2, '^': 3 }
const ATOM = 4

/** The formula as plain text with · for times, − for minus and ∥ for parallel; subscripts stay as `Vin_min`. Brackets only where they are needed. */
export function printFormula(tree: Tree): string {
  return print(tree, (name) => name, false)
}

/**
 * The formula with its numbers put in: `numberOf` gives the text for a symbol, unit included. `(8.50 V − 5.23 V) / (5.00 mA + 60.0 mA)`.
 * Negative values and values with units are bracketed where they would be misread.
 */
export function printSubstituted(tree: Tree, numberOf: (symbol: string) => string): string {
  return print(tree, numberOf, false)
}

/** `inner`: the text follows an operator, so a leading minus sign needs brackets. */
function print(tree: Tree, textOf: (symbol: string) => string, inner: boolean): string {
  switch (tree.is) {
    case 'number':
      return bracketedIf(inner && tree.value < 0, numberText(tree.value))
    case 'symbol': {
      const text = textOf(tree.name)
      return bracketedIf(inner && isNegative(text), text)
    }
    case 'negate': {
      const of = print(tree.of, textOf, true)
      return bracketedIf(inner, MINUS + bracketedIf(precedenceOf(tree.of) < 2, of))
    }
    case 'op':
      return tree.op === '^' ? printPower(tree, textOf) : printOperator(tree, textOf, inner)
    default:
      return printCall(tree, textOf)
  }
}

function printOperator(tree: Tree & { is: 'op' }, textOf: (symbol: string) => string, inner: boolean): string {
  const own = PRECEDENCE[tree.op]
  const leftBracketed = precedenceOf(tree.left) < own
  const left = bracketedIf(leftBracketed, print(tree.left, textOf, inner && !leftBracketed))
  const rightBracketed = precedenceOf(tree.right) <= own
  const right = bracketedIf(rightBracketed, print(tree.right, textOf, !rightBracketed))
  return `${left} ${SIGNS[tree.op]} ${right}`
}

function printPower(tree: Tree & { is: 'op' }, textOf: (symbol: string) => string): string {
  const base = print(tree.left, textOf, false)
  // A value with its unit, a sign or an operator would leave the power on its last piece alone.
  const shown = bracketedIf(precedenceOf(tree.left) < ATOM || /[\s\u2212-]/u.test(base), base)
  const { right } = tree
  if (right.is === 'number' && Number.isInteger(right.value) && right.value >= 0 && right.value < 10) {
    return shown + SUPERSCRIPTS.charAt(right.value)
  }
  const exponent = print(right, textOf, false)
  return `${shown}^${bracketedIf(precedenceOf(right) < ATOM || /[\s\u2212-]/u.test(exponent), exponent)}`
}

function printCall(tree: Tree & { is: 'call' }, textOf: (symbol: string) => string): string {
  if (tree.name === 'par') {
    const branches = tree.args.map((arg) =>
      bracketedIf(precedenceOf(arg) < 3, print(arg, textOf, precedenceOf(arg) >= 3)),
    )
    return `(${branches.join(' ∥ ')})`
  }
  const args = tree.args.map((arg) => print(arg, textOf, false)).join(', ')
  if (tree.name === 'sqrt') return `√(${args})`
  return tree.name === 'abs' ? `|${args}|` : `${tree.name}(${args})`
}

function precedenceOf(tree: Tree): number {
  if (tree.is === 'op') return PRECEDENCE[tree.op]
  return tree.is === 'negate' ? 2 : ATOM
}

function numberText(value: number): string {
  return String(value).replace('-', MINUS)
}

function isNegative(text: string): boolean {
  return text.startsWith(MINUS) || text.startsWith('-')
}

function bracketedIf(bracketed: boolean, text: string): string {
  return bracketed ? `(${text})` : text
}
