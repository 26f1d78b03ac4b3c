/** Where the watts of one design go at one input voltage: read from its curves at full load. */
import type { DesignColumns } from '../../charts/columns.ts'
import { valueAt } from '../../charts/columns.ts'

export interface Strand {
  /** Part id, or e.g. `6 others`. */
  readonly label: string
  readonly watts: number
  /** Its place by size over the whole sweep: the same shade of ember as in the plots. */
  readonly shade: number
}

/** `input` = `load` + the sum over `strands`; `load` is the input power that no part turned into heat. All in watts. */
export interface Balance {
  readonly input: number
  readonly load: number
  /** Largest first. */
  readonly strands: readonly Strand[]
}

/** Watts at `volts` in; undefined where the circuit has no solution or was not swept. */
export function balanceAt(design: DesignColumns, volts: number): Balance | undefined {
  const { input, shares } = design
  const at = (column: string) => valueAt(input['x']!, input[column], volts)
  const strands = shares.map(({ label }, k) => ({ label, shade: k, watts: at(`part${k}`) }))
  const heat = strands.reduce((sum, { watts }) => sum + watts, 0)
  const delivered = Math.max(volts * at('inputCurrent') - heat, 0)
  if (!Number.isFinite(delivered + heat)) return undefined
  return { input: delivered + heat, load: delivered, strands: strands.toSorted((a, b) => b.watts - a.watts) }
}

/** The largest input power in watts over a range of input voltages: what the common scale must hold. */
export function largestInput(designs: readonly DesignColumns[], from: number, to: number): number {
  let largest = 0
  for (const design of designs) {
    const swept = from === to ? [] : [...design.input['x']!].filter((volts) => volts > from && volts < to)
    for (const volts of [from, to, ...swept]) {
      largest = Math.max(largest, balanceAt(design, volts)?.input ?? 0)
    }
  }
  return largest
}
