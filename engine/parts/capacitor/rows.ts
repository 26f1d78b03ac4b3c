/** The capacitors of the catalogue, made from their published tables. */
import { formatQuantity } from '../../units/index.ts'
import type { CapacitorRow } from './row.ts'
import { PW } from './pwTable.ts'

/** Makers print maxima; a typical ESR is about half of it. Common practice, no source. */
const TYPICAL_ESR = 0.5

const label = (series: string, farads: number, voltage: number): string =>
  `${series} ${formatQuantity(farads, 'F')} ${formatQuantity(voltage, 'V', 2)}`

/** ESR of a loss tangent at a frequency in hertz: tan(delta)/(2 pi f C). */
const esrOf = (tangent: number, frequency: number, farads: number): number =>
  tangent / (2 * Math.PI * frequency * farads)

const lowImpedance = PW.map(
  ([farads, voltage, impedance, impedanceCold, rippleCurrent, life, diameter, length]): CapacitorRow => ({
    partNumber: label('Nichicon PW', farads, voltage),
    kind: 'electrolytic',
    package: `radial ${diameter * 1e3} x ${length * 1e3} mm`,
    mounting: 'through-hole',
    farads,
    voltage,
    tolerance: 0.2,
    esr: TYPICAL_ESR * impedance,
    esrMax: impedance,
    esrCold: { ohms: impedanceCold, temperature: -10 },
    rippleCurrent,
    temperatureMax: 105,
    source: 'Nichicon PW series; copy at github.com/tristanluther28/ResiStore datasheets/electrolytic.pdf',
    confidence: 'read',
    memoryFields: [],
    note: `ESR is the impedance maximum at 100 kHz, half of it typical (assumption); ${life} h at 105 degC; columns rebuilt from text positions; first listed case size alone`,
  }),
)

/** Loss tangent maximum at 120 Hz up to 1000 uF by rated voltage, and the ratio of the impedances at -25 and 20 degC. */
const URZ: readonly (readonly [voltage: number, tangent: number, coldRatio: number])[] = [
  [6.3, 0.28, 5],
  [10, 0.24, 4],
  [16, 0.2, 3],
  [25, 0.16, 2],
  [35, 0.14, 2],
  [50, 0.12, 2],
  [63, 0.1, 2],
  [100, 0.08, 2],
]
/** Farads, and what is added to the tangent: 0.02 for every 1000 uF begun above the first. */
const URZ_VALUES: readonly (readonly [farads: number, more: number])[] = [
  [10e-6, 0],
  [22e-6, 0],
  [47e-6, 0],
  [100e-6, 0],
  [220e-6, 0],
  [470e-6, 0],
  [1000e-6, 0],
  [2200e-6, 0.04],
  [4700e-6, 0.08],
]

const generalPurpose = URZ.flatMap(([voltage, tangent, coldRatio]) =>
  URZ_VALUES.map(([farads, more]): CapacitorRow => {
    const esrMax = esrOf(tangent + more, 120, farads)
    return {
      partNumber: label('Nichicon URZ', farads, voltage),
      kind: 'electrolytic',
      package: 'radial',
      mounting: 'through-hole',
      farads,
      voltage,
      tolerance: 0.2,
      esr: TYPICAL_ESR * esrMax,
      esrMax,
      esrCold: { ohms: coldRatio * esrMax, temperature: -25 },
      temperatureMax: 105,
      source: 'Nichicon URZ series; copy at github.com/drkmsmithjr/Analog15TimerForBWMTrunkLight datasheets/e-urz.pdf',
      confidence: 'read',
      memoryFields: [],
      note: 'ESR computed from the loss tangent maximum at 120 Hz, half of it typical (assumption); 1000 h at 105 degC; that every pair of value and voltage is made was not checked',
    }
  }),
)

const XK_SOURCE = 'Nichicon XK polyester film; copy at github.com/tristanluther28/ResiStore datasheets/filmcap.pdf'
const MKT_SOURCE = 'generic metallized polyester, 5 mm pitch, from memory'

