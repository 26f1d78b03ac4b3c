/** The shunt references of the catalogue: published numbers, each sheet once, each grade and package a row. */
import type { RowMounting } from '../define.ts'
import type { ReferenceRow } from './row.ts'

const SOURCES = {
  motorola: 'Motorola TL431/D; copy at github.com/DeniseViltes/dce-g5-proyecto_integrador Datasheets/TL431.PDF',
  ti: 'TI SLVS543S May 2024; copy at github.com/DeniseViltes/dce-g5-proyecto_integrador Datasheets/TL431 Larga.pdf',
  lm4040: 'TI SLOS456P Mar 2025; copy at github.com/SamcraftSam/laserboard datasheets/lm4040.pdf',
  lm385: 'onsemi LM285/D Rev.4 Apr 2003; copy at github.com/miguel9554/dce-pfinal docs/datasheets/lm385.pdf',
  lm336: 'TI SNVS749F Apr 2013; copy at github.com/retroparla/pingpong datasheets/lm336-2.5-n.pdf',
} as const

interface PackageOption {
  readonly suffix: string
  readonly package: string
  readonly mounting: RowMounting
  readonly thermalResistance: number
  readonly memoryFields?: readonly string[]
}

type Shared = Omit<ReferenceRow, 'partNumber' | 'package' | 'mounting' | 'thermalResistance' | 'vref' | 'note'>

/** One grade in each of its packages; `name` places the package's suffix. */
function grade(
  shared: Shared,
  vref: ReferenceRow['vref'],
  packages: readonly PackageOption[],
  name: (suffix: string) => string,
  note: string,
): ReferenceRow[] {
  return packages.map(({ suffix, memoryFields = [], ...option }) => ({
    ...shared,
    ...option,
    partNumber: name(suffix),
    vref,
    memoryFields: [...shared.memoryFields, ...memoryFields],
    note,
  }))
}

const TL431_FIXED = {
  adjustable: true,
  testCurrent: 0.01,
  cathodeCurrentMax: 0.1,
  cathodeVoltageMax: 36,
  cathodeEffect: { typ: 0.0014, max: 0.0027 },
  saturation: 1.8,
  junctionMax: 150,
  ambient: { min: 0, max: 70 },
  confidence: 'read',
} as const

const TL431_NOTE =
  'absolute maximum 37 V and 150 mA; cathode effect 1.4 typical, 2.7 mV/V at most up to 10 V, less above; a cathode capacitance of roughly 10 nF to 10 uF can oscillate: check the stability plot of the sheet; saturation voltage from memory'

const motorola = (impedance: Shared['impedance'], refCurrent: Shared['refCurrent']): Shared => ({
  ...TL431_FIXED,
  // 3 mV typical, 17 mV at most over 0 to 70 degC
  tempco: { typ: 1.71772e-5, max: 9.734e-5 },
  impedance,
  refCurrent,
  cathodeCurrentMin: { typ: 0.0005, max: 0.001 },
  source: SOURCES.motorola,
  memoryFields: ['tempco.max', 'saturation', 'junctionMax'],
})

const MOTOROLA_PACKAGES: readonly PackageOption[] = [
  { suffix: 'LP', package: 'TO-92', mounting: 'through-hole', thermalResistance: 178 },
  { suffix: 'D', package: 'SOIC-8', mounting: 'surface-mount', thermalResistance: 178 },
]

const ti = (cathodeMinimum: number, memoryFields: readonly string[]): Shared => ({
  ...TL431_FIXED,
  // 6 mV typical, 16 mV at most over 0 to 70 degC
  tempco: { typ: 3.4354e-5, max: 9.161e-5 },
  impedance: { typ: 0.2, max: 0.5 },
  refCurrent: { typ: 2e-6, max: 4e-6 },
  cathodeCurrentMin: { typ: 0.0004, max: cathodeMinimum },
  source: SOURCES.ti,
  memoryFields: ['tempco', 'impedance', 'cathodeEffect.typ', 'saturation', 'junctionMax', ...memoryFields],
})

