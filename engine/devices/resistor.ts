/** R(T) = ohms·(1 + tc1·(T - tnom)). */

/** Parameters in order. */
export const RESISTOR_PARAMETERS = { ohms: undefined, tc1: 0, tnom: 25 } as const

/**
 * No resistance is taken below this, in ohms: a short would have no finite conductance, and a negative value (a tolerance
 * gone mad) no physical meaning.
 */
export const LEAST_OHMS = 1e-6

/** Ohms to siemens, held at `LEAST_OHMS`. */
export function conductanceOf(ohms: number): number {
  return 1 / (ohms > LEAST_OHMS ? ohms : LEAST_OHMS)
}

/** Writes the conductance in siemens at `celsius` to `derived[to]`. `p[at..]` holds ohms, tc1 (1/K), tnom (degC). */
export function prepareResistor(p: Float64Array, at: number, celsius: number, derived: Float64Array, to: number): void {
  derived[to] = conductanceOf(p[at]! * (1 + p[at + 1]! * (celsius - p[at + 2]!)))
}

/** Terminals [a, b]: currents into them at out[to..to+1], then their derivatives row by row. `p[at]` is the conductance. */
export function evaluateResistor(
  p: Float64Array,
  at: number,
  v: Float64Array,
  from: number,
  out: Float64Array,
  to: number,
): void {
  const g = p[at]!
  const i = g * (v[from]! - v[from + 1]!)
  out[to] = i
  out[to + 1] = -i
  out[to + 2] = g
  out[to + 3] = -g
  out[to + 4] = -g
  out[to + 5] = g
}
