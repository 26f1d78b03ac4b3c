/** Linear integrated circuits: λ_p = (C_1 π_T + C_2 π_E) π_Q π_L. */
import {
  type ByEnvironment,
  type ByQuality,
  type Setting,
  degrees,
  environmentFactor,
  handbook,
  qualityFactor,
} from './common.ts'
import { type Sheet, computed, equation, sheet, tabled } from './sheet.ts'

const SOURCE = handbook('5.1')

/** C_1 by the number of transistors on the die. */
const DIES: readonly (readonly [most: number, value: number])[] = [
  [100, 0.01],
  [300, 0.02],
  [1000, 0.04],
  [10000, 0.06],
]

const ENVIRONMENTS: ByEnvironment = { 'ground-benign': 0.5, 'ground-fixed': 2, 'ground-mobile': 4 }
const QUALITIES: ByQuality = { commercial: [10, 'commercial'], lower: [2, 'class B-1'], military: [1, 'class B'] }

const TEMPERATURE = equation('0.1 * exp(-0.65 / 8.617e-5 * (1 / (T_j + 273) - 1 / 298))')
const PACKAGE = equation('3.6e-4 * N_p^1.08')
const RATE = equation('(C_1 * π_T + C_2 * π_E) * π_Q * π_L')

export interface CircuitUse extends Setting {
  /** Degrees Celsius of the junction. */
  readonly temperature: number
  readonly pins: number
  /** Transistors on the die, at most 10 000. */
  readonly transistors: number
}

export function circuitSheet({ temperature, pins, transistors, quality, environment }: CircuitUse): Sheet {
  const die = DIES.find(([most]) => transistors <= most)
  if (!die) throw new Error(`reliability: the handbook has no linear circuit of ${transistors} transistors`)
  return sheet('linear integrated circuit', SOURCE, RATE, [
    tabled(die[1], {
      symbol: 'C_1',
      ground: 'style',
      at: `at most ${die[0]} transistors on the die`,
      source: SOURCE,
      confidence: 'assumption',
    }),
    computed(TEMPERATURE({ T_j: temperature }), {
      symbol: 'π_T',
      ground: 'temperature',
      at: `junction at ${degrees(temperature)}`,
      source: `${SOURCE}; the factor 0.1 from memory`,
      confidence: 'memory',
    }),
    computed(PACKAGE({ N_p: pins }), {
      symbol: 'C_2',
      ground: 'size',
      at: `${pins} pins, not hermetic`,
      source: SOURCE,
    }),
    tabled(1, { symbol: 'π_L', ground: 'use', at: 'two years in production or more', source: SOURCE }),
    qualityFactor(QUALITIES, quality, SOURCE, ['commercial']),
    environmentFactor(ENVIRONMENTS, environment, SOURCE),
  ])
}
