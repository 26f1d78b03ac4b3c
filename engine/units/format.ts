import { PREFIXES } from './prefixes.ts'
import { placePoint, toDecimal, trimZeros, type Decimal } from './decimal.ts'
import { unitText, type Scale } from './unitTable.ts'

const NARROW_NO_BREAK_SPACE = '\u202F'
const MINUS = '\u2212'
/** Stands where there is no number to show. */
const NO_NUMBER = '\u2014'
// Outside of these powers of ten plain digits would be a row of zeros: the number is written with a power of ten.
const LOWEST_PLAIN = -7
const HIGHEST_PLAIN = 15

/**
 * A value with its unit as the trade prints it: SI prefix so that 1 <= |number| < 1000, true minus, narrow no-break
 * space. `formatQuantity(0.0123456, 'A')` is `12.3 mA`; units without prefixes (°C, K/W) keep theirs; the units
 * `fraction` and `%` both take a fraction and print it as per cent. NaN prints as a dash.
 */
export function formatQuantity(value: number, unit: string, digits = 3): string {
  return write(value, unit, digits, NARROW_NO_BREAK_SPACE, MINUS)
}

/**
 * The text to put into an entry field: the shortest that `parseQuantity` reads back as exactly the same number, with
 * an ordinary space and hyphen so that it can be edited. `entryText(0.002, 'A')` is `2 mA`. Empty where there is no number.
 */
export function entryText(value: number, unit: string): string {
  return Number.isFinite(value) ? write(value, unit, undefined, ' ', '-') : ''
}

function write(value: number, unit: string, digits: number | undefined, space: string, minus: string): string {
  if (Number.isNaN(value)) return NO_NUMBER
  const { scales } = unitText(unit)
  if (value === 0) {
    return join('0', (scales.find((s) => s.exponent === 0) ?? scales.at(-1))?.symbol ?? unit, space)
  }
  const sign = value < 0 ? minus : ''
  if (!Number.isFinite(value)) return join(`${sign}∞`, scales.at(-1)?.exponent === 0 ? unit : '', space)
  const d = toDecimal(value, digits)
  const scale = chooseScale(scales, d.exponent)
  return join(sign + numberText(d, scale.exponent), scale.symbol, space)
}

function join(number: string, symbol: string, space: string): string {
  if (symbol === '') return number
  return symbol === '°' ? number + symbol : number + space + symbol
}

/** The largest scale in which the number is at least 1, or the smallest there is. */
function chooseScale(scales: readonly Scale[], exponent: number): Scale {
  return scales.findLast((s) => s.exponent <= exponent) ?? (scales[0] as Scale)
}

function numberText(d: Decimal, shift: number): string {
  const exponent = d.exponent - shift
  if (exponent >= LOWEST_PLAIN && exponent <= HIGHEST_PLAIN) return placePoint(d, shift)
  return `${placePoint(d, d.exponent)}e${exponent}`
}

// A value code carries at most this many significant figures; what lies beyond is floating dust (IEC 60062 uses 2 to 4).
const CODE_FIGURES = 6

/**
 * Value code of IEC 60062: the prefix, or `letter` for the unit itself, stands for the decimal point. 4700 is `4k7`, 3.9
 * is `3R9`, 0.47 is `R47`, 100e3 is `100k`, 220e-9 is `220n`, 1000 is `1k0`; `formatValueCode(5.1, 'V')` is `5V1`.
 * A value that is not positive has no code, except 0, the wire link: `0R`. Negative and non-finite values print as a dash.
 */
export function formatValueCode(value: number, letter = 'R'): string {
  if (value === 0) return `0${letter}`
  if (!Number.isFinite(value) || value < 0) return NO_NUMBER
  const d = trimZeros(toDecimal(value, CODE_FIGURES))
  // 0.1 to 1 ohm is written with the letter in front, as the code has it; IEC 60062 has no millivolt form of it.
  const leading = letter === 'R' && d.exponent === -1
  const prefix = leading ? undefined : chooseScale(PREFIXES, d.exponent)
  const marker = prefix === undefined || prefix.symbol === '' ? letter : prefix.symbol
  const [whole = '0', part] = placePoint(d, prefix?.exponent ?? 0).split('.')
  if (whole === '0') return marker + (part ?? '')
  // One whole digit always shows what follows the point: 1k0, not 1k.
  return whole + marker + (part ?? (whole.length === 1 ? '0' : ''))
}
