/** When two solutions of one circuit count as the same. */
import type { Solution } from './solver.ts'

/** Each allowance is `relative` of the larger magnitude, but at least `absolute` (volts, amperes). */
export interface Tolerance {
  readonly voltage: { readonly relative: number; readonly absolute: number }
  readonly current: { readonly relative: number; readonly absolute: number }
}

/**
 * The published tolerance of the comparison: node voltages within 0.1 % or 1 mV, currents within 0.5 %. Below the floor of
 * 1 nA a current is leakage that neither model claims to know.
 */
export const PUBLISHED: Tolerance = {
  voltage: { relative: 1e-3, absolute: 1e-3 },
  current: { relative: 5e-3, absolute: 1e-9 },
}

/** Where both solvers use the same model only their arithmetic and their physical constants differ. */
export const SAME_MODEL: Tolerance = {
  voltage: { relative: 1e-6, absolute: 1e-7 },
  current: { relative: 1e-6, absolute: 1e-11 },
}

/** One sentence for each voltage or current of `ours` that `theirs` does not confirm; empty where all agree. */
export function disagreements(ours: Solution, theirs: Solution, tolerance: Tolerance = PUBLISHED): string[] {
  const found: string[] = []
  const check = (what: string, a: number, b: number | undefined, limit: Tolerance['voltage']): void => {
    const allowed = Math.max(limit.absolute, limit.relative * Math.max(Math.abs(a), Math.abs(b ?? 0)))
    if (b === undefined) found.push(`${what}: ${a}, not solved independently`)
    else if (!(Math.abs(a - b) <= allowed)) found.push(`${what}: ${a}, independently ${b} (off by ${a - b})`)
  }
  for (const [node, volts] of Object.entries(ours.nodeVoltages)) {
    check(`V(${node})`, volts, theirs.nodeVoltages[node], tolerance.voltage)
  }
  for (const [id, currents] of Object.entries(ours.currents)) {
    currents.forEach((amperes, terminal) => {
      check(`I(${id}, terminal ${terminal})`, amperes, theirs.currents[id]?.[terminal], tolerance.current)
    })
  }
  for (const id of Object.keys(theirs.currents)) if (ours.currents[id] === undefined) found.push(`I(${id}) is missing`)
  return found
}

/** The largest differences between two solutions, for a message: voltages in volts, currents as a fraction of the larger one. */
export function largestDifference(ours: Solution, theirs: Solution): { volts: number; currentFraction: number } {
  let volts = 0
  let currentFraction = 0
  for (const [node, v] of Object.entries(ours.nodeVoltages)) {
    volts = Math.max(volts, Math.abs(v - (theirs.nodeVoltages[node] ?? NaN)))
  }
  for (const [id, currents] of Object.entries(ours.currents)) {
    currents.forEach((a, terminal) => {
      const b = theirs.currents[id]?.[terminal] ?? NaN
      const scale = Math.max(Math.abs(a), Math.abs(b), 1e-9)
      currentFraction = Math.max(currentFraction, Math.abs(a - b) / scale)
    })
  }
  return { volts, currentFraction }
}
