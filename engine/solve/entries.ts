/** The Jacobian's structural entries, numbered as elements ask for them. */
import type { DeviceSet, ResistorSet } from './circuit.ts'

export class Entries {
  readonly rows: number[] = []
  readonly columns: number[] = []
  readonly #firstUnknown: number
  readonly #size: number
  readonly #numbers = new Map<number, number>()

  constructor(size: number, firstUnknown: number) {
    this.#size = size
    this.#firstUnknown = firstUnknown
  }

  /** The number of the entry, or -1 where row or column is not solved for. */
  place(row: number, column: number): number {
    if (row < this.#firstUnknown || column < this.#firstUnknown) return -1
    const key = row * this.#size + column
    const found = this.#numbers.get(key)
    if (found !== undefined) return found
    const number = this.rows.length
    this.#numbers.set(key, number)
    this.rows.push(row)
    this.columns.push(column)
    return number
  }
}

/** Place 0 in `out` stays zero, for terminals without current. */
export const FIRST_OUT = 1

export interface SeriesResistance {
  readonly a: number
  readonly b: number
  readonly parameterAt: number
}

/**
 * Resistors of the netlist, whose currents are reported at `outAt`, then the series resistances inside devices. Of the
 * latter only the inner node's balance counts the current; the outer node's counts what the device itself draws there
 * (see `evaluate`).
 */
export function layOutResistors(
  plain: readonly SeriesResistance[],
  series: readonly SeriesResistance[],
  outAt: readonly number[],
  entries: Entries,
): ResistorSet {
  const all = [...plain, ...series]
  return {
    count: all.length,
    plainCount: plain.length,
    outAt: Int32Array.from(outAt),
    ends: Int32Array.from(all.flatMap(({ a, b }) => [a, b])),
    seriesParameterAt: Int32Array.from(series, (r) => r.parameterAt),
    entries: Int32Array.from(
      all.flatMap(({ a, b }, k) => {
        const isPlain = k < plain.length
        return [
          isPlain ? entries.place(a, a) : -1,
          entries.place(b, b),
          isPlain ? entries.place(a, b) : -1,
          entries.place(b, a),
        ]
      }),
    ),
  }
}

/**
 * Every derivative of every device that lands on an unknown row and column. `outside`: by inner node, the node outside its
 * series resistance, whose balance takes the same current.
 */
export function stampDevices(
  sets: readonly (readonly [DeviceSet, number])[],
  outside: ReadonlyMap<number, number>,
  entries: Entries,
): { stampEntry: Int32Array; stampFrom: Int32Array } {
  const to: number[] = []
  const from: number[] = []
  for (const [set, terminals] of sets) {
    for (let d = 0; d < set.count; d += 1) {
      for (let t = 0; t < terminals; t += 1) {
        for (let s = 0; s < terminals; s += 1) {
          const row = set.terminals[d * terminals + t]!
          const column = set.terminals[d * terminals + s]!
          for (const balance of [row, outside.get(row)]) {
            const entry = balance === undefined ? -1 : entries.place(balance, column)
            if (entry < 0) continue
            to.push(entry)
            from.push(set.outAt[d]! + terminals + terminals * t + s)
          }
        }
      }
    }
  }
  return { stampEntry: Int32Array.from(to), stampFrom: Int32Array.from(from) }
}