const film = (
  [
    [
      'Nichicon XK',
      [250, 400, 630],
      0.008,
      XK_SOURCE,
      'read',
      'rated at 85 degC; made from 0.01 to 10 uF, these values stand for the range',
    ],
    ['polyester 5 mm', [50, 63, 100], 0.01, MKT_SOURCE, 'memory', 'class values'],
  ] as const
).flatMap(([series, voltages, tangent, source, confidence, note]) =>
  voltages.flatMap((voltage) =>
    [10e-9, 100e-9, 1e-6].map((farads): CapacitorRow => {
      const esrMax = esrOf(tangent, 100e3, farads)
      return {
        partNumber: label(series, farads, voltage),
        kind: 'film',
        package: 'radial box',
        mounting: 'through-hole',
        farads,
        voltage,
        tolerance: 0.1,
        esr: TYPICAL_ESR * esrMax,
        esrMax,
        temperatureMax: 105,
        source,
        confidence,
        memoryFields: ['esr', 'esrMax'],
        note: `ESR with the loss tangent of 1 kHz taken at 100 kHz, half of it typical (assumption); ${note}`,
      }
    }),
  ),
)

/** Size, farads, volts, share lost at half and at full rated voltage. */
const X7R: readonly (readonly [string, number, number, number, number])[] = [
  ['0603', 100e-9, 50, 0.05, 0.09],
  ['0603', 1e-6, 25, 0.45, 0.81],
  ['0805', 100e-9, 50, 0.02, 0.03],
  ['0805', 1e-6, 50, 0.35, 0.62],
  ['0805', 10e-6, 25, 0.65, 0.85],
  ['1206', 1e-6, 50, 0.15, 0.27],
  ['1206', 10e-6, 25, 0.55, 0.85],
  ['1210', 10e-6, 50, 0.5, 0.85],
  ['1210', 22e-6, 25, 0.6, 0.85],
]

const class2 = X7R.map(([size, farads, voltage, half, full]): CapacitorRow => ({
  partNumber: label(`X7R ${size}`, farads, voltage),
  kind: 'class-2-ceramic',
  package: size,
  mounting: 'surface-mount',
  farads,
  voltage,
  tolerance: 0.1,
  esr: 0.01,
  esrMax: 0.02,
  biasLoss: { half, full },
  temperatureMax: 125,
  source: 'generic multilayer ceramic, from memory; X7R within 15 % from -55 to 125 degC (EIA-198)',
  confidence: 'memory',
  memoryFields: [],
  note: 'loss of capacitance with DC voltage is an assumption and differs by part; ESR 5 to 20 mohm at 100 kHz',
}))

/** Farads, package, mounting. Leaded ones beside the chips, or a through-hole board would have no small capacitor at all. */
const C0G = [
  [100e-12, '0603', 'surface-mount'],
  [1e-9, '0603', 'surface-mount'],
  [10e-9, '0805', 'surface-mount'],
  [100e-12, 'radial 5 mm', 'through-hole'],
  [1e-9, 'radial 5 mm', 'through-hole'],
  [10e-9, 'radial 5 mm', 'through-hole'],
] as const

const class1 = C0G.map(([farads, housing, mounting]): CapacitorRow => {
  const esrMax = esrOf(0.001, 1e6, farads)
  return {
    partNumber: label(`C0G ${housing}`, farads, 50),
    kind: 'class-1-ceramic',
    package: housing,
    mounting,
    farads,
    voltage: 50,
    tolerance: 0.05,
    esr: TYPICAL_ESR * esrMax,
    esrMax,
    temperatureMax: 125,
    source: 'generic ceramic, from memory; C0G within 30 ppm/K (EIA-198)',
    confidence: 'memory',
    memoryFields: [],
    note: 'no loss with DC voltage; ESR from a loss tangent of 0.001 at 1 MHz, half of it typical (assumption)',
  }
})

/** Farads, volts, ESR maximum at 100 kHz. */
const TANTALUM: readonly (readonly [number, number, number])[] = [
  [10e-6, 16, 3],
  [22e-6, 16, 2],
  [47e-6, 16, 1],
  [10e-6, 25, 2],
  [100e-6, 10, 0.9],
]

const tantalum = TANTALUM.map(([farads, voltage, esrMax]): CapacitorRow => ({
  partNumber: label('tantalum MnO2', farads, voltage),
  kind: 'tantalum',
  package: 'SMD, moulded',
  mounting: 'surface-mount',
  farads,
  voltage,
  tolerance: 0.1,
  esr: TYPICAL_ESR * esrMax,
  esrMax,
  temperatureMax: 125,
  source: 'generic solid tantalum, from memory',
  confidence: 'memory',
  memoryFields: [],
  note: 'ESR maximum at 100 kHz, half of it typical (assumption); no more than half of the rated voltage on a rail of low impedance',
}))

export const CAPACITORS: readonly CapacitorRow[] = [
  ...class1,
  ...class2,
  ...film,
  ...generalPurpose,
  ...lowImpedance,
  ...tantalum,
]
