/**
 * A current from the plus node to the minus node: value·2^((T - tnom)/doublesEvery). The load draws value·tanh(V/0.1 V)
 * instead, V being plus over minus, so that it cannot pull its node below the other one.
 *
 * That leakage doubles about every 10 K is the textbooks' rule for measured reverse current (e.g. Bhattacharya and De,
 * example 5.21, as read in a transcription).
 */

/** Parameters in order; a source without `doublesEvery` does not move with temperature. */
export const CURRENT_SOURCE_PARAMETERS = { value: undefined, doublesEvery: Infinity, tnom: 25 } as const

/** Volts over which the load's current rises to 76 % of its value. */
export const LOAD_KNEE = 0.1
/** From this many knees on tanh rounds to 1: its distance from it, 2·e^-2u, is below half a unit in the last place. */
export const LOAD_FULL_ABOVE = 20

/** Writes the current in amperes at `celsius` to `derived[to]`. */
export function prepareCurrentSource(
  p: Float64Array,
  at: number,
  celsius: number,
  derived: Float64Array,
  to: number,
): void {
  derived[to] = p[at]! * 2 ** ((celsius - p[at + 2]!) / p[at + 1]!)
}

/** The load, terminals [plus, minus]; `p[at]` is its current in regulation. Layout of `out` as for every device. */
export function evaluateLoad(
  p: Float64Array,
  at: number,
  v: Float64Array,
  from: number,
  out: Float64Array,
  to: number,
): void {
  const value = p[at]!
  const u = (v[from]! - v[from + 1]!) / LOAD_KNEE
  let i = value
  let g = 0
  if (u < LOAD_FULL_ABOVE) {
    const t = Math.tanh(u)
    i = value * t
    g = (value * (1 - t * t)) / LOAD_KNEE
  }
  out[to] = i
  out[to + 1] = -i
  out[to + 2] = g
  out[to + 3] = -g
  out[to + 4] = -g
  out[to + 5] = g
}

/** A fixed source, terminals [plus, minus]; `p[at]` is its current. */
export function evaluateCurrentSource(
  p: Float64Array,
  at: number,
  _v: Float64Array,
  _from: number,
  out: Float64Array,
  to: number,
): void {
  out[to] = p[at]!
  out[to + 1] = -p[at]!
  out.fill(0, to + 2, to + 6)
}
