/** What a figure is: a descriptor that the page labels it by, and how it is read off a proof. One file a figure, one line in `index.ts`. */
import type { Proof } from '../analyses/prove.ts'
import type { Assumptions } from '../requirements/study.ts'
import { SETTLED } from '../solve/index.ts'

/** What the engine says about a figure, so that no screen retypes a label. */
export interface FigureDescriptor {
  readonly name: string
  readonly label: string
  readonly unit: string
  /** Which way is better, for ranking and for marking the best of three. */
  readonly better: 'less' | 'more'
  /** What it is, in a sentence or two. */
  readonly help: string
  /** Why anybody should care, in a sentence. */
  readonly matters: string
  /** Values below this are as good as this one: finer than anybody can use. Absent where every bit counts. */
  readonly resolution?: number
  /** Significant figures that mean something, where three would be too many. */
  readonly digits?: number
  /** Why a design that has a circuit may be without it, in a few words; absent: it does not apply. */
  readonly absent?: string
}

export interface FigureDefinition<Value = unknown> extends FigureDescriptor {
  /** The figure as the comparison prints it; undefined where it does not apply. */
  readonly compute: (proof: Proof, assumptions: Assumptions) => Value | undefined
  /** The one number that is ranked and compared. */
  readonly headline: (value: Value) => number
  /** That number alone, where it costs less than the whole figure; undefined where the figure does not apply. */
  readonly headlineOf?: (proof: Proof, assumptions: Assumptions) => number | undefined
}

export const defineFigure = <Value>(definition: FigureDefinition<Value>): FigureDefinition<Value> => definition

/** An observation of the nominal board, settled. Undefined where it has no solution. */
export function nominalAt(
  proof: Proof,
  condition: number,
): { output: number; heat: number; inputCurrent: number; efficiency: number } | undefined {
  const board = new Int8Array(proof.design.tolerances.length)
  const seen = proof.observer.observe(board, condition, SETTLED)
  return seen.outcome === 0 ? seen : undefined
}
