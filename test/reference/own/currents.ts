/** Our device equations at given terminal voltages: for checks that need no circuit. */
import { BJT_SIGN } from '../../../engine/devices/bjt.ts'
import { DEVICES } from '../../../engine/devices/index.ts'
import type { ElementKind } from '../../../engine/devices/elements.ts'

/**
 * Amperes into each (inner) terminal at `volts`, junction at `celsius`. Series resistances belong to the circuit and are
 * left out. A transistor's parameters are given by their published names; what is absent has its default.
 */
export function currentsOf(
  kind: ElementKind,
  parameters: object,
  volts: readonly number[],
  celsius: number,
): readonly number[] {
  const device = DEVICES[kind]
  if (device.model === undefined) throw new Error(`${kind} has no equation`)
  const given = new Map(Object.entries(parameters as Record<string, number>))
  const values = Object.entries(device.parameters).map(([name, usual]) => {
    const value = given.get(name) ?? usual
    if (value === undefined) throw new Error(`${kind} needs ${name}`)
    return value
  })
  const derived = new Float64Array(device.model.derived)
  if (kind === 'npn' || kind === 'pnp') derived[BJT_SIGN] = kind === 'npn' ? 1 : -1
  device.model.prepare(Float64Array.from(values), 0, celsius, derived, 0)
  const n = device.terminals
  const out = new Float64Array(n + n * n)
  device.model.evaluate(derived, 0, Float64Array.from(volts), 0, out, 0)
  return [...out.subarray(0, n)]
}

/** Where a rising function reaches `level` between `low` and `high`, by halving. Throws where it does not. */
export function reaches(level: number, low: number, high: number, f: (x: number) => number): number {
  if (!(f(low) <= level && f(high) >= level)) throw new Error('not bracketed')
  let [a, b] = [low, high]
  for (let k = 0; k < 200 && b - a > 1e-15 * Math.abs(b); k++) {
    const middle = (a + b) / 2
    if (f(middle) < level) a = middle
    else b = middle
  }
  return (a + b) / 2
}
