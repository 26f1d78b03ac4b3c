/**
 * Sizing steps as data: each is one line of the working. A formula's text is parsed once and read four ways (value, unit
 * check, print, print with numbers), so what is calculated is what is shown.
 */
import {
  type Dimension,
  type Formula,
  type Tree,
  compileFormula,
  dimensionOfFormula,
  parseFormula,
  printFormula,
  printSubstituted,
} from '../formula/index.ts'
import { dimensionOf, formatQuantity, sameDimension } from '../units/index.ts'

/** A number that the working starts from: a requirement, or a figure of a chosen part. */
export interface Given {
  readonly is: string
  readonly unit: string
  readonly quantity: string
  readonly source: string
}

export interface FormulaStep {
  readonly is: string
  readonly unit: string
  readonly quantity: string
  readonly from: string
  /** Where the equation comes from. */
  readonly source: string
  readonly why?: string
}

/** How a step asks for values that can be bought; pinned values come back as they were pinned. */
export interface Chooser {
  /** Whether the user pinned the value of this part. */
  isPinned(id: string): boolean
  preferred(id: string, side: 'below' | 'above' | 'nearest', value: number): number
  /** The divider of these two parts whose ratio upper/lower comes closest to `ratio`, the lower one near `aim`. */
  divider(upperId: string, lowerId: string, ratio: number, aim: number): { upper: number; lower: number }
}

/** A choice that is not algebra: a preferred value, most often. `scope` reads any symbol worked out so far. */
export interface PickStep {
  readonly is: string
  readonly unit: string
  readonly quantity: string
  readonly pick: (scope: (symbol: string) => number, choose: Chooser) => number
  readonly source: string
  readonly why: string
  /** What the pick says in the place of a formula, e.g. `preferred value at or below Rs_max`. */
  readonly says: string
  /** The part that is bought with this value, where the pick asks for no preferred one. */
  readonly part?: string
}

export type Step = FormulaStep | PickStep

/** One line of the working, ready to print. */
export interface WorkedLine {
  quantity: string
  symbol: string
  formula: string
  substituted: string
  value: number
  unit: string
  source: string
  why?: string
  /** The part that is bought with this value. */
  part?: string
}

export interface Worked {
  /** Every symbol's value, givens included; asking for an unknown symbol is our own bug and throws. */
  readonly value: (symbol: string) => number
  /** The working, givens first. */
  readonly lines: () => WorkedLine[]
  /** By line, its formula; null for givens and picks. For setting it as mathematics. */
  readonly formulas: readonly (Tree | null)[]
}

export interface Working {
  readonly givens: readonly Given[]
  readonly steps: readonly Step[]
  run(givens: Readonly<Record<string, number>>, choose: Chooser): Worked
}

/** What is said of a choice that the user made. */
const AS_PINNED = { source: 'pinned in the study', why: 'Taken as it was pinned; the rest is sized around it.' }

const isFormula = (step: Step): step is FormulaStep => 'from' in step

/**
 * Checks a list of steps when the engine loads (every symbol defined before use, every unit right) and compiles it.
 * Throws, naming the topology and the step: a fault here is our own.
 */
export function defineWorking(name: string, givens: readonly Given[], steps: readonly Step[]): Working {
  const slots = new Map<string, number>()
  const dimensions: Dimension[] = []
  const declare = (symbol: string, unit: string): void => {
    if (slots.has(symbol)) throw new Error(`${name}: ${symbol} is defined twice`)
    slots.set(symbol, dimensions.length)
    dimensions.push(dimensionOf(unit))
  }
  const slotOf = (symbol: string): number => {
    const slot = slots.get(symbol)
    if (slot === undefined) throw new Error(`${name}: ${symbol} is used before it is defined`)
    return slot
  }
  for (const given of givens) declare(given.is, given.unit)
  const formulas: (Formula | undefined)[] = []
  const evaluate: (((values: Float64Array) => number) | undefined)[] = []
  for (const step of steps) {
    if (isFormula(step)) {
      const formula = parseFormula(step.from)
      const found = dimensionOfFormula(formula, (symbol) => dimensions[slotOf(symbol)]!)
      if (!sameDimension(found, dimensionOf(step.unit)))
        throw new Error(`${name}: ${step.is} = ${step.from} does not come out in ${step.unit}`)
      formulas.push(formula)
      evaluate.push(compileFormula(formula, slotOf))
    } else {
      formulas.push(undefined)
      evaluate.push(undefined)
    }
    declare(step.is, step.unit)
  }
  const unitOf = (symbol: string): string =>
    (givens.find((g) => g.is === symbol) ?? steps.find((s) => s.is === symbol))!.unit

  return {
    givens,
    steps,
    run(inputs, choose) {
      const values = new Float64Array(dimensions.length)
      const scope = (symbol: string): number => values[slotOf(symbol)]!
      const pinned = new Set<PickStep>()
      /** The part that is bought with each symbol's value. */
      const bought = new Map<string, string>()
      /** The same choices, noting what is bought with them and which came out as the user had pinned them. */
      const noting = (step: PickStep): Chooser => {
        const note = (id: string): void => {
          bought.set(step.is, id)
          if (choose.isPinned(id)) pinned.add(step)
        }
        if (step.part !== undefined) bought.set(step.is, step.part)
        return {
          ...choose,
          preferred(id, side, value) {
            note(id)
            return choose.preferred(id, side, value)
          },
          divider(upperId, lowerId, ratio, aim) {
            // the two resistors of a divider are the symbols of their steps
            note(step.is)
            return choose.divider(upperId, lowerId, ratio, aim)
          },
        }
      }
      for (const given of givens) {
        const value = inputs[given.is]
        if (value === undefined) throw new Error(`${name}: ${given.is} was not given`)
        values[slotOf(given.is)] = value
      }
      steps.forEach((step, k) => {
        values[givens.length + k] = isFormula(step) ? evaluate[k]!(values) : step.pick(scope, noting(step))
      })
      const numberOf = (symbol: string): string => formatQuantity(scope(symbol), unitOf(symbol))
      const line = (s: Given | Step, formula: string, substituted: string): WorkedLine => ({
        quantity: s.quantity,
        symbol: s.is,
        formula,
        substituted,
        value: scope(s.is),
        unit: s.unit,
        source: s.source,
        ...('why' in s && s.why !== undefined ? { why: s.why } : {}),
        ...(bought.has(s.is) ? { part: bought.get(s.is)! } : {}),
      })
      return {
        formulas: [...givens.map(() => null), ...formulas.map((formula) => formula?.tree ?? null)],
        value: scope,
        lines: () => [
          ...givens.map((g) => line(g, 'given', numberOf(g.is))),
          ...steps.map((s, k) =>
            isFormula(s)
              ? line(s, printFormula(formulas[k]!.tree), printSubstituted(formulas[k]!.tree, numberOf))
              : pinned.has(s)
                ? line({ ...s, ...AS_PINNED }, 'pinned', numberOf(s.is))
                : line(s, s.says, numberOf(s.is)),
          ),
        ],
      }
    },
  }
}
