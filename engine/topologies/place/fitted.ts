/** A bought part set into a design: what it is, what the solver sees of it, what may stray, what it must not exceed. */
import type { Element } from '../../devices/elements.ts'
import type { Sourced, Tolerance } from '../../parts/define.ts'
import { type DeratingPolicy, type JunctionKind, allowedJunction } from '../../parts/derating/index.ts'
import type { DesignPart, Limit, Refusal } from '../define.ts'

export interface Fitted {
  readonly part: DesignPart
  readonly elements: readonly Element[]
  readonly tolerances: readonly Tolerance[]
}

/** The part list's columns on where a row's numbers come from. */
export function provenance(row: Sourced): Pick<DesignPart, 'source' | 'confidence' | 'note'> {
  const memory = row.memoryFields.length > 0 ? `from memory: ${row.memoryFields.join(', ')}` : ''
  const note = [row.note, memory].filter(Boolean).join('; ')
  return { source: row.source, confidence: row.confidence, ...(note ? { note } : {}) }
}

/** The junction stays below its maximum, in °C; by how much in service is the policy's to say. */
export function junctionLimit(kind: JunctionKind, junctionMax: number, policy: DeratingPolicy): Limit {
  return {
    quantity: 'junction',
    unit: '°C',
    measure: { of: 'junction' },
    rating: junctionMax,
    derated: (ambient) => allowedJunction(junctionMax, policy, kind, ambient),
    inFault: () => junctionMax,
    sense: 'max',
    factor: `${kind}Junction`,
  }
}

export const refuse = (
  requirement: string,
  required: number,
  achieved: number,
  unit: string,
  because: string,
): Refusal => ({ refused: true, requirement, required, achieved, unit, because })

/** The supply and the load, which every circuit has and nobody buys. */
export function supplyAndLoad(input: number, load: number): Element[] {
  return [
    { kind: 'voltage-source', id: 'input', nodes: ['in', '0'], part: 'input', value: input },
    { kind: 'current-source', id: 'load', nodes: ['out', '0'], part: 'load', value: load },
  ]
}
