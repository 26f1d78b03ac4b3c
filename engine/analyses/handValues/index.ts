/** What the solved circuit has in the place of a value worked out by hand, and why the two differ. */
import type { Condition } from '../point.ts'
import type { ThermalMode } from '../point.ts'
import type { Proof } from '../prove.ts'
import { caseOf } from './case.ts'
import { READINGS } from './readings.ts'

export interface HandValue {
  /** Of the line of the working. */
  symbol: string
  solved: number
  /** Where it was read: of nominal parts, or of the corner that makes it worst. */
  condition: Condition
  thermal: ThermalMode
  isWorst: boolean
  /** A sentence or two. */
  because: string
}

/** In the order of the working; lines that no solved value answers to are left out. */
export function* handValuesOf(proof: Proof): Generator<void, HandValue[]> {
  const one = caseOf(proof)
  const values: HandValue[] = []
  for (const { symbol } of one.lines) {
    const found = READINGS[symbol]?.(one)
    if (found && Number.isFinite(found.solved)) values.push({ symbol, ...found })
    yield
  }
  return values
}
