/** Bipolar transistors below 200 MHz: λ_p = λ_b π_T π_A π_R π_S π_Q π_E. */
import { formatQuantity } from '../../units/index.ts'
import {
  SEMICONDUCTOR_ENVIRONMENTS,
  SEMICONDUCTOR_QUALITIES,
  type Setting,
  environmentFactor,
  handbook,
  junctionFactor,
  qualityFactor,
} from './common.ts'
import { type Sheet, computed, equation, sheet, tabled } from './sheet.ts'

const SOURCE = handbook('6.3')
const BASE = 0.00074
const TEMPERATURE_CONSTANT = 2114
/** Watts below which the rating factor no longer falls. */
const SMALLEST_RATING = 0.1
const LINEAR = 1.5
const RATING = equation('P_r^0.37')
const STRESS = equation('0.045 * exp(3.1 * V_S)')
const RATE = equation('λ_b * π_T * π_A * π_R * π_S * π_Q * π_E')

export interface TransistorUse extends Setting {
  /** Degrees Celsius of the junction. */
  readonly temperature: number
  /** Rated watts. */
  readonly rated: number
  /** Volts from collector to emitter, and rated with the base open. */
  readonly voltage: number
  readonly vceo: number
  /** Two transistors in one package: the handbook has no line of its own for them, and counts one. */
  readonly isDarlington?: boolean
}

export function transistorSheet(use: TransistorUse): Sheet {
  const ratio = Math.abs(use.voltage) / use.vceo
  const rating = {
    symbol: 'π_R',
    ground: 'size',
    at: `rated ${formatQuantity(use.rated, 'W')}`,
    source: SOURCE,
  } as const
  return sheet(use.isDarlington ? 'bipolar transistor, Darlington as one' : 'bipolar transistor', SOURCE, RATE, [
    tabled(BASE, { symbol: 'λ_b', ground: 'style', at: 'bipolar, below 200 MHz', source: SOURCE }),
    junctionFactor(TEMPERATURE_CONSTANT, use.temperature, SOURCE),
    tabled(LINEAR, { symbol: 'π_A', ground: 'use', at: 'linear amplification', source: SOURCE }),
    use.rated < SMALLEST_RATING ? tabled(0.43, rating) : computed(RATING({ P_r: use.rated }), rating),
    computed(STRESS({ V_S: ratio }), {
      symbol: 'π_S',
      ground: 'stress',
      at: `${formatQuantity(ratio, 'fraction')} of ${formatQuantity(use.vceo, 'V')}`,
      source: SOURCE,
    }),
    qualityFactor(SEMICONDUCTOR_QUALITIES, use.quality, SOURCE),
    environmentFactor(SEMICONDUCTOR_ENVIRONMENTS, use.environment, SOURCE),
  ])
}
