/** Holds computed values against a published case, by the rules of the set. */
import { publishedCase, targetOf } from '../../fixtures/published/index.ts'

/**
 * One sentence for every value (SI, by the name of the case's quantity) that misses its target; empty where all meet it.
 * `residue` is the relative allowance for what the textbooks' ideal devices leave behind when they are real, if steep,
 * curves; 0 where only arithmetic is compared.
 */
export function misses(id: string, values: Readonly<Record<string, number>>, residue = 0): string[] {
  const one = publishedCase(id)
  return Object.entries(values).flatMap(([quantity, ours]) => {
    const { value, tolerance, because } = targetOf(one, quantity)
    const allowed = tolerance + residue * Math.abs(value)
    if (Math.abs(ours - value) <= allowed) return []
    return [`${id} ${quantity}: ${ours}, expected ${value} ± ${allowed} (${because}; ${one.source})`]
  })
}

/** The givens of a case; asking for one that it does not have throws. */
export function given(id: string): (name: string) => number {
  const one = publishedCase(id)
  return (name) => {
    const value = one.given[name]
    if (value === undefined) throw new Error(`${id} is not given ${name}`)
    return value
  }
}
