/** How each unit is written, read and scaled. A unit that is not listed is written after the plain number. */
import { PREFIXES } from './prefixes.ts'

/** One way to write the unit: the value is the written number times 10 to the `exponent`. */
export interface Scale {
  readonly symbol: string
  readonly exponent: number
}

export interface UnitText {
  /** What the unit measures, with its article, for messages: `a voltage`. */
  readonly quantity: string
  /** Ascending by exponent: the forms that `formatQuantity` chooses from. */
  readonly scales: readonly Scale[]
  /** Further spellings that are read but never written. */
  readonly aliases: readonly Scale[]
  /** The number may carry an SI prefix alone: `4k7`. */
  readonly prefixed: boolean
}

/** `tail` is what follows the prefixed symbol: `/K` in mV/K. */
function prefixed(
  quantity: string,
  symbol: string,
  spellings: readonly string[] = [],
  tails: readonly string[] = [''],
): UnitText {
  const written = tails[0] ?? ''
  const forms = [symbol, ...spellings]
  return {
    quantity,
    prefixed: true,
    scales: PREFIXES.map((p) => ({ symbol: p.symbol + symbol + written, exponent: p.exponent })),
    aliases: [...PREFIXES, { symbol: 'u', exponent: -6 }, { symbol: 'K', exponent: 3 }].flatMap((p) =>
      forms.flatMap((form) => tails.map((tail) => ({ symbol: p.symbol + form + tail, exponent: p.exponent }))),
    ),
  }
}

function plain(quantity: string, symbol: string, spellings: readonly string[] = []): UnitText {
  return {
    quantity,
    prefixed: false,
    scales: [{ symbol, exponent: 0 }],
    aliases: spellings.map((spelling) => ({ symbol: spelling, exponent: 0 })),
  }
}

const fraction: UnitText = {
  quantity: 'a percentage',
  prefixed: false,
  scales: [{ symbol: '%', exponent: -2 }],
  aliases: [
    { symbol: 'percent', exponent: -2 },
    { symbol: 'per cent', exponent: -2 },
    { symbol: '‰', exponent: -3 },
    { symbol: 'ppm', exponent: -6 },
  ],
}

const perKelvin: UnitText = {
  quantity: 'a temperature coefficient',
  prefixed: false,
  scales: [
    { symbol: 'ppm/K', exponent: -6 },
    { symbol: '%/K', exponent: -2 },
  ],
  aliases: [
    { symbol: '1/K', exponent: 0 },
    { symbol: '/K', exponent: 0 },
    { symbol: '1/°C', exponent: 0 },
    { symbol: 'ppm/°C', exponent: -6 },
    { symbol: '%/°C', exponent: -2 },
  ],
}

const area: UnitText = {
  quantity: 'an area',
  prefixed: false,
  scales: [
    { symbol: 'mm²', exponent: -6 },
    { symbol: 'cm²', exponent: -4 },
    { symbol: 'm²', exponent: 0 },
  ],
  aliases: [
    { symbol: 'mm2', exponent: -6 },
    { symbol: 'cm2', exponent: -4 },
    { symbol: 'm2', exponent: 0 },
  ],
}

const units: ReadonlyMap<string, UnitText> = new Map([
  ['V', prefixed('a voltage', 'V', ['v', 'volt', 'volts'])],
  ['A', prefixed('a current', 'A', ['a', 'amp', 'amps'])],
  ['Ω', prefixed('a resistance', 'Ω', ['R', 'ohm', 'ohms', 'Ohm'])],
  ['W', prefixed('a power', 'W', ['w', 'watt', 'watts'])],
  ['F', prefixed('a capacitance', 'F', ['farad'])],
  ['H', prefixed('an inductance', 'H', ['henry'])],
  ['Hz', prefixed('a frequency', 'Hz', ['hz', 'HZ'])],
  ['s', prefixed('a time', 's', ['sec'])],
  ['J', prefixed('an energy', 'J', ['joule'])],
  ['Wh', prefixed('an energy', 'Wh')],
  ['S', prefixed('a conductance', 'S', ['siemens'])],
  ['m', prefixed('a length', 'm')],
  ['V/K', prefixed('a voltage drift', 'V', [], ['/K', '/°C'])],
  ['A/K', prefixed('a current drift', 'A', [], ['/K', '/°C'])],
  ['K', plain('a temperature difference', 'K', ['kelvin'])],
  ['°C', plain('a temperature', '°C', ['C', 'degC', 'deg C', '°'])],
  ['K/W', plain('a thermal resistance', 'K/W', ['°C/W', 'C/W'])],
  ['W/K', plain('a thermal conductance', 'W/K', ['W/°C'])],
  ['dB', plain('a ratio in decibels', 'dB', ['db'])],
  ['1', plain('a plain number', '')],
  ['', plain('a plain number', '')],
  ['fraction', fraction],
  ['%', fraction],
  ['1/K', perKelvin],
  ['m²', area],
  ['EUR', plain('a price', 'EUR', ['€', 'eur', 'Euro', 'euro'])],
])

/** The writing rules of a unit; a unit that is not in the table is written as it is, without prefixes. */
export function unitText(unit: string): UnitText {
  return units.get(unit) ?? plain(`a value in ${unit}`, unit)
}

/** The first listed unit that `symbol` is a spelling of, for messages about a wrong unit. */
export function unitSpelled(symbol: string): { unit: string; text: UnitText } | undefined {
  for (const [unit, text] of units) {
    if (unit !== '' && symbol !== '' && exponentOfSymbol(text, symbol) !== undefined) return { unit, text }
  }
  return undefined
}

/** Power of ten that a written unit stands for, `undefined` where it is no spelling of this unit. */
export function exponentOfSymbol(text: UnitText, symbol: string): number | undefined {
  return (text.scales.find((s) => s.symbol === symbol) ?? text.aliases.find((s) => s.symbol === symbol))?.exponent
}
