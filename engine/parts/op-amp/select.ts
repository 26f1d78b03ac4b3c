/** Questions to the catalogue. */
import type { Mounting } from '../../requirements/study.ts'
import { type AmbientRange, mountsAs, worksOver } from '../define.ts'
import type { AmplifierRow } from './row.ts'
import { AMPLIFIERS } from './rows.ts'

export interface AmplifierQuery {
  /** Lowest and highest supply voltage, the highest already divided by the derating share. */
  readonly supplyMin: number
  readonly supplyMax: number
  /** Volts over the negative rail at which the inputs work, and the lowest supply at which they must. */
  readonly inputs: number
  readonly mounting: Mounting
  /** Ambient in degrees Celsius that the part must be specified for; left out, any part will do. */
  readonly ambient?: AmbientRange
}

/** The amplifiers that fit in the order of the catalogue: the commonest and cheapest first (common practice, no source). */
export function amplifiersFor(query: AmplifierQuery): AmplifierRow[] {
  const { supplyMin, supplyMax, inputs, mounting, ambient } = query
  return AMPLIFIERS.filter(
    (row) =>
      mountsAs(row, mounting) &&
      row.supply.min <= supplyMin &&
      row.supply.max >= supplyMax &&
      row.inputRange.low <= inputs &&
      supplyMin - row.inputRange.high >= inputs &&
      worksOver(row, ambient),
  )
}

/** The row of a part number, or undefined. */
export function findAmplifier(partNumber: string): AmplifierRow | undefined {
  return AMPLIFIERS.find((row) => row.partNumber === partNumber)
}
