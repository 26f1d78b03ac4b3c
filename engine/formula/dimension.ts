import { DIMENSIONLESS, divide, multiply, power, sameDimension, unitOf, type Dimension } from '../units/index.ts'
import { printFormula } from './print.ts'
import type { Formula, Tree } from './tree.ts'

/**
 * Dimension of a formula's value. Throws where quantities of different dimension are added or compared, where ln, exp or an exponent is
 * not a plain number, and where a dimensioned quantity would be raised to a power that is not whole. A literal 0 agrees with
 * every dimension, so that `max(0, I)` passes.
 */
export function dimensionOfFormula(formula: Formula, dimensionOfSymbol: (symbol: string) => Dimension): Dimension {
  const walk = (tree: Tree): Dimension => {
    switch (tree.is) {
      case 'number':
        return DIMENSIONLESS
      case 'symbol':
        return dimensionOfSymbol(tree.name)
      case 'negate':
        return walk(tree.of)
      case 'op':
        if (tree.op === '*') return multiply(walk(tree.left), walk(tree.right))
        if (tree.op === '/') return divide(walk(tree.left), walk(tree.right))
        return tree.op === '^' ? raised(tree) : alike([tree.left, tree.right], tree.op === '+' ? 'adds' : 'subtracts')
      default:
        if (tree.name === 'sqrt') return whole(power(walk(tree.args[0] as Tree), 0.5), tree)
        if (tree.name === 'ln' || tree.name === 'exp') return plain(tree.args[0] as Tree, `${tree.name} of`)
        return alike(tree.args, `passes to ${tree.name}`)
    }
  }

  const alike = (terms: readonly Tree[], does: string): Dimension => {
    let agreed: { tree: Tree; dimension: Dimension } | undefined
    for (const tree of terms) {
      if (isZero(tree)) continue
      const dimension = walk(tree)
      if (agreed !== undefined && !sameDimension(agreed.dimension, dimension)) {
        throw mismatch(`${does} ${describe(agreed.tree, agreed.dimension)} and ${describe(tree, dimension)}`)
      }
      agreed ??= { tree, dimension }
    }
    return agreed?.dimension ?? DIMENSIONLESS
  }

  const plain = (tree: Tree, does: string): Dimension => {
    const dimension = walk(tree)
    if (sameDimension(dimension, DIMENSIONLESS)) return DIMENSIONLESS
    throw mismatch(`takes ${does} ${describe(tree, dimension)}, which must be a plain number`)
  }

  const raised = (tree: Tree & { is: 'op' }): Dimension => {
    plain(tree.right, 'the power')
    const base = walk(tree.left)
    if (sameDimension(base, DIMENSIONLESS)) return DIMENSIONLESS
    const exponent = constantValue(tree.right)
    if (exponent === undefined) {
      throw mismatch(`raises ${describe(tree.left, base)} to ${printFormula(tree.right)}, which must be a fixed number`)
    }
    return whole(power(base, exponent), tree)
  }

  const whole = (dimension: Dimension, tree: Tree): Dimension => {
    if (dimension.every(Number.isInteger)) return dimension
    throw mismatch(
      `takes a power that is not whole of a quantity with a unit: ${printFormula(tree)} would be in ${unitOf(dimension)}`,
    )
  }

  const mismatch = (why: string) => new Error(`engine/formula: "${formula.text}" ${why}.`)
  return walk(formula.tree)
}

function describe(tree: Tree, dimension: Dimension): string {
  const unit = unitOf(dimension)
  return `${printFormula(tree)} (${unit === '1' ? 'no unit' : unit})`
}

function isZero(tree: Tree): boolean {
  return tree.is === 'negate' ? isZero(tree.of) : tree.is === 'number' && tree.value === 0
}

/** Value of an exponent written in numbers alone, such as 2, -1 or 1/2. */
function constantValue(tree: Tree): number | undefined {
  if (tree.is === 'number') return tree.value
  if (tree.is === 'negate') {
    const of = constantValue(tree.of)
    return of === undefined ? undefined : -of
  }
  if (tree.is !== 'op' || tree.op !== '/') return undefined
  const above = constantValue(tree.left)
  const below = constantValue(tree.right)
  return above === undefined || below === undefined ? undefined : above / below
}
