import jsep from 'jsep'
import { ARGUMENTS, type Formula, type FunctionName, type Operator, type Tree } from './tree.ts'

const LONGEST = 1000
const ALLOWED = /^[\p{L}\p{N}_.+\-*/^(), ]*$/u

/**
 * Parses a formula such as `(Vin_min - Vz_hi) / (Iz_min + Iout_max)`: numbers, symbols, + - * / ^, unary minus, parentheses and the
 * functions min, max, sqrt, abs, ln, exp and par (parallel resistance). `a^b^c` is a^(b^c). A minus sign directly before a power is refused:
 * the parser reads `-x^2` as (-x)^2, the trade as -(x^2). Formulas are part of the source, so anything else throws.
 */
export function parseFormula(text: string): Formula {
  if (text.length > LONGEST) fail(text, `is longer than ${LONGEST} characters`)
  if (!ALLOWED.test(text) || text.includes('**')) {
    fail(text, 'may hold numbers, symbols, + - * / ^, commas and parentheses only')
  }
  const symbols = new Set<string>()
  const separators = { used: 0 }
  const tree = readTree(parseExpression(text), text, symbols, separators)
  // The parser skips stray commas (`,a`), so every comma must be accounted for by the arguments of a call.
  if (separators.used !== text.split(',').length - 1) fail(text, 'has a comma outside of a function')
  return { text, tree, symbols: [...symbols] }
}

/**
 * The parser's operators are one table for the whole program, in which ^ is a weak logical operator and ** the power. Writing ** for ^
 * gives the right precedence and leaves that table alone.
 */
function parseExpression(text: string): jsep.CoreExpression {
  try {
    return jsep(text.replaceAll('^', '**')) as jsep.CoreExpression
  } catch (error) {
    return fail(text, `cannot be read: ${error instanceof Error ? error.message : String(error)}`)
  }
}

const OPERATORS: ReadonlyMap<string, Operator> = new Map<string, Operator>([
  ['+', '+'],
  ['-', '-'],
  ['*', '*'],
  ['/', '/'],
  ['**', '^'],
])

function readTree(expression: jsep.Expression, text: string, symbols: Set<string>, separators: { used: number }): Tree {
  const node = expression as jsep.CoreExpression
  const read = (child: jsep.Expression) => readTree(child, text, symbols, separators)
  switch (node.type) {
    case 'Literal':
      if (typeof node.value !== 'number' || !Number.isFinite(node.value))
        return fail(text, `has ${node.raw}, not a finite number`)
      return { is: 'number', value: node.value }
    case 'Identifier':
      if (ARGUMENTS.has(node.name)) return fail(text, `uses the function ${node.name} as a symbol`)
      symbols.add(node.name)
      return { is: 'symbol', name: node.name }
    case 'UnaryExpression':
      if (node.operator !== '-') return fail(text, `has the sign ${node.operator}, which is not read`)
      return { is: 'negate', of: read(node.argument) }
    case 'BinaryExpression': {
      const op = OPERATORS.get(node.operator)
      if (op === undefined) return fail(text, `has the operator ${node.operator}, which is not read`)
      if (op === '^' && node.left.type === 'UnaryExpression') {
        return fail(text, 'has a minus sign before a power; write 0 - x^2 or -(x^2), or (0 - x)^2')
      }
      return { is: 'op', op, left: read(node.left), right: read(node.right) }
    }
    case 'CallExpression': {
      const callee = node.callee as jsep.CoreExpression
      const name = callee.type === 'Identifier' ? callee.name : ''
      const range = ARGUMENTS.get(name)
      if (range === undefined) return fail(text, `calls ${name || 'an expression'}, which is no function here`)
      const [fewest, most] = range
      const count = node.arguments.length
      if (count < fewest || count > most) return fail(text, `gives ${name} ${count} arguments`)
      separators.used += count - 1
      return { is: 'call', name: name as FunctionName, args: node.arguments.map(read) }
    }
    case 'Compound':
      return fail(text, node.body.length === 0 ? 'is empty' : 'has two expressions without an operator between them')
    default:
      return fail(text, `has a ${node.type}, which is not read`)
  }
}

function fail(text: string, why: string): never {
  const shown = text.length > 80 ? `${text.slice(0, 80)}…` : text
  throw new Error(`engine/formula: "${shown}" ${why}.`)
}
