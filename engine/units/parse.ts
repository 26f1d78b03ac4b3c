import { prefixExponent } from './prefixes.ts'
import { exponentOfSymbol, unitSpelled, unitText } from './unitTable.ts'

export type Parsed = { ok: true; value: number } | { ok: false; message: string }

const LONGEST = 80

/**
 * Reads a value as engineers write it: `4k7`, `4R7`, `R47`, `250 mA`, `.25`, `1µ5`, `5V0`, `-20 °C`, `±8 %`. The unit may
 * be left out. Case matters in prefixes: m is milli, M is mega. A comma is a decimal sign where it cannot separate
 * thousands: `0,25` is read, `1,000` is refused. The decimal digits are read once, so 4k7 is exactly 4700. The units
 * `fraction` and `%` give a fraction: `8 %` is 0.08; without the sign only numbers up to 1 are read, as a fraction.
 */
export function parseQuantity(text: string, unit: string): Parsed {
  const shown = text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text
  if (text.length > LONGEST) return refuse(`"${shown}" is too long to be a value: at most ${LONGEST} characters.`)
  const written = normalise(text)
  if (written === '') return refuse(`A value is missing; ${example(unit)}.`)

  const signed = /^(\+\/-|[+±-])? ?(.*)$/.exec(written)
  const sign = signed?.[1] ?? ''
  const body = signed?.[2] ?? ''
  const isFraction = unit === 'fraction' || unit === '%'
  if ((sign === '±' || sign === '+/-') && !isFraction) {
    return refuse(`"${shown}" has a ± sign, which only a tolerance in per cent takes; ${example(unit)}.`)
  }

  const split = (unitText(unit).prefixed ? splitCode(body) : undefined) ?? splitNumber(body)
  if (split === undefined) return refuse(`"${shown}" is not a number; ${example(unit)}.`)
  if (split === 'ambiguous') {
    return refuse(`"${shown}" may mean thousands or a decimal comma; write it with a point or without separators.`)
  }
  const exponent = exponentOf(split, unit)
  if (exponent === undefined) return refuse(wrongUnit(shown, split.tail === '' ? split.marker : split.tail, unit))
  if (isFraction && split.tail === '' && Number(split.digits) > 1) {
    return refuse(`"${shown}" has no per cent sign; write ${split.digits} % or a fraction up to 1.`)
  }
  const value = Number(`${sign === '-' ? '-' : ''}${split.digits}e${split.exponent + exponent}`)
  if (!Number.isFinite(value)) return refuse(`"${shown}" is larger than any number that can be calculated with.`)
  return { ok: true, value: value === 0 ? 0 : value }
}

function refuse(message: string): Parsed {
  return { ok: false, message }
}

/** One spelling for each sign that exists in several: spaces, minus, micro, ohm, degree Celsius. */
function normalise(text: string): string {
  return text
    .replace(/\s+/gu, ' ')
    .trim()
    .replaceAll('\u2212', '-')
    .replaceAll('\u03BC', '\u00B5')
    .replaceAll('\u2126', '\u03A9')
    .replaceAll('\u2103', '°C')
    .replaceAll('º', '°')
}

interface Split {
  /** Decimal digits that `Number` reads, with a point. */
  digits: string
  exponent: number
  /** The prefix or unit letter that stood for the decimal point, `''` where there was a point or none. */
  marker: string
  /** What follows the number: prefix, unit or both. */
  tail: string
}

const PLAIN = /^(\d{1,3}(?: \d{3})+|\d+)?(?:([.,])(\d*))?(?:[eE]([+-]?\d{1,4}))?(?!\d) ?([^\d.,].*)?$/u
const CODE = /^(\d*)([a-zA-ZµΩ]+)(\d+) ?(\D*)$/u

function splitNumber(body: string): Split | 'ambiguous' | undefined {
  const plain = PLAIN.exec(body)
  if (plain !== null) {
    const [, whole = '', point = '', part = '', exponent = '0', tail = ''] = plain
    if (whole === '' && part === '') return undefined
    // 1,000 may be a thousand or one; 0,250 and 1234,567 can only be decimals.
    if (point === ',' && part.length === 3 && /^[1-9]\d{0,2}$/.test(whole)) return 'ambiguous'
    const digits = `${whole.replaceAll(' ', '') || '0'}.${part || '0'}`
    return { digits: trimPoint(digits), exponent: Number(exponent), marker: '', tail: tail.trim() }
  }
  if (/^\d{1,3}([.,]\d{3})+([.,]\d*)?\D*$/u.test(body)) return 'ambiguous'
  return undefined
}

/** A value code of IEC 60062, with a letter in place of the decimal point. */
function splitCode(body: string): Split | undefined {
  const code = CODE.exec(body)
  if (code === null) return undefined
  const [, whole = '', marker = '', part = '', tail = ''] = code
  // 1e3 is a power of ten
  if (marker.toLowerCase() === 'e') return undefined
  return { digits: `${whole || '0'}.${part}`, exponent: 0, marker, tail: tail.trim() }
}

function trimPoint(digits: string): string {
  return digits.replace(/\.0$/, '')
}

function exponentOf(split: Split, unit: string): number | undefined {
  const text = unitText(unit)
  const exact = exponentOfSymbol(text, split.tail)
  if (split.marker === '') {
    if (split.tail === '') return 0
    return exact ?? (text.prefixed ? prefixExponent(split.tail) : undefined)
  }
  // In a value code the marker is a prefix or the unit; after a prefix the bare unit may follow: 4k7 Ω.
  if (split.tail !== '' && exact !== 0) return undefined
  if (!text.prefixed) return undefined
  const prefix = split.marker.length === 1 ? prefixExponent(split.marker) : undefined
  return prefix ?? (split.tail === '' ? exponentOfSymbol(text, split.marker) : undefined)
}

function wrongUnit(shown: string, symbol: string, unit: string): string {
  const wanted = unitText(unit).quantity
  const found = unitSpelled(symbol)
  if (found === undefined || found.text.quantity === wanted) {
    return `"${shown}" has the unit "${symbol}", which is not known here; ${example(unit)}.`
  }
  return `"${shown}" is ${found.text.quantity} (${symbol}), but ${wanted} is wanted here; ${example(unit)}.`
}

const EXAMPLES: ReadonlyMap<string, string> = new Map([
  ['V', '5 V or 250 mV'],
  ['A', '250 mA or 0.25 A'],
  ['Ω', '4k7 or 390 Ω'],
  ['W', '250 mW or 1.5 W'],
  ['F', '100 nF or 4µ7'],
  ['Hz', '100 Hz or 1 kHz'],
  ['°C', '-20 °C or 50'],
  ['fraction', '8 % or 0.08'],
  ['%', '8 % or 0.08'],
])

function example(unit: string): string {
  const known = EXAMPLES.get(unit)
  if (known !== undefined) return `write for example ${known}`
  return unit === '' || unit === '1'
    ? 'write a plain number'
    : `write a number in ${unitText(unit).scales.at(-1)?.symbol ?? unit}`
}