const TI_PACKAGES: readonly PackageOption[] = [
  { suffix: 'LP', package: 'TO-92', mounting: 'through-hole', thermalResistance: 140 },
  { suffix: 'DBZ', package: 'SOT-23', mounting: 'surface-mount', thermalResistance: 206 },
]

const LM4040_PACKAGES: readonly PackageOption[] = [
  { suffix: 'IDBZ', package: 'SOT-23', mounting: 'surface-mount', thermalResistance: 206 },
  {
    suffix: 'ILP',
    package: 'TO-92',
    mounting: 'through-hole',
    thermalResistance: 140,
    memoryFields: ['package', 'thermalResistance'],
  },
]

const TWO_TERMINAL = {
  adjustable: false,
  refCurrent: { typ: 0, max: 0 },
  cathodeEffect: { typ: 0, max: 0 },
  saturation: 0,
  confidence: 'read',
} as const

/** [grade, minimum, maximum, tempco maximum, impedance maximum] */
type Lm4040Grade = readonly [string, number, number, number, number]

function lm4040(
  code: string,
  nominal: number,
  common: Pick<Shared, 'cathodeCurrentMin'> & { tempco: number; impedance: number; hot: string },
  grades: readonly Lm4040Grade[],
): ReferenceRow[] {
  return grades.flatMap(([letter, min, max, tempco, impedance]) =>
    grade(
      {
        ...TWO_TERMINAL,
        testCurrent: 100e-6,
        tempco: { typ: common.tempco, max: tempco },
        impedance: { typ: common.impedance, max: impedance },
        cathodeCurrentMin: common.cathodeCurrentMin,
        cathodeCurrentMax: 0.015,
        cathodeVoltageMax: nominal,
        junctionMax: 150,
        ambient: { min: -40, max: 85 },
        source: SOURCES.lm4040,
        memoryFields: ['junctionMax'],
      },
      { nominal, min, max },
      LM4040_PACKAGES,
      (suffix) => `LM4040${letter}${code}${suffix}`,
      `the minimum cathode current is that at 25 degC; ${common.hot} over the full range; absolute maximum 25 mA`,
    ),
  )
}

const LM385_PACKAGES: readonly PackageOption[] = [
  { suffix: 'Z', package: 'TO-92', mounting: 'through-hole', thermalResistance: 180 },
  { suffix: 'D', package: 'SOIC-8', mounting: 'surface-mount', thermalResistance: 180 },
]

function lm385(
  code: string,
  nominal: number,
  cathodeCurrentMin: Shared['cathodeCurrentMin'],
  grades: readonly (readonly [string, number, number])[],
): ReferenceRow[] {
  return grades.flatMap(([letter, min, max]) =>
    grade(
      {
        ...TWO_TERMINAL,
        testCurrent: 100e-6,
        tempco: { typ: 8e-5, max: 1.5e-4 },
        impedance: { typ: 0.6, max: 1.5 },
        cathodeCurrentMin,
        cathodeCurrentMax: 0.02,
        cathodeVoltageMax: nominal,
        junctionMax: 125,
        ambient: { min: 0, max: 70 },
        source: SOURCES.lm385,
        memoryFields: ['tempco.max', 'impedance.max', 'thermalResistance', 'junctionMax', 'testCurrent'],
      },
      { nominal, min, max },
      LM385_PACKAGES,
      (suffix) => `LM385${letter}${suffix}-${code}`,
      'absolute maximum 30 mA; impedance at 100 uA; changes by at most 20 mV from 1 to 20 mA',
    ),
  )
}

const lm336 = (letter: string, min: number, max: number): ReferenceRow[] =>
  grade(
    {
      ...TWO_TERMINAL,
      testCurrent: 0.001,
      // 1.8 mV typical, 6 mV at most over 0 to 70 degC, trimmed to 2.490 V
      tempco: { typ: 1.0327e-5, max: 3.442e-5 },
      impedance: { typ: 0.2, max: 1 },
      cathodeCurrentMin: { typ: 0.0002, max: 0.0004 },
      cathodeCurrentMax: 0.01,
      cathodeVoltageMax: 2.49,
      junctionMax: 100,
      ambient: { min: 0, max: 70 },
      source: SOURCES.lm336,
      memoryFields: ['tempco.max', 'cathodeCurrentMin.typ', 'testCurrent'],
    },
    { nominal: 2.49, min, max },
    [{ suffix: 'Z', package: 'TO-92', mounting: 'through-hole', thermalResistance: 180 }],
    (suffix) => `LM336${letter}${suffix}-2.5`,
    'absolute maximum 15 mA; changes by 2.6 typical, 10 mV at most from 0.4 to 10 mA; the tempco holds trimmed to 2.490 V, here the trim pin is open; the typical minimum current is an assumption',
  )

