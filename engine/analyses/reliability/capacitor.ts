/** Fixed capacitors: λ_p = λ_b π_T π_C π_V π_SR π_Q π_E; π_SR is for solid tantalum alone. */
import type { CapacitorKind } from '../../parts/index.ts'
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
import { type Factor, type Sheet, computed, equation, sheet, tabled } from './sheet.ts'

const SOURCE = handbook('10.1')

/** Base rate, activation energy in eV, and the columns of capacitance and voltage. */
const STYLES = {
  electrolytic: { base: 0.00012, energy: 0.35, size: 2, stress: 1, words: 'aluminium electrolytic, style CE' },
  tantalum: { base: 0.00005, energy: 0.15, size: 2, stress: 4, words: 'solid tantalum chip, style CWR' },
  ceramic: { base: 0.00099, energy: 0.35, size: 1, stress: 3, words: 'ceramic, styles CK and CC' },
  'ceramic chip': { base: 0.002, energy: 0.35, size: 1, stress: 3, words: 'ceramic chip, style CDR' },
  film: { base: 0.00051, energy: 0.15, size: 1, stress: 1, words: 'metallized plastic film, styles CHR and CFR' },
} as const

export type CapacitorStyle = keyof typeof STYLES

const ENVIRONMENTS: ByEnvironment = { 'ground-benign': 1, 'ground-fixed': 10, 'ground-mobile': 20 }
const QUALITIES: ByQuality = {
  commercial: [10, 'commercial'],
  lower: [3, 'non-established reliability'],
  military: [1, 'level M'],
}

const SIZE = { 1: equation('C^0.09'), 2: equation('C^0.23') } as const
const STRESS = {
  1: equation('(S / 0.6)^5 + 1'),
  3: equation('(S / 0.6)^3 + 1'),
  4: equation('(S / 0.6)^17 + 1'),
} as const
const RATE = equation('λ_b * π_T * π_C * π_V * π_Q * π_E')
const TANTALUM_RATE = equation('λ_b * π_T * π_C * π_V * π_SR * π_Q * π_E')

export interface CapacitorUse extends Setting {
  readonly style: CapacitorStyle
  /** Degrees Celsius around it: it makes no heat of its own here. */
  readonly temperature: number
  readonly farads: number
  /** Volts across it, and rated. */
  readonly voltage: number
  readonly rated: number
}

export const capacitorStyle = (kind: CapacitorKind, isChip: boolean): CapacitorStyle =>
  kind === 'class-1-ceramic' || kind === 'class-2-ceramic' ? (isChip ? 'ceramic chip' : 'ceramic') : kind

/** Below 0.1 Ω/V, the worst line: nothing but the rail's own resistance stands before the capacitor. */
const seriesResistance: Factor = tabled(3.3, {
  symbol: 'π_SR',
  ground: 'use',
  at: 'less than 0.1 Ω/V in series, taken as the worst case',
  source: SOURCE,
  confidence: 'assumption',
})

export function capacitorSheet(use: CapacitorUse): Sheet {
  const { base, energy, size, stress, words } = STYLES[use.style]
  const ratio = Math.abs(use.voltage) / use.rated
  const isTantalum = use.style === 'tantalum'
  return sheet(`fixed capacitor, ${use.style}`, SOURCE, isTantalum ? TANTALUM_RATE : RATE, [
    tabled(base, { symbol: 'λ_b', ground: 'style', at: words, source: SOURCE }),
    arrhenius(energy, use.temperature, 'surroundings', SOURCE),
    computed(SIZE[size]({ C: use.farads * 1e6 }), {
      symbol: 'π_C',
      ground: 'size',
      at: formatQuantity(use.farads, 'F'),
      source: SOURCE,
    }),
    computed(STRESS[stress]({ S: ratio }), {
      symbol: 'π_V',
      ground: 'stress',
      at: `${formatQuantity(ratio, 'fraction')} of ${formatQuantity(use.rated, 'V')}`,
      source: SOURCE,
    }),
    ...(isTantalum ? [seriesResistance] : []),
    qualityFactor(QUALITIES, use.quality, SOURCE),
    environmentFactor(ENVIRONMENTS, use.environment, SOURCE),
  ])
}
