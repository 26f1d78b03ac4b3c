/** Fixed resistors: λ_p = λ_b π_T π_P π_S π_Q π_E. */
import { formatQuantity } from '../../units/index.ts'
import {
  type ByEnvironment,
  type ByQuality,
  type Setting,
  arrhenius,
  environmentFactor,
  handbook,
  qualityFactor,
} from './common.ts'
import { type Sheet, computed, equation, sheet, tabled } from './sheet.ts'

const SOURCE = handbook('9.1')

/** Styles of the handbook that the catalogue's resistors are taken for: base rate, activation energy in eV, stress column. */
const STYLES = {
  film: { base: 0.0037, energy: 0.08, column: 1, words: 'film, styles RL, RN and RM' },
  wirewound: { base: 0.0024, energy: 0.08, column: 2, words: 'power wirewound, style RW' },
  // not in the catalogue: column 1 of the temperature table
  composition: { base: 0.0017, energy: 0.2, column: 2, words: 'composition, style RC' },
} as const

export type ResistorStyle = keyof typeof STYLES

const ENVIRONMENTS: ByEnvironment = { 'ground-benign': 1, 'ground-fixed': 4, 'ground-mobile': 16 }
const QUALITIES: ByQuality = {
  commercial: [10, 'commercial'],
  lower: [3, 'non-established reliability'],
  military: [1, 'level M'],
}

const POWER = equation('P^0.39')
const STRESS = { 1: equation('0.71 * exp(1.1 * S)'), 2: equation('0.54 * exp(2.04 * S)') } as const
const RATE = equation('λ_b * π_T * π_P * π_S * π_Q * π_E')

export interface ResistorUse extends Setting {
  readonly style: ResistorStyle
  /** Degrees Celsius of the body. */
  readonly temperature: number
  /** Watts turned into heat, and rated. */
  readonly power: number
  readonly rated: number
}

export function resistorSheet(use: ResistorUse): Sheet {
  const { base, energy, column, words } = STYLES[use.style]
  const ratio = use.power / use.rated
  return sheet(`fixed resistor, ${use.style}`, SOURCE, RATE, [
    tabled(base, { symbol: 'λ_b', ground: 'style', at: words, source: SOURCE }),
    arrhenius(energy, use.temperature, 'body', SOURCE),
    computed(POWER({ P: use.power }), {
      symbol: 'π_P',
      ground: 'size',
      at: `${formatQuantity(use.power, 'W')} turned into heat`,
      source: SOURCE,
    }),
    computed(STRESS[column]({ S: ratio }), {
      symbol: 'π_S',
      ground: 'stress',
      at: `${formatQuantity(ratio, 'fraction')} of ${formatQuantity(use.rated, 'W')}`,
      source: SOURCE,
    }),
    qualityFactor(QUALITIES, use.quality, SOURCE),
    environmentFactor(ENVIRONMENTS, use.environment, SOURCE),
  ])
}