export const REFERENCES: readonly ReferenceRow[] = [
  ...grade(
    motorola({ typ: 0.22, max: 0.5 }, { typ: 1.8e-6, max: 4e-6 }),
    { nominal: 2.495, min: 2.44, max: 2.55 },
    MOTOROLA_PACKAGES,
    (suffix) => `TL431C${suffix}`,
    TL431_NOTE,
  ),
  ...grade(
    motorola({ typ: 0.22, max: 0.5 }, { typ: 1.8e-6, max: 4e-6 }),
    { nominal: 2.495, min: 2.47, max: 2.52 },
    MOTOROLA_PACKAGES,
    (suffix) => `TL431AC${suffix}`,
    TL431_NOTE,
  ),
  ...grade(
    motorola({ typ: 0.14, max: 0.3 }, { typ: 1.1e-6, max: 2e-6 }),
    { nominal: 2.495, min: 2.483, max: 2.507 },
    MOTOROLA_PACKAGES,
    (suffix) => `TL431BC${suffix}`,
    TL431_NOTE,
  ),
  ...grade(
    ti(0.001, []),
    { nominal: 2.495, min: 2.44, max: 2.55 },
    TI_PACKAGES,
    (suffix) => `TL431C${suffix} (TI)`,
    TL431_NOTE,
  ),
  ...grade(
    ti(0.0006, ['ambient']),
    { nominal: 2.495, min: 2.47, max: 2.52 },
    TI_PACKAGES,
    (suffix) => `TL431AC${suffix} (TI)`,
    `${TL431_NOTE}; 0.7 mA for the wider temperature grades`,
  ),
  ...lm4040(
    '25',
    2.5,
    { cathodeCurrentMin: { typ: 4.5e-5, max: 7.5e-5 }, tempco: 1.5e-5, impedance: 0.3, hot: '80 uA' },
    [
      ['A', 2.4975, 2.5025, 1e-4, 0.8],
      ['B', 2.495, 2.505, 1e-4, 0.8],
      ['C', 2.488, 2.512, 1e-4, 0.9],
      ['D', 2.475, 2.525, 1.5e-4, 1.1],
    ],
  ),
  ...lm4040(
    '41',
    4.096,
    { cathodeCurrentMin: { typ: 5e-5, max: 8.3e-5 }, tempco: 2e-5, impedance: 0.5, hot: '88 uA' },
    [
      ['A', 4.0919, 4.1001, 1e-4, 1],
      ['B', 4.0878, 4.1042, 1e-4, 1],
      ['C', 4.076, 4.116, 1e-4, 1],
      ['D', 4.055, 4.137, 1.5e-4, 1.3],
    ],
  ),
  ...lm4040('50', 5, { cathodeCurrentMin: { typ: 6.5e-5, max: 8.9e-5 }, tempco: 2e-5, impedance: 0.5, hot: '95 uA' }, [
    ['A', 4.995, 5.005, 1e-4, 1.1],
    ['B', 4.99, 5.01, 1e-4, 1.1],
    ['C', 4.975, 5.025, 1e-4, 1.1],
    ['D', 4.95, 5.05, 1.5e-4, 1.5],
  ]),
  ...lm385('1.2', 1.235, { typ: 8e-6, max: 1.5e-5 }, [
    ['', 1.205, 1.26],
    ['B', 1.223, 1.247],
  ]),
  ...lm385('2.5', 2.5, { typ: 1.3e-5, max: 2e-5 }, [
    ['', 2.425, 2.575],
    ['B', 2.462, 2.538],
  ]),
  ...lm336('', 2.39, 2.59),
  ...lm336('B', 2.44, 2.54),
]
