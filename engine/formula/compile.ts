import type { Formula, Tree } from './tree.ts'

/** Reads its symbols from their slots in `values` and returns the result; NaN and infinities come out as they arise. */
export type Evaluate = (values: Float64Array) => number

/**
 * Turns a formula into closures; no code is generated, which a content security policy would block. `slotOf` gives the index of
 * each symbol in the array of values and is asked once a symbol.
 */
export function compileFormula(formula: Formula, slotOf: (symbol: string) => number): Evaluate {
  const slots = new Map<string, number>()
  for (const symbol of formula.symbols) {
    const slot = slotOf(symbol)
    if (!Number.isInteger(slot) || slot < 0)
      throw new Error(`engine/formula: "${formula.text}" has no slot for ${symbol}.`)
    slots.set(symbol, slot)
  }
  return compile(formula.tree, slots)
}

function compile(tree: Tree, slots: ReadonlyMap<string, number>): Evaluate {
  switch (tree.is) {
    case 'number': {
      const { value } = tree
      return () => value
    }
    case 'symbol': {
      const slot = slots.get(tree.name)
      if (slot === undefined) throw new Error(`engine/formula: the symbol ${tree.name} is not in the list of symbols.`)
      return (values) => values[slot] as number
    }
    case 'negate': {
      const of = compile(tree.of, slots)
      return (values) => -of(values)
    }
    case 'op':
      return compileOperator(tree.op, compile(tree.left, slots), compile(tree.right, slots))
    default:
      return compileCall(
        tree.name,
        tree.args.map((arg) => compile(arg, slots)),
      )
  }
}

function compileOperator(op: (Tree & { is: 'op' })['op'], left: Evaluate, right: Evaluate): Evaluate {
  switch (op) {
    case '+':
      return (values) => left(values) + right(values)
    case '-':
      return (values) => left(values) - right(values)
    case '*':
      return (values) => left(values) * right(values)
    case '/':
      return (values) => left(values) / right(values)
    case '^':
    default:
      return (values) => left(values) ** right(values)
  }
}

function compileCall(name: (Tree & { is: 'call' })['name'], args: readonly Evaluate[]): Evaluate {
  const [first, ...rest] = args
  if (first === undefined) throw new Error(`engine/formula: ${name} has no arguments.`)
  const fold = (combine: (a: number, b: number) => number) =>
    rest.reduce<Evaluate>((sofar, next) => (values) => combine(sofar(values), next(values)), first)
  switch (name) {
    case 'min':
      return fold(Math.min)
    case 'max':
      return fold(Math.max)
    // by conductances, so that a short (0) gives 0 and an open branch (infinite) leaves the other
    case 'par':
      return fold((a, b) => 1 / (1 / a + 1 / b))
    case 'sqrt':
      return (values) => Math.sqrt(first(values))
    case 'abs':
      return (values) => Math.abs(first(values))
    case 'ln':
      return (values) => Math.log(first(values))
    case 'exp':
    default:
      return (values) => Math.exp(first(values))
  }
}
