/**
 * What a study may assume beside its requirements: where the rail works and how its parts were screened (for the failure
 * rate), and prices and board areas of its own in the place of the catalogue's. Nothing here changes what is designed.
 *
 * The names are kinds of parts and kinds of packages, not part numbers: a price that is a guess is a guess for the kind.
 */
import type { FieldRange } from './fields.ts'

/** Environments of MIL-HDBK-217F that a rail on the ground meets. */
export type EnvironmentName = 'ground-benign' | 'ground-fixed' | 'ground-mobile'
/** How parts were screened; what each means by family is in the failure rate's tables. */
export type QualityName = 'commercial' | 'lower' | 'military'

/** Kinds of parts that have one price each. */
export const PRICED = {
  'diode-do-35': 'reference diode 0.5 W, DO-35',
  'diode-sod-123': 'reference diode 0.5 W, SOD-123',
  'diode-1w': 'reference diode 1 W, DO-41',
  'diode-sma': 'reference diode 1.5 W, SMA',
  'diode-3w': 'reference diode 3 W, DO-41',
  'diode-smb': 'reference diode 3 W, SMB',
  'diode-5w': 'reference diode 5 W, axial',
  'transistor-to-92': 'transistor, TO-92',
  'transistor-to-126': 'transistor, TO-126',
  'transistor-to-220-3a': 'transistor to 3 A, TO-220',
  'transistor-to-220-10a': 'transistor 6 to 10 A, TO-220',
  'transistor-to-3': 'transistor, TO-3',
  'darlington-to-220': 'Darlington transistor, TO-220',
  'op-amp-lm358': 'LM358 and LM2904 op-amps',
  'op-amp-lm324': 'LM324 op-amps',
  'op-amp-mc3317x': 'MC33171 and MC33172 op-amps',
  'op-amp-tlc27x': 'TLC271 and TLC272 op-amps',
  'op-amp-mcp600x': 'MCP6001 and MCP6002 op-amps',
  'op-amp-opa277': 'OPA277 op-amp',
  'reference-tl431': 'TL431 shunt reference',
  'reference-tl431-graded': 'TL431 shunt reference, A or B grade',
  'reference-lm4040-cd': 'LM4040 shunt reference, C or D grade',
  'reference-lm4040-ab': 'LM4040 shunt reference, A or B grade',
  'reference-lm385': 'LM385 shunt reference',
  'reference-lm336': 'LM336 shunt reference',
  'resistor-small': 'film resistor to 0.6 W, axial',
  'resistor-1w': 'film resistor 1 W, axial',
  'resistor-2w': 'film resistor 2 W, axial',
  'resistor-3w': 'resistor 3 W, axial',
  'resistor-5w': 'resistor 5 W',
  'resistor-10w': 'cement resistor 10 W',
  'resistor-chip': 'chip resistor, 0402 to 0805',
  'resistor-chip-1206': 'chip resistor, 1206 and 1210',
  'resistor-chip-large': 'chip resistor, 1218 to 2512',
  'electrolytic-100u': 'electrolytic to 100 µF',
  'electrolytic-470u': 'electrolytic to 470 µF',
  'electrolytic-1000u': 'electrolytic to 1000 µF',
  'electrolytic-2200u': 'electrolytic to 2200 µF',
  'electrolytic-4700u': 'electrolytic to 4700 µF',
  'electrolytic-other': 'electrolytic, larger or above 50 V',
  tantalum: 'tantalum capacitor',
  film: 'film capacitor to 100 V',
  'film-other': 'film capacitor, 250 V and above',
  'ceramic-100n': 'ceramic chip to 100 nF',
  'ceramic-1u': 'ceramic chip to 1 µF',
  'ceramic-22u': 'ceramic chip to 22 µF',
  'ceramic-leaded': 'ceramic capacitor, leaded',
  'heatsink-clip': 'heatsink, 15 K/W and above',
  'heatsink-10k': 'heatsink, 9 to 15 K/W',
  'heatsink-5k': 'heatsink, 4 to 9 K/W',
  'heatsink-2k': 'heatsink, 1.5 to 4 K/W',
  'heatsink-1k': 'heatsink, below 1.5 K/W',
} as const satisfies Record<string, string>

