/** Decimal digits as text: scaling by powers of ten moves the point and never multiplies, so nothing is rounded twice. */

export interface Decimal {
  readonly negative: boolean
  /** Significant digits without a point, the first one not zero. */
  readonly digits: string
  /** The value is 0.d1d2d3… times 10 to the (`exponent` + 1), that is d1.d2d3… times 10 to the `exponent`. */
  readonly exponent: number
}

/**
 * A finite number other than 0 as decimal digits: rounded to `significant` figures, or the shortest digits that read
 * back as the same number.
 */
export function toDecimal(value: number, significant?: number): Decimal {
  const [mantissa = '', exponent = '0'] = Math.abs(value)
    .toExponential(significant === undefined ? undefined : significant - 1)
    .split('e')
  return { negative: value < 0, digits: mantissa.replace('.', ''), exponent: Number(exponent) }
}

/** Plain decimal text of d times 10 to the -`shift`, without a sign and without an exponent. */
export function placePoint(d: Decimal, shift: number): string {
  const before = d.exponent - shift + 1
  if (before <= 0) return `0.${'0'.repeat(-before)}${d.digits}`
  if (before >= d.digits.length) return d.digits + '0'.repeat(before - d.digits.length)
  return `${d.digits.slice(0, before)}.${d.digits.slice(before)}`
}

/** d with its trailing zeros dropped. */
export function trimZeros(d: Decimal): Decimal {
  return { ...d, digits: d.digits.replace(/0+$/, '') || '0' }
}
