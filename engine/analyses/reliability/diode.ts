/** Diodes that hold a voltage: λ_p = λ_b π_T π_S π_C π_Q π_E with π_S = 1, whatever the voltage across them. */
import {
  SEMICONDUCTOR_ENVIRONMENTS,
  SEMICONDUCTOR_QUALITIES,
  type Setting,
  environmentFactor,
  handbook,
  junctionFactor,
  qualityFactor,
} from './common.ts'
import { type Sheet, equation, sheet, tabled } from './sheet.ts'

const SOURCE = handbook('6.1')
const BASE = 0.002
/** Kelvin, of voltage regulator and reference diodes; 3091 K belongs to the general-purpose ones. */
const TEMPERATURE_CONSTANT = 1925
const RATE = equation('λ_b * π_T * π_S * π_C * π_Q * π_E')

export interface DiodeUse extends Setting {
  /** Degrees Celsius of the junction. */
  readonly temperature: number
}

export function diodeSheet({ temperature, quality, environment }: DiodeUse): Sheet {
  return sheet('voltage regulator or reference diode', SOURCE, RATE, [
    tabled(BASE, { symbol: 'λ_b', ground: 'style', at: 'voltage regulator and reference diodes', source: SOURCE }),
    junctionFactor(TEMPERATURE_CONSTANT, temperature, SOURCE),
    tabled(1, { symbol: 'π_S', ground: 'stress', at: '1 for a diode that holds its voltage', source: SOURCE }),
    tabled(1, {
      symbol: 'π_C',
      ground: 'use',
      at: 'metallurgically bonded contacts',
      source: SOURCE,
      confidence: 'assumption',
    }),
    qualityFactor(SEMICONDUCTOR_QUALITIES, quality, SOURCE),
    environmentFactor(SEMICONDUCTOR_ENVIRONMENTS, environment, SOURCE),
  ])
}
