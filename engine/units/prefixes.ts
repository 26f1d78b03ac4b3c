/** SI prefixes that engineers write, from femto to tera. */
export interface Prefix {
  readonly symbol: string
  /** Power of ten. */
  readonly exponent: number
}

/** Ascending by exponent; the empty symbol is the unit itself. Source: the SI brochure, 9th edition, table 7. */
export const PREFIXES: readonly Prefix[] = [
  { symbol: 'f', exponent: -15 },
  { symbol: 'p', exponent: -12 },
  { symbol: 'n', exponent: -9 },
  { symbol: 'µ', exponent: -6 },
  { symbol: 'm', exponent: -3 },
  { symbol: '', exponent: 0 },
  { symbol: 'k', exponent: 3 },
  { symbol: 'M', exponent: 6 },
  { symbol: 'G', exponent: 9 },
  { symbol: 'T', exponent: 12 },
]

const exponents = new Map(PREFIXES.filter((p) => p.symbol !== '').map((p) => [p.symbol, p.exponent]))
// u stands for µ on keyboards without it; K for kilo is common on resistors (IEC 60062 prints it so).
exponents.set('u', -6)
exponents.set('K', 3)

/** The power of ten of a prefix as written, `undefined` where it is none. Case matters: m is milli, M is mega. */
export function prefixExponent(symbol: string): number | undefined {
  return exponents.get(symbol)
}
