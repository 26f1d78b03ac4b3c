/** What several families of the handbook share: the temperature factors, the environments, the qualities. */
import type { EnvironmentName, QualityName } from '../../requirements/study.ts'
import { formatQuantity } from '../../units/index.ts'
import { type Factor, computed, equation, tabled } from './sheet.ts'

/** Read in transcriptions of the handbook, not in its print; section numbers are from memory. */
export const handbook = (section: string): string => `MIL-HDBK-217F Notice 2, section ${section}`

/** Where and how a part is used. */
export interface Setting {
  readonly environment: EnvironmentName
  readonly quality: QualityName
}

const ARRHENIUS = equation('exp(-E_a / 8.617e-5 * (1 / (T + 273) - 1 / 298))')
const JUNCTION = equation('exp(-A * (1 / (T_j + 273) - 1 / 298))')

export const degrees = (celsius: number): string => formatQuantity(celsius, '°C')

/** π_T of resistors and capacitors from an activation energy in electronvolts; 1 at 25 °C. */
export const arrhenius = (energy: number, celsius: number, what: string, source: string): Factor =>
  computed(ARRHENIUS({ E_a: energy, T: celsius }), {
    symbol: 'π_T',
    ground: 'temperature',
    at: `${what} at ${degrees(celsius)}`,
    source,
  })

/** π_T of discrete semiconductors from the handbook's constant in kelvin; 1 at 25 °C. */
export const junctionFactor = (constant: number, celsius: number, source: string): Factor =>
  computed(JUNCTION({ A: constant, T_j: celsius }), {
    symbol: 'π_T',
    ground: 'temperature',
    at: `junction at ${degrees(celsius)}`,
    source,
  })

const ENVIRONMENTS: Readonly<Record<EnvironmentName, string>> = {
  'ground-benign': 'ground, benign (GB)',
  'ground-fixed': 'ground, fixed (GF)',
  'ground-mobile': 'ground, mobile (GM)',
}

export type ByEnvironment = Readonly<Record<EnvironmentName, number>>

export const environmentFactor = (values: ByEnvironment, environment: EnvironmentName, source: string): Factor =>
  tabled(values[environment], { symbol: 'π_E', ground: 'environment', at: ENVIRONMENTS[environment], source })

/** Value of π_Q and the handbook's own name of the level. */
export type ByQuality = Readonly<Record<QualityName, readonly [value: number, level: string]>>

export const qualityFactor = (
  values: ByQuality,
  quality: QualityName,
  source: string,
  fromMemory: readonly QualityName[] = [],
): Factor => {
  const [value, level] = values[quality]
  return tabled(value, {
    symbol: 'π_Q',
    ground: 'quality',
    at: level,
    source,
    ...(fromMemory.includes(quality) ? { confidence: 'memory' } : {}),
  })
}

/** Diodes and bipolar transistors share both tables. */
export const SEMICONDUCTOR_ENVIRONMENTS: ByEnvironment = { 'ground-benign': 1, 'ground-fixed': 6, 'ground-mobile': 9 }
export const SEMICONDUCTOR_QUALITIES: ByQuality = {
  commercial: [8, 'plastic'],
  lower: [5.5, 'lower'],
  military: [1, 'JANTX'],
}
