/**
 * Where a study may pin a part, and to what. A place is a topology and a part's id; what an id is there is the same in all
 * variants of a topology, though its task may differ. A contract test holds the places to the designs.
 */
import type { FieldRange } from './fields.ts'
import { type PartFamily, PART_NUMBERS } from './partNumbers.ts'
import type { PinsByTopology } from './study.ts'
import { entryText } from '../units/index.ts'

type PinnedTopology = keyof PinsByTopology

const FAMILIES: Readonly<Record<PinnedTopology, Readonly<Record<string, PartFamily>>>> = {
  shunt: {
    ...places('resistor', 'R1', 'R2', 'R3'),
    ...places('reference-diode', 'D1'),
    ...places('transistor', 'Q1'),
    ...places('shunt-reference', 'U1'),
    ...places('heatsink', 'HS1'),
    ...places('capacitor', 'C1'),
  },
  'series-pass': {
    ...places('resistor', 'R1', 'R2'),
    ...places('reference-diode', 'D1'),
    ...places('transistor', 'Q1', 'Q2'),
    ...places('heatsink', 'HS1'),
    ...places('capacitor', 'C1'),
  },
  feedback: {
    ...places('resistor', 'R1', 'R2', 'R3', 'R4', 'R5', 'R6', 'R7'),
    ...places('reference-diode', 'D1'),
    ...places('transistor', 'Q1', 'Q2', 'Q3'),
    ...places('op-amp', 'U1'),
    ...places('shunt-reference', 'U2'),
    ...places('heatsink', 'HS1'),
    ...places('capacitor', 'C1', 'C2'),
  },
}

function places(family: PartFamily, ...ids: string[]): Record<string, PartFamily> {
  return Object.fromEntries(ids.map((id) => [id, family]))
}

export const PINNED_TOPOLOGIES = Object.keys(FAMILIES) as PinnedTopology[]

/** Ids that some variant of the topology has. */
export const pinnedIds = (topology: PinnedTopology): readonly string[] => Object.keys(FAMILIES[topology])

/** What belongs at a place; undefined where no variant has such a part. */
export function pinnedFamily(topology: string, id: string): PartFamily | undefined {
  const ids = Object.hasOwn(FAMILIES, topology) ? FAMILIES[topology as PinnedTopology] : {}
  return Object.hasOwn(ids, id) ? ids[id] : undefined
}

/** Families whose parts are asked for by value too. Ranges are our own: wider than the catalogue in every direction. */
const VALUES: Partial<Record<PartFamily, Pick<FieldRange, 'unit' | 'min' | 'max'>>> = {
  resistor: { unit: 'Ω', min: 0.01, max: 100e6 },
  capacitor: { unit: 'F', min: 1e-12, max: 0.1 },
  'reference-diode': { unit: 'V', min: 1, max: 200 },
}

/** Unit and range of a pinned value; undefined where a part number alone is taken. */
export const pinnedValues = (family: PartFamily): Pick<FieldRange, 'unit' | 'min' | 'max'> | undefined => VALUES[family]

/** A part number without what a keyboard or a mail program may change about it: kind of space, capitals, either micro sign. */
export const plainNumber = (partNumber: string): string =>
  partNumber.normalize('NFKC').trim().replace(/\s+/gu, ' ').toLowerCase()

/** The part number as the list has it; undefined where the family has none like it. */
export const listedNumber = (family: PartFamily, partNumber: string): string | undefined =>
  PART_NUMBERS[family].find((number) => number === partNumber) ??
  PART_NUMBERS[family].find((number) => plainNumber(number) === plainNumber(partNumber))

/** Whether a family takes this as a pin. */
export function isPin(family: PartFamily, pin: unknown): pin is string | number {
  if (typeof pin === 'string') return listedNumber(family, pin) !== undefined
  const range = VALUES[family]
  return typeof pin === 'number' && range !== undefined && pin >= range.min && pin <= range.max
}

/** A pin in words: `470 Ω`, `BD139-10`. */
export function pinText(topology: string, id: string, pin: string | number): string {
  const family = pinnedFamily(topology, id)
  return typeof pin === 'string' ? pin : entryText(pin, (family && VALUES[family]?.unit) ?? '').replace(' ', '\u202F')
}

const FAMILY_WORDS: Readonly<Record<PartFamily, string>> = {
  resistor: 'resistor types',
  capacitor: 'capacitors',
  'reference-diode': 'reference diodes',
  transistor: 'transistors',
  'op-amp': 'operational amplifiers',
  'shunt-reference': 'shunt references',
  heatsink: 'heatsinks',
}

/** A list so short is named whole. */
const NAMED_WHOLE = 16
/** So many of a longer one, those that begin most like what was asked for. */
const NAMED = 4

/** What may be pinned at a place, in words. `got` helps to find what was meant. */
export function allowedPins(family: PartFamily, got: unknown, rangeText: (range: FieldRange) => string): string {
  const range = VALUES[family]
  const value = range ? `a value from ${rangeText({ label: '', ...range })} or ` : ''
  return `${value}the part number of one of the ${FAMILY_WORDS[family]} in the list (${numbersLike(family, got)})`
}

function numbersLike(family: PartFamily, got: unknown): string {
  const numbers = PART_NUMBERS[family]
  if (numbers.length <= NAMED_WHOLE) return numbers.join(', ')
  const asked = typeof got === 'string' ? plainNumber(got) : ''
  const alike = (number: string): number => {
    const plain = plainNumber(number)
    let k = 0
    while (k < asked.length && plain[k] === asked[k]) k++
    return k
  }
  const likest = numbers.toSorted((a, b) => alike(b) - alike(a)).slice(0, NAMED)
  return `${likest.join(', ')} and ${numbers.length - NAMED} more`
}
