/** Dimensions as exponents of volt, ampere, second, kelvin and metre: enough for circuits and heat, and mass never appears. */

/** Exponents of [V, A, s, K, m]. */
export type Dimension = readonly [number, number, number, number, number]

export const DIMENSIONLESS: Dimension = [0, 0, 0, 0, 0]

// Each derived unit is its SI definition written in V, A, s, K, m: W = V·A, Ω = V/A, F = A·s/V, H = V·s/A, J = V·A·s.
const BASE: ReadonlyMap<string, Dimension> = new Map<string, Dimension>([
  ['', DIMENSIONLESS],
  ['1', DIMENSIONLESS],
  ['%', DIMENSIONLESS],
  ['fraction', DIMENSIONLESS],
  ['dB', DIMENSIONLESS],
  ['°', DIMENSIONLESS],
  ['rad', DIMENSIONLESS],
  ['V', [1, 0, 0, 0, 0]],
  ['A', [0, 1, 0, 0, 0]],
  ['s', [0, 0, 1, 0, 0]],
  ['K', [0, 0, 0, 1, 0]],
  ['°C', [0, 0, 0, 1, 0]],
  ['m', [0, 0, 0, 0, 1]],
  ['Ω', [1, -1, 0, 0, 0]],
  ['S', [-1, 1, 0, 0, 0]],
  ['W', [1, 1, 0, 0, 0]],
  ['J', [1, 1, 1, 0, 0]],
  ['C', [0, 1, 1, 0, 0]],
  ['F', [-1, 1, 1, 0, 0]],
  ['H', [1, -1, 1, 0, 0]],
  ['Hz', [0, 0, -1, 0, 0]],
])

/**
 * Dimension of a unit: a name (`V`, `Ω`, `°C`, `%`), or names joined by `·` and `/`, each with an optional power (`K/W`, `1/K`,
 * `m²`, `V^2`, `A·s`). Prefixed units are refused: every number inside is plain SI, so a prefix would be a hidden factor.
 * Throws on an unknown unit.
 */
export function dimensionOf(unit: string): Dimension {
  const known = BASE.get(unit)
  if (known !== undefined) return known
  let result = DIMENSIONLESS
  let sign = 1
  for (const token of unit.split(/([·*/])/u)) {
    if (token === '/') sign = -1
    else if (token === '·' || token === '*') sign = 1
    else result = multiply(result, power(factor(token, unit), sign))
  }
  return result
}

function factor(token: string, unit: string): Dimension {
  const [, name = '', caret, raised] = /^(.+?)(?:\^(-?\d+)|([²³]))?$/u.exec(token) ?? []
  const base = BASE.get(name)
  if (base === undefined || name === '')
    throw new Error(`engine/units: the unit "${unit}" is not known; units are SI without prefixes.`)
  return power(base, caret === undefined ? (raised === '²' ? 2 : raised === '³' ? 3 : 1) : Number(caret))
}

/** Whether two quantities may be added. */
export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a.every((exponent, index) => exponent === b[index])
}

/** Dimension of a product. */
export function multiply(a: Dimension, b: Dimension): Dimension {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3], a[4] + b[4]]
}

/** Dimension of a quotient. */
export function divide(a: Dimension, b: Dimension): Dimension {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2], a[3] - b[3], a[4] - b[4]]
}

/** Dimension of a power; `exponent` may be a fraction, as in a square root. */
export function power(a: Dimension, exponent: number): Dimension {
  // + 0 keeps minus zero out of the plain data
  return [a[0] * exponent + 0, a[1] * exponent + 0, a[2] * exponent + 0, a[3] * exponent + 0, a[4] * exponent + 0]
}

/** A readable unit of a dimension for messages: `Ω`, `1/K`, `V²·A`; `1` where it has none. */
export function unitOf(dimension: Dimension): string {
  for (const [name, base] of BASE) if (name !== '' && sameDimension(base, dimension)) return name
  for (const above of ['1', 'V', 'A', 'K', 'W']) {
    for (const below of ['K', 'W', 'V', 'A', 's']) {
      if (sameDimension(divide(dimensionOf(above), dimensionOf(below)), dimension)) return `${above}/${below}`
    }
  }
  const names = ['V', 'A', 's', 'K', 'm']
  const raised = (sign: number) =>
    names.flatMap((name, index) => {
      const exponent = sign * (dimension[index] ?? 0)
      if (exponent <= 0) return []
      return [exponent === 1 ? name : exponent === 2 ? `${name}²` : exponent === 3 ? `${name}³` : `${name}^${exponent}`]
    })
  return [raised(1).join('·') || '1', ...raised(-1)].join('/')
}
