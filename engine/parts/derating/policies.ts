/** The policies, every number with its origin. What a document as it was read leaves open is filled with common practice, and says so. */
import { DERATING_WORDS } from '../../requirements/derating.ts'
import type { DeratingName } from '../../requirements/study.ts'
import type { DeratingFactors, DeratingPolicy, FactorName, FactorOrigin, JunctionRule } from './policy.ts'

const PRACTICE: FactorOrigin = { source: 'common practice, no source', confidence: 'assumption' }
const MAKERS: FactorOrigin = { source: 'ratings as the makers print them', confidence: 'read' }

/** No more than a ceiling in °C. */
const upTo = (ceiling: number): JunctionRule => ({ share: 1, margin: 0, ceiling })

const STANDARD: DeratingFactors = {
  resistorPower: 0.5,
  wirewoundPower: 0.5,
  resistorVoltage: 0.8,
  transistorPower: 1,
  diodePower: 1,
  circuitPower: 1,
  transistorJunction: { share: 1, margin: 25, ceiling: 125 },
  diodeJunction: { share: 1, margin: 25, ceiling: 125 },
  circuitJunction: { share: 1, margin: 25, ceiling: 125 },
  transistorVoltage: 0.75,
  transistorCurrent: 0.75,
  soa: 0.75,
  diodeCurrent: 0.8,
  referenceCurrent: 0.8,
  opAmpSupply: 0.9,
  electrolyticVoltage: 0.8,
  tantalumVoltage: 0.5,
  ceramicVoltage: 0.6,
  filmVoltage: 0.8,
  heatsinkFactor: 1.15,
}

/** Ratings as the maker prints them: also what holds in faults. */
const FULL: DeratingFactors = {
  ...STANDARD,
  ...Object.fromEntries(Object.keys(STANDARD).map((name) => [name, 1])),
  transistorJunction: upTo(Infinity),
  diodeJunction: upTo(Infinity),
  circuitJunction: upTo(Infinity),
}

/** A number as a document has it; the text says how it was read where that was not plain. */
type Stated<T> = T | readonly [value: T, note: string]
type StatedFactors = { readonly [F in FactorName]?: Stated<DeratingFactors[F]> }

/** What the document states; all else by common practice. */
function published(name: DeratingName, origin: FactorOrigin, stated: StatedFactors): DeratingPolicy {
  const values: Partial<Record<FactorName, unknown>> = {}
  const origins: Partial<Record<FactorName, FactorOrigin>> = {}
  for (const factor of Object.keys(STANDARD) as FactorName[]) {
    const said = stated[factor]
    const [value, note] = Array.isArray(said) ? (said as [unknown, string]) : [said, undefined]
    values[factor] = said === undefined ? STANDARD[factor] : value
    origins[factor] = said === undefined ? PRACTICE : { ...origin, ...(note === undefined ? {} : { note }) }
  }
  return {
    name,
    ...DERATING_WORDS[name],
    ...(values as unknown as DeratingFactors),
    origins: origins as Record<FactorName, FactorOrigin>,
  }
}

/** Every number of one origin. */
function uniform(name: DeratingName, factors: DeratingFactors, origin: FactorOrigin): DeratingPolicy {
  const names = Object.keys(factors) as FactorName[]
  const origins = Object.fromEntries(names.map((factor) => [factor, origin])) as Record<FactorName, FactorOrigin>
  return { name, ...DERATING_WORDS[name], ...factors, origins }
}

const NAVSEA: FactorOrigin = {
  source:
    'NAVSEA SD-18, discrete semiconductors, derating (NSWC Crane, www.navsea.navy.mil/Home/WarfareCenters/NSWCCrane/Resources/SD-18), and a table that restates it',
  confidence: 'read',
}

