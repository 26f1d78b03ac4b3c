/** Which kind a part of the catalogue is: the line of prices and the line of areas that it goes by. */
import type { AreaName, PriceName } from '../../requirements/study.ts'
import { CAPACITORS, type CapacitorRow } from '../capacitor/index.ts'
import type { FoundPart } from '../find.ts'
import type { DiodeFamily } from '../reference-diode/index.ts'
import type { ResistorRow } from '../resistor/index.ts'
import type { TransistorRow } from '../transistor/index.ts'

export interface Kind {
  readonly price: PriceName
  readonly area: AreaName
}

const DIODES: Readonly<Record<DiodeFamily, Kind>> = {
  '1N52xxB': { price: 'diode-do-35', area: 'do-35' },
  BZX55C: { price: 'diode-do-35', area: 'do-35' },
  BZX79C: { price: 'diode-do-35', area: 'do-35' },
  MMSZ52xxB: { price: 'diode-sod-123', area: 'sod-123' },
  '1N47xxA': { price: 'diode-1w', area: 'do-41' },
  '1N59xxB': { price: 'diode-3w', area: 'do-41' },
  '1N53xxB': { price: 'diode-5w', area: 'do-201' },
  '1SMA59xxB': { price: 'diode-sma', area: 'sma' },
  '1SMB59xxB': { price: 'diode-smb', area: 'smb' },
}

/** Packages whose name is the area's own. */
const PACKAGES: Readonly<Record<string, AreaName>> = {
  'TO-92': 'to-92',
  'TO-126': 'to-126',
  'TO-220': 'to-220',
  'TO-3': 'to-3',
  'SOT-23': 'sot-23',
  'SOT-23-5': 'sot-23-5',
  'DIP-8': 'dip-8',
  'DIP-14': 'dip-14',
  'SOIC-8': 'soic-8',
  'SOIC-14': 'soic-14',
}

/** Longest body in metres that each axial footprint takes; the next longer one serves a body between two. */
const AXIAL: readonly (readonly [AreaName, number])[] = [
  ['axial-0204', 3.6e-3],
  ['axial-0207', 6.3e-3],
  ['axial-0309', 9e-3],
  ['axial-0411', 9.9e-3],
  ['axial-0414', 11.9e-3],
  ['axial-0516', 15.5e-3],
  ['axial-0617', 17e-3],
  ['axial-20mm', 20e-3],
  ['axial-38mm', 38e-3],
  ['axial-48mm', 48e-3],
]

/** Widest can in metres that each radial footprint takes. */
const CANS: readonly (readonly [AreaName, number])[] = [
  ['can-5', 5e-3],
  ['can-6', 6.3e-3],
  ['can-8', 8e-3],
  ['can-10', 10e-3],
  ['can-12', 12.5e-3],
  ['can-16', 16e-3],
  ['can-18', 18e-3],
]

const CHIP_RESISTORS: Readonly<Record<string, Kind>> = {
  '0402': { price: 'resistor-chip', area: 'r-0402' },
  '0603': { price: 'resistor-chip', area: 'r-0603' },
  '0805': { price: 'resistor-chip', area: 'r-0805' },
  '1206': { price: 'resistor-chip-1206', area: 'r-1206' },
  '1210': { price: 'resistor-chip-1206', area: 'r-1210' },
  '1218': { price: 'resistor-chip-large', area: 'r-1218' },
  '2010': { price: 'resistor-chip-large', area: 'r-2010' },
  '2512': { price: 'resistor-chip-large', area: 'r-2512' },
}

const CHIP_CAPACITORS: Readonly<Record<string, AreaName>> = {
  '0603': 'c-0603',
  '0805': 'c-0805',
  '1206': 'c-1206',
  '1210': 'c-1210',
}

/** The first entry that takes `size`, with room for rounding; the largest where none does. */
const holding = (sizes: readonly (readonly [AreaName, number])[], size: number): AreaName =>
  (sizes.find(([, most]) => size <= most * 1.001) ?? sizes.at(-1)!)[0]

function resistorKind(row: ResistorRow): Kind {
  const chip = CHIP_RESISTORS[row.package]
  if (chip) return chip
  const area = row.package === 'axial' ? holding(AXIAL, row.length) : 'cement-upright'
  if (row.power < 1) return { price: 'resistor-small', area }
  if (row.power < 2) return { price: 'resistor-1w', area }
  if (row.power < 3) return { price: 'resistor-2w', area }
  if (row.power < 5) return { price: 'resistor-3w', area }
  return { price: row.power < 10 ? 'resistor-5w' : 'resistor-10w', area }
}

