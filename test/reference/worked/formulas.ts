/** The topologies' own formula texts, evaluated one at a time with whatever numbers a check wants to put in. */
import { compileFormula, parseFormula } from '../../../engine/formula/index.ts'
import { TOPOLOGIES, type TopologyName } from '../../../engine/topologies/index.ts'

/** One distinct formula: the same symbol may have another formula in another variant. */
export interface FormulaOfTopology {
  readonly topology: TopologyName
  readonly variant: string
  readonly symbol: string
  readonly text: string
  readonly unit: string
}

/** Every formula step of every variant. */
export const FORMULAS: readonly FormulaOfTopology[] = TOPOLOGIES.flatMap((topology) =>
  topology.variants.flatMap((variant) =>
    variant.working.steps.flatMap((step) =>
      'from' in step
        ? [{ topology: topology.name, variant: variant.name, symbol: step.is, text: step.from, unit: step.unit }]
        : [],
    ),
  ),
)

/** The formula texts, without repetition, that give `symbol` in `topology`. */
export function textsOf(topology: TopologyName, symbol: string): string[] {
  return [...new Set(FORMULAS.filter((f) => f.topology === topology && f.symbol === symbol).map((f) => f.text))]
}

/** The value of a formula text; a symbol that is not among `symbols` throws. */
export function valueOf(text: string, symbols: Readonly<Record<string, number>>): number {
  const names = Object.keys(symbols)
  const evaluate = compileFormula(parseFormula(text), (symbol) => {
    const slot = names.indexOf(symbol)
    if (slot < 0) throw new Error(`${text} needs ${symbol}`)
    return slot
  })
  return evaluate(Float64Array.from(names, (name) => symbols[name]!))
}

/**
 * What the topology makes of `symbol`. Where its variants have different formulas for it, the one of `variant` is meant, or
 * else the first, the simplest variant's.
 */
export function worksOut(
  topology: TopologyName,
  symbol: string,
  symbols: Readonly<Record<string, number>>,
  variant?: string,
): number {
  const found = FORMULAS.find(
    (f) => f.topology === topology && f.symbol === symbol && (variant === undefined || f.variant === variant),
  )
  if (found === undefined) throw new Error(`${topology} has no formula for ${symbol}`)
  return valueOf(found.text, symbols)
}
