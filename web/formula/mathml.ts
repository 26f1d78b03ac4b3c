/** A formula's tree as MathML: with its symbols, or with numbers in their place. */
import type { Tree } from '../../engine/compare/comparison.ts'
import { type Markup, markup } from '../look/markup.ts'
import { symbolParts } from './symbol.ts'

/** How a symbol is written: itself, or its number. */
export type Leaf = (symbol: string) => Markup

const ATOM = 4
const PRECEDENCE = { '+': 1, '-': 1, '*': 2, '/': 2, '^': 3 } as const
const SIGN = { '+': '+', '-': '\u2212', '*': '·' } as const

const text = (tag: string, content: string, attributes: Markup['attributes'] = {}): Markup =>
  markup(tag, attributes, [content])
const row = (...children: Markup[]): Markup => markup('mrow', {}, children)
const sign = (content: string): Markup => text('mo', content)
const bracketed = (inside: Markup): Markup =>
  row(text('mo', '(', { stretchy: 'true' }), inside, text('mo', ')', { stretchy: 'true' }))
const bracketedIf = (is: boolean, inside: Markup): Markup => (is ? bracketed(inside) : inside)

/** An italic letter with an upright subscript. The letter's slant comes from the face, not from other code points. */
export function symbolMath(symbol: string): Markup {
  const { base, isWord, subscript } = symbolParts(symbol)
  const letter = text('mi', base, { mathvariant: 'normal', class: isWord ? 'word' : 'letter' })
  const attributes = { 'data-symbol': symbol }
  if (subscript === '') return { ...letter, attributes: { ...letter.attributes, ...attributes } }
  return markup('msub', attributes, [letter, text('mtext', subscript)])
}

/** A number with its unit, as it is printed. */
export const numberMath = (printed: string): Markup => text('mn', printed)

export const symbolLeaf: Leaf = symbolMath
export const numberLeaf =
  (numberOf: (symbol: string) => string): Leaf =>
  (symbol) =>
    numberMath(numberOf(symbol))

/** A fraction's bar brackets what is above and below it. */
function precedenceOf(tree: Tree): number {
  if (tree.is === 'op') return PRECEDENCE[tree.op]
  return tree.is === 'negate' ? 2 : ATOM
}

const contentOf = ({ children }: Markup): string =>
  children.map((child) => (typeof child === 'string' ? child : contentOf(child))).join('')

/** A number with a sign or a unit would leave a power on its last piece alone, a negative one double a sign. */
const isCompound = (leaf: Markup): boolean => leaf.tag === 'mn' && /[\s\u2212-]/u.test(contentOf(leaf))
const isNegative = (leaf: Markup): boolean => leaf.tag === 'mn' && /^[\u2212-]/u.test(contentOf(leaf))

/** `isInner`: it follows an operator, so a leading minus sign needs brackets. */
function set(tree: Tree, leaf: Leaf, isInner = false): Markup {
  switch (tree.is) {
    case 'number': {
      const number = numberMath(String(tree.value).replace('-', '\u2212'))
      return bracketedIf(isInner && tree.value < 0, number)
    }
    case 'symbol': {
      const own = leaf(tree.name)
      return bracketedIf(isInner && isNegative(own), own)
    }
    case 'negate': {
      const inside = bracketedIf(precedenceOf(tree.of) < 2, set(tree.of, leaf, true))
      return bracketedIf(isInner, row(sign('\u2212'), inside))
    }
    case 'op':
      return setOperator(tree, leaf, isInner)
    default:
      return setCall(tree, leaf)
  }
}

function setOperator({ op, left, right }: Tree & { is: 'op' }, leaf: Leaf, isInner: boolean): Markup {
  if (op === '/') return markup('mfrac', {}, [set(left, leaf), set(right, leaf)])
  if (op === '^') {
    const base = set(left, leaf)
    const isWhole = precedenceOf(left) === ATOM && !isCompound(base)
    return markup('msup', {}, [bracketedIf(!isWhole, base), set(right, leaf)])
  }
  const own = PRECEDENCE[op]
  const isLeftBracketed = precedenceOf(left) < own
  // a sum that is taken away, a sum in a product
  const isRightBracketed = precedenceOf(right) < own || (precedenceOf(right) === own && op === '-')
  return row(
    bracketedIf(isLeftBracketed, set(left, leaf, isInner && !isLeftBracketed)),
    sign(SIGN[op]),
    bracketedIf(isRightBracketed, set(right, leaf, !isRightBracketed)),
  )
}

function setCall({ name, args }: Tree & { is: 'call' }, leaf: Leaf): Markup {
  if (name === 'sqrt') return markup('msqrt', {}, [set(args[0]!, leaf)])
  if (name === 'abs') return row(sign('|'), set(args[0]!, leaf), sign('|'))
  if (name === 'par')
    return bracketed(
      row(
        ...args.flatMap((arg, k) => [
          ...(k > 0 ? [sign('∥')] : []),
          bracketedIf(precedenceOf(arg) < 3, set(arg, leaf, precedenceOf(arg) >= 3)),
        ]),
      ),
    )
  const list = args.flatMap((arg, k) => [...(k > 0 ? [text('mo', ',', { separator: 'true' })] : []), set(arg, leaf)])
  return row(text('mi', name, { mathvariant: 'normal', class: 'word' }), bracketed(row(...list)))
}

const SPACE = 'http://www.w3.org/1998/Math/MathML'

/** In a line of text, fractions at full height. `spoken` is read where MathML is not. */
export const mathOf = (inside: Markup, spoken: string): Markup =>
  markup('math', { xmlns: SPACE, displaystyle: 'true', 'aria-label': spoken }, [inside])

export const formulaMath = (tree: Tree, leaf: Leaf = symbolLeaf): Markup => set(tree, leaf)