export type PriceName = keyof typeof PRICED

/** Kinds of packages that take one board area each. */
export const PLACED = {
  'do-35': 'DO-35',
  'do-41': 'DO-41',
  'do-201': 'DO-201, axial 5 W',
  'sod-123': 'SOD-123',
  sma: 'SMA',
  smb: 'SMB',
  'to-92': 'TO-92, upright',
  'to-126': 'TO-126, upright',
  'to-220': 'TO-220, upright',
  'to-3': 'TO-3, flat',
  'sot-23': 'SOT-23',
  'sot-23-5': 'SOT-23-5',
  'dip-8': 'DIP-8',
  'dip-14': 'DIP-14',
  'soic-8': 'SOIC-8',
  'soic-14': 'SOIC-14',
  'axial-0204': 'axial body to 3.6 mm',
  'axial-0207': 'axial body to 6.3 mm',
  'axial-0309': 'axial body to 9 mm',
  'axial-0411': 'axial body to 9.9 mm',
  'axial-0414': 'axial body to 11.9 mm',
  'axial-0516': 'axial body to 15.5 mm',
  'axial-0617': 'axial body to 17 mm',
  'axial-20mm': 'axial body to 20 mm',
  'axial-38mm': 'axial body to 38 mm',
  'axial-48mm': 'axial body to 48 mm',
  'cement-upright': 'cement resistor, upright',
  'r-0402': 'chip resistor 0402',
  'r-0603': 'chip resistor 0603',
  'r-0805': 'chip resistor 0805',
  'r-1206': 'chip resistor 1206',
  'r-1210': 'chip resistor 1210',
  'r-1218': 'chip resistor 1218',
  'r-2010': 'chip resistor 2010',
  'r-2512': 'chip resistor 2512',
  'c-0603': 'chip capacitor 0603',
  'c-0805': 'chip capacitor 0805',
  'c-1206': 'chip capacitor 1206',
  'c-1210': 'chip capacitor 1210',
  'can-5': 'radial can to 5 mm',
  'can-6': 'radial can to 6.3 mm',
  'can-8': 'radial can to 8 mm',
  'can-10': 'radial can to 10 mm',
  'can-12': 'radial can to 12.5 mm',
  'can-16': 'radial can to 16 mm',
  'can-18': 'radial can to 18 mm',
  'film-box': 'film box, 5 mm pitch',
  'film-other': 'film capacitor, 250 V and above',
  'ceramic-leaded': 'ceramic capacitor, leaded',
  tantalum: 'tantalum chip',
  'heatsink-clip': 'heatsink, 15 K/W and above',
  'heatsink-10k': 'heatsink, 9 to 15 K/W',
  'heatsink-5k': 'heatsink, 4 to 9 K/W',
  'heatsink-2k': 'heatsink, 1.5 to 4 K/W',
  'heatsink-1k': 'heatsink, below 1.5 K/W',
} as const satisfies Record<string, string>

export type AreaName = keyof typeof PLACED

export interface Assumptions {
  environment: EnvironmentName
  quality: QualityName
  /** Euro each, by kind of part; where there is none the catalogue's holds. 0 is a part that costs nothing. */
  prices: Partial<Record<PriceName, number>>
  /** Square metres each, by kind of package; where there is none the catalogue's holds. 0 is a part beside the board. */
  areas: Partial<Record<AreaName, number>>
}

const OTHERWISE = "the catalogue's"
const PRICE = { unit: 'EUR', min: 0, max: 1000, otherwise: OTHERWISE } as const
const AREA = { unit: 'm²', min: 0, max: 0.1, otherwise: OTHERWISE } as const

/** Label and range of a number at a path such as `assumptions.prices.diode-1w`; undefined where there is none. */
export function assumedRange(path: string): FieldRange | undefined {
  const [, kind, name = ''] = /^assumptions\.(prices|areas)\.(.+)$/u.exec(path) ?? []
  if (kind === 'prices' && Object.hasOwn(PRICED, name))
    return { label: `Price (${PRICED[name as PriceName]})`, ...PRICE }
  if (kind === 'areas' && Object.hasOwn(PLACED, name))
    return { label: `Board area (${PLACED[name as AreaName]})`, ...AREA }
  return undefined
}
