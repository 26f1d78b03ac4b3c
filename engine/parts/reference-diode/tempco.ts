/** Temperature coefficients of the lines whose sheet leaves them blank or prints one limit alone. */
import type { DiodeBlock, PublishedDiode } from './published.ts'
import type { Tempco } from './row.ts'

/** The sisters that publish both limits: the first covers 3.3 to 75 V, the second the ends. */
const SISTERS = ['1N47xxA', 'BZX55C'] as const

interface Limits {
  readonly min: number
  readonly max: number
  readonly from: string
}

/** Both limits of a sister family at a nominal voltage, interpolated between its values; beyond its last value that one holds. */
export function sisterLimits(blocks: readonly DiodeBlock[], vz: number): Limits {
  for (const family of SISTERS) {
    const known = blocks
      .filter((block) => block.family === family)
      .flatMap((block) => block.rows)
      .filter((row) => row[11] !== null && row[13] !== null)
    const above = known.find((row) => row[1] >= vz)
    const below = known.findLast((row) => row[1] <= vz)
    const last = family === SISTERS[1]
    const a = below ?? (last ? above : undefined)
    const b = above ?? (last ? below : undefined)
    if (a === undefined || b === undefined) continue
    const share = b[1] === a[1] ? 0 : (vz - a[1]) / (b[1] - a[1])
    const blend = (column: 11 | 13): number => (a[column] ?? 0) + share * ((b[column] ?? 0) - (a[column] ?? 0))
    return { min: blend(11), max: blend(13), from: family }
  }
  throw new Error('parts/reference-diode: no family publishes both tempco limits')
}

/**
 * The tempco of one published line. Both limits printed: they stand, the middle is typical. A typical value alone: the
 * sister's spread around it. One limit alone: the sister gives the other. Nothing: the sister's limits. `note` says what was
 * filled in and is empty where nothing was.
 */
export function tempcoOf(row: PublishedDiode, blocks: readonly DiodeBlock[]): { tempco: Tempco; note: string } {
  const [vz, min, typ, max] = [row[1], row[11], row[12], row[13]]
  if (min !== null && max !== null) return { tempco: { min, typ: typ ?? (min + max) / 2, max }, note: '' }
  const sister = sisterLimits(blocks, vz)
  if (typ !== null) {
    const half = (sister.max - sister.min) / 2
    return {
      tempco: { min: typ - half, typ, max: typ + half },
      note: `only a typical tempco is published: the spread of the ${sister.from} at this voltage was put around it (assumption)`,
    }
  }
  const low = min ?? sister.min
  const high = max ?? sister.max
  return {
    tempco: { min: low, typ: (low + high) / 2, max: high },
    note:
      min === null && max === null
        ? `tempco not published: taken from the ${sister.from} at this voltage (assumption)`
        : `only one tempco limit is published: the other is of the ${sister.from} at this voltage (assumption)`,
  }
}