/** SD-18 for parts of quality level 2, by environment. */
function sd18(name: DeratingName, environment: 'protected' | 'normal' | 'severe'): DeratingPolicy {
  const column = { protected: 0, normal: 1, severe: 2 }[environment]
  const pick = (...columns: readonly [number, number, number]): number => columns[column]!
  const hermetic = 'stated for linear circuits in hermetic cases; those in the list are plastic'
  return published(name, NAVSEA, {
    resistorPower: [
      0.55,
      'two shares each are stated, 65 and 55 % for film, 70 and 55 % for chips: the lower is taken',
    ],
    wirewoundPower: 0.6,
    resistorVoltage: 0.7,
    transistorPower: pick(0.9, 0.8, 0.6),
    transistorCurrent: pick(0.9, 0.8, 0.6),
    transistorVoltage: pick(0.8, 0.75, 0.3),
    soa: [pick(0.9, 0.8, 0.6), 'the share of the power, taken for the whole safe operating area'],
    diodePower: pick(0.9, 0.8, 0.5),
    diodeJunction: upTo(pick(100, 85, 70)),
    circuitJunction: [upTo(pick(125, 110, 100)), hermetic],
    referenceCurrent: [pick(0.9, 0.85, 0.8), hermetic],
    opAmpSupply: [pick(0.8, 0.8, 0.7), hermetic],
    electrolyticVoltage: 0.7,
    tantalumVoltage: 0.6,
    ceramicVoltage: 0.6,
  })
}

export const DERATING: Readonly<Record<DeratingName, DeratingPolicy>> = {
  standard: uniform('standard', STANDARD, PRACTICE),
  'navsea-sd-18-protected': sd18('navsea-sd-18-protected', 'protected'),
  'navsea-sd-18': sd18('navsea-sd-18', 'normal'),
  'navsea-sd-18-severe': sd18('navsea-sd-18-severe', 'severe'),
  'nasa-eee-inst-002': published(
    'nasa-eee-inst-002',
    { source: 'NASA EEE-INST-002', confidence: 'memory' },
    {
      resistorPower: 0.6,
      wirewoundPower: [0.6, 'stated for film; taken for wirewound too'],
      resistorVoltage: 0.8,
      transistorPower: 0.6,
      transistorCurrent: 0.75,
      transistorVoltage: 0.75,
      transistorJunction: [
        { share: 0.8, margin: 40, ceiling: 125 },
        '80 % of the maximum, 125 °C, or 40 K below the maximum: the lowest is taken',
      ],
      soa: [0.6, 'the share of the power, taken for the whole safe operating area'],
      diodePower: 0.5,
      diodeCurrent: 0.75,
      circuitPower: 0.75,
      referenceCurrent: [0.8, 'stated for the output current of linear circuits'],
      opAmpSupply: 0.8,
      ceramicVoltage: 0.6,
      tantalumVoltage: [0.3, '50 % up to 70 °C, 30 % at 110 °C: the lower is taken at every ambient'],
    },
  ),
  'ecss-q-st-30-11c': published(
    'ecss-q-st-30-11c',
    { source: 'ECSS-Q-ST-30-11C', confidence: 'memory' },
    {
      resistorPower: 0.5,
      wirewoundPower: 0.6,
      resistorVoltage: 0.8,
      transistorPower: 0.65,
      transistorCurrent: 0.75,
      transistorVoltage: 0.75,
      transistorJunction: [
        { share: 1, margin: 40, ceiling: 110 },
        '110 °C, or 40 K below the maximum: the lower is taken',
      ],
      soa: [0.65, 'the share of the power, taken for the whole safe operating area'],
      diodePower: 0.65,
      diodeCurrent: 0.75,
      referenceCurrent: [0.8, 'stated for the output current of linear circuits'],
      opAmpSupply: 0.9,
      ceramicVoltage: 0.6,
      tantalumVoltage: 0.6,
      electrolyticVoltage: [0.6, 'stated for capacitors at large'],
      filmVoltage: [0.6, 'stated for capacitors at large'],
    },
  ),
  none: uniform('none', FULL, MAKERS),
}