/** Metres across a can, where the sheet was read with its sizes. */
const diameterOf = ({ package: housing }: CapacitorRow): number | undefined => {
  const [, millimetres] = /^radial ([\d.]+) x/u.exec(housing) ?? []
  return millimetres === undefined ? undefined : Number(millimetres) * 1e-3
}

/**
 * A series without sizes takes the smallest can of the series with sizes that has at least its value and voltage: an
 * assumption, since the two series are not made alike.
 */
function canOf(row: CapacitorRow): AreaName {
  const own = diameterOf(row)
  if (own !== undefined) return holding(CANS, own)
  const likely = CAPACITORS.filter(
    (other) => other.kind === 'electrolytic' && other.farads >= row.farads && other.voltage >= row.voltage,
  ).flatMap((other) => diameterOf(other) ?? [])
  return holding(CANS, likely.length > 0 ? Math.min(...likely) : Infinity)
}

const ELECTROLYTICS: readonly (readonly [PriceName, number])[] = [
  ['electrolytic-100u', 100e-6],
  ['electrolytic-470u', 470e-6],
  ['electrolytic-1000u', 1000e-6],
  ['electrolytic-2200u', 2200e-6],
  ['electrolytic-4700u', 4700e-6],
]

function capacitorKind(row: CapacitorRow): Kind {
  const { kind, farads, voltage, package: housing } = row
  if (kind === 'electrolytic') {
    const size = voltage > 50 ? undefined : ELECTROLYTICS.find(([, most]) => farads <= most * 1.001)
    return { price: size?.[0] ?? 'electrolytic-other', area: canOf(row) }
  }
  if (kind === 'tantalum') return { price: 'tantalum', area: 'tantalum' }
  if (kind === 'film')
    return voltage > 100 ? { price: 'film-other', area: 'film-other' } : { price: 'film', area: 'film-box' }
  const chip = CHIP_CAPACITORS[housing]
  if (!chip) return { price: 'ceramic-leaded', area: 'ceramic-leaded' }
  if (farads <= 100e-9) return { price: 'ceramic-100n', area: chip }
  return { price: farads <= 1e-6 ? 'ceramic-1u' : 'ceramic-22u', area: chip }
}

function transistorPrice({ package: housing, darlington, Ic_max }: TransistorRow): PriceName | undefined {
  if (housing === 'TO-92') return 'transistor-to-92'
  if (housing === 'TO-126') return 'transistor-to-126'
  if (housing === 'TO-3') return 'transistor-to-3'
  if (housing !== 'TO-220') return undefined
  if (darlington) return 'darlington-to-220'
  return Ic_max > 3 ? 'transistor-to-220-10a' : 'transistor-to-220-3a'
}

const AMPLIFIERS: readonly (readonly [RegExp, PriceName])[] = [
  [/^LM(358|2904)/u, 'op-amp-lm358'],
  [/^LM324/u, 'op-amp-lm324'],
  [/^MC3317/u, 'op-amp-mc3317x'],
  [/^TLC27/u, 'op-amp-tlc27x'],
  [/^MCP600/u, 'op-amp-mcp600x'],
  [/^OPA277/u, 'op-amp-opa277'],
]

const REFERENCES: readonly (readonly [RegExp, PriceName])[] = [
  [/^TL431[AB]/u, 'reference-tl431-graded'],
  [/^TL431/u, 'reference-tl431'],
  [/^LM4040[AB]/u, 'reference-lm4040-ab'],
  [/^LM4040/u, 'reference-lm4040-cd'],
  [/^LM385/u, 'reference-lm385'],
  [/^LM336/u, 'reference-lm336'],
]

/** Least K/W of each class of heatsink. */
const HEATSINKS = [
  ['heatsink-clip', 15],
  ['heatsink-10k', 9],
  ['heatsink-5k', 4],
  ['heatsink-2k', 1.5],
  ['heatsink-1k', 0],
] as const

const named = (list: readonly (readonly [RegExp, PriceName])[], partNumber: string): PriceName | undefined =>
  list.find(([pattern]) => pattern.test(partNumber))?.[1]

/** Undefined where the lists have no line for it. */
export function kindOf(found: FoundPart): Kind | undefined {
  switch (found.family) {
    case 'resistor':
      return resistorKind(found.row)
    case 'capacitor':
      return capacitorKind(found.row)
    case 'reference-diode':
      return DIODES[found.row.family]
    case 'heatsink': {
      const [name] = HEATSINKS.find(([, least]) => found.row.thermalResistance >= least)!
      return { price: name, area: name }
    }
    default: {
      const { partNumber, package: housing } = found.row
      const area = PACKAGES[housing]
      const price =
        found.family === 'transistor'
          ? transistorPrice(found.row)
          : named(found.family === 'op-amp' ? AMPLIFIERS : REFERENCES, partNumber)
      return area && price ? { price, area } : undefined
    }
  }
}
