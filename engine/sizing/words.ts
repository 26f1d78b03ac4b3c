/** The sentences that name a shortfall: what, how much, at which corner, against which limit, and what would help. */
import type { ObservedCondition } from '../analyses/observation.ts'
import { SHORT_LOAD } from '../analyses/conditions.ts'
import type { OutcomeName } from '../solve/index.ts'
import { formatQuantity } from '../units/index.ts'

/** `at 14.6 V in, no load and 50 °C`. */
export function whereabouts({ input, load, ambient }: ObservedCondition): string {
  const drawn = load === SHORT_LOAD ? 'a shorted output' : load === 0 ? 'no load' : formatQuantity(load, 'A')
  return `at ${formatQuantity(input, 'V')} in, ${drawn} and ${formatQuantity(ambient, '°C')}`
}

/** What to do about each rating that is passed. */
export const REMEDIES: Readonly<Record<string, string>> = {
  power: 'Narrow the input range, lower the load or the ambient, or choose a topology that wastes less in this part.',
  junction: 'Lower the heat, the ambient, or choose a topology that wastes less in this part.',
  current: 'Lower the load or narrow the input range.',
  voltage: 'Lower the highest input.',
  safeArea: 'Lower the highest input or the load.',
  minimumCurrent: 'Raise the lowest input.',
  supply: 'Lower the highest input.',
  commonMode: 'Raise the lowest input.',
}

export const QUANTITY_WORDS: Readonly<Record<string, string>> = {
  power: 'takes',
  junction: 'reaches a junction temperature of',
  current: 'carries',
  voltage: 'bears',
  safeArea: 'carries, inside its safe operating area,',
  minimumCurrent: 'is left with',
  supply: 'is supplied with',
  commonMode: 'has input headroom of',
}

/** Why a point has no solution. */
export const OUTCOME_WORDS: Readonly<Record<Exclude<OutcomeName, 'converged'>, string>> = {
  iterationLimit: 'the search did not come to rest',
  singular: 'some node is tied to nothing',
  nonFinite: 'a current grew beyond all numbers',
  continuationStalled: 'it could not be reached step by step either',
  thermalRunaway: 'no temperature settles',
}
