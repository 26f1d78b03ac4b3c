/** The operational amplifiers of the catalogue: each sheet once, each package a row. */
import { fromDecibels } from '../../units/index.ts'
import type { RowMounting } from '../define.ts'
import type { AmplifierRow } from './row.ts'

type Sheet = Omit<AmplifierRow, 'partNumber' | 'package' | 'mounting' | 'thermalResistance' | 'channels'>

type PackageOption = readonly [
  partNumber: string,
  channels: number,
  housing: string,
  mounting: RowMounting,
  thermalResistance: number,
  memoryFields?: readonly string[],
]

const SOURCES = {
  lm358: 'TI SLOS068AA Mar 2022; copy at github.com/LuSeKa/SimpleSensoredBldcController datasheets/lm358.pdf',
  lm324: 'TI SLOS066AB Nov 2023; copy at github.com/LuSeKa/SimpleSensoredBldcController datasheets/lm324.pdf',
  mc3317x: 'Motorola/onsemi MC33171/D, from memory',
  tlc271: 'TI SLOS090, from memory',
  tlc272: 'TI SLOS091, from memory',
  mcp6001: 'Microchip DS21733 (MCP6001/1R/1U/2/4); copy at github.com/kotecki/ECE342 DataSheets/MCP6001.pdf',
  opa277: 'TI OPA277/2277/4277; copy at github.com/kotecki/ECE342 DataSheets/opa277.pdf',
} as const

/** Fields that no read row was read with. */
const FROM_MEMORY = ['supplyRejection', 'commonModeRejection', 'testSupply', 'testCommonMode', 'junctionMax'] as const
const THERMAL = ['thermalResistance'] as const

// Microvolts of offset per volt, as the newer sheets print rejection, to a ratio.
const perMicrovolt = (microvolts: number): number => 1e6 / microvolts

// The B grades publish typical points while sourcing; the older grades have the same output stage and print limits alone.
const LM358_SWING = [
  { current: 50e-6, drop: 1.35 },
  { current: 0.005, drop: 1.5 },
]

const LM358: Sheet = {
  supply: { min: 3, max: 30 },
  offset: { max25: 0.007, max: 0.009, drift: 7e-6 },
  bias: { typ: 2e-8, max: 2.5e-7 },
  gain: { typ: 1e5, min: 25e3 },
  supplyRejection: { typ: fromDecibels(100), min: fromDecibels(65) },
  commonModeRejection: { typ: fromDecibels(80), min: fromDecibels(65) },
  testSupply: 5,
  testCommonMode: 0,
  inputRange: { low: 0, high: 2 },
  // 3 V below a 30 V rail in the worst part
  swingHigh: { points: LM358_SWING, worst: 1.5 },
  swingLow: { typ: 0.005, max: 0.02 },
  output: { source: { typ: 0.03, min: 0.02 }, sink: { typ: 0.02, min: 0.01 } },
  quiescent: { typ: 0.00035, max: 0.0006 },
  outputResistance: 300,
  gainBandwidth: 0.7e6,
  slewRate: 0.3e6,
  junctionMax: 150,
  ambient: { min: 0, max: 70 },
  source: SOURCES.lm358,
  confidence: 'read',
  memoryFields: [...FROM_MEMORY, 'swingHigh.points'],
  note: 'inputs reach 1.5 V below the positive rail at 25 degC, 2.0 V over temperature; typical swing points of the B grade, whose output stage it shares; output resistance of the B grade; supply current is per amplifier in this sheet, of both in older ones; sinks no more than 50 uA within 0.1 V of the negative rail',
}

const LM358B: Sheet = {
  ...LM358,
  supply: { min: 3, max: 36 },
  offset: { max25: 0.003, max: 0.004, drift: 3.5e-6 },
  bias: { typ: 1e-8, max: 3.5e-8 },
  gain: { typ: 140e3, min: 70e3 },
  supplyRejection: { typ: perMicrovolt(2), min: perMicrovolt(15) },
  commonModeRejection: { typ: perMicrovolt(20), min: perMicrovolt(100) },
  testCommonMode: 2.5,
  // 1.61 V at 5 mA in the worst part
  swingHigh: { points: LM358_SWING, worst: 0.11 },
  quiescent: { typ: 0.0003, max: 0.00046 },
  gainBandwidth: 1.2e6,
  slewRate: 0.5e6,
  ambient: { min: -40, max: 85 },
  memoryFields: [...FROM_MEMORY, 'swingHigh.worst', 'inputRange.high', 'output.source.min', 'output.sink.min'],
  note: 'sinks 50 uA within 0.1 V and 1 mA within 0.75 V of the negative rail; the catalogue lists DIP-8 beside SOIC-8, which distributors may not stock: check before ordering',
}

const LM2904: Sheet = {
  ...LM358,
  supply: { min: 3, max: 26 },
  offset: { max25: 0.007, max: 0.01, drift: 7e-6 },
  commonModeRejection: { typ: fromDecibels(80), min: fromDecibels(50) },
  ambient: { min: -40, max: 125 },
  memoryFields: [...FROM_MEMORY, 'swingHigh', 'output', 'gain', 'bias', 'outputResistance'],
  note: 'V grades to 32 V; typical swing points and output resistance of the LM358B, whose output stage it shares; minimum gain of the LM358',
}

const LM324: Sheet = {
  ...LM358,
  quiescent: { typ: 0.000175, max: 0.0003 },
  gainBandwidth: 1.2e6,
  slewRate: 0.5e6,
  source: SOURCES.lm324,
  note: 'supply current of four divided by four; bandwidth, slew rate and output resistance of the B grade; typical swing points of the B grade',
}

const LM324B: Sheet = {
  ...LM358B,
  offset: { max25: 0.003, max: 0.004, drift: 7e-6 },
  gain: { typ: 1e5, min: 50e3 },
  quiescent: { typ: 0.00024, max: 0.0003 },
  source: SOURCES.lm324,
  memoryFields: [...LM358B.memoryFields, 'offset', 'bias', 'output.source'],
  note: 'offset over temperature and typical bias as of the LM358B; sinks 50 uA within 0.1 V and 1 mA within 0.75 V of the negative rail',
}

const MC3317X: Sheet = {
  supply: { min: 3, max: 44 },
  offset: { max25: 0.0045, max: 0.0065, drift: 1e-5 },
  bias: { typ: 2e-8, max: 1e-7 },
  gain: { typ: 5e5, min: 5e4 },
  supplyRejection: { typ: fromDecibels(100), min: fromDecibels(80) },
  commonModeRejection: { typ: fromDecibels(90), min: fromDecibels(80) },
  testSupply: 30,
  testCommonMode: 15,
  inputRange: { low: 0, high: 1.8 },
  swingHigh: { points: [{ current: 0.00042, drop: 0.8 }], worst: 0.7 },
  swingLow: { typ: 0.05, max: 0.15 },
  output: { source: { typ: 0.005, min: 0.003 }, sink: { typ: 0.015, min: 0.01 } },
  quiescent: { typ: 0.00018, max: 0.00025 },
  outputResistance: 100,
  gainBandwidth: 1.8e6,
  slewRate: 2.1e6,
  junctionMax: 150,
  ambient: { min: -40, max: 85 },
  source: SOURCES.mc3317x,
  confidence: 'memory',
  memoryFields: [],
  note: 'swing at a 5 V supply into 10k',
}

const TLC271: Sheet = {
  supply: { min: 3, max: 16 },
  offset: { max25: 0.01, max: 0.012, drift: 1.8e-6 },
  bias: { typ: 6e-13, max: 6e-11 },
  gain: { typ: 23e3, min: 5e3 },
  supplyRejection: { typ: fromDecibels(95), min: fromDecibels(65) },
  commonModeRejection: { typ: fromDecibels(80), min: fromDecibels(65) },
  testSupply: 5,
  testCommonMode: 0,
  inputRange: { low: -0.2, high: 1 },
  swingHigh: { points: [{ current: 0.00038, drop: 1.2 }], worst: 0.6 },
  swingLow: { typ: 0, max: 0.05 },
  output: { source: { typ: 0.005, min: 0.003 }, sink: { typ: 0.01, min: 0.005 } },
  quiescent: { typ: 0.000675, max: 0.0016 },
  outputResistance: 150,
  gainBandwidth: 1.7e6,
  slewRate: 3.6e6,
  junctionMax: 150,
  ambient: { min: 0, max: 70 },
  source: SOURCES.tlc271,
  confidence: 'memory',
  memoryFields: [],
  note: 'high-bias mode; plain grade (A and B grades have 5 and 2 mV of offset); bias maximum of a hot part; output currents and output resistance are assumptions',
}

const MCP6001: Sheet = {
  supply: { min: 1.8, max: 6 },
  // 4.5 mV at 25 degC and 2 uV/K over 100 K
  offset: { max25: 0.0045, max: 0.0047, drift: 2e-6 },
  bias: { typ: 1e-12, max: 1.1e-9 },
  gain: { typ: 4e5, min: 25e3 },
  supplyRejection: { typ: fromDecibels(86), min: fromDecibels(70) },
  commonModeRejection: { typ: fromDecibels(76), min: fromDecibels(60) },
  testSupply: 5,
  testCommonMode: 0,
  inputRange: { low: -0.3, high: -0.3 },
  swingHigh: { points: [{ current: 0.000275, drop: 0.025 }], worst: 0.025 },
  swingLow: { typ: 0, max: 0.025 },
  output: { source: { typ: 0.006, min: 0.004 }, sink: { typ: 0.006, min: 0.004 } },
  quiescent: { typ: 0.0001, max: 0.00017 },
  outputResistance: 90,
  gainBandwidth: 1e6,
  slewRate: 0.6e6,
  junctionMax: 150,
  ambient: { min: -40, max: 125 },
  source: SOURCES.mcp6001,
  confidence: 'read',
  memoryFields: [...FROM_MEMORY, 'offset.max', 'bias.max', 'outputResistance', 'output.source.min', 'output.sink.min'],
  note: 'for rails up to 6 V alone; short-circuit current 6 mA at 1.8 V is taken throughout (23 mA at 5.5 V from memory); offset over temperature computed from drift',
}

const OPA277: Sheet = {
  supply: { min: 4, max: 36 },
  offset: { max25: 0.0001, max: 0.000165, drift: 1.5e-7 },
  bias: { typ: 5e-10, max: 2.8e-9 },
  gain: { typ: 5e6, min: 5e5 },
  supplyRejection: { typ: perMicrovolt(0.3), min: perMicrovolt(1) },
  commonModeRejection: { typ: fromDecibels(140), min: fromDecibels(115) },
  testSupply: 30,
  testCommonMode: 15,
  inputRange: { low: 2, high: 2 },
  swingHigh: {
    points: [
      { current: 0.0014, drop: 1.2 },
      { current: 0.0068, drop: 1.5 },
    ],
    worst: 0.1,
  },
  swingLow: { typ: 0.5, max: 1.5 },
  output: { source: { typ: 0.035, min: 0.02 }, sink: { typ: 0.035, min: 0.02 } },
  quiescent: { typ: 0.00079, max: 0.000825 },
  outputResistance: 40,
  gainBandwidth: 1e6,
  slewRate: 0.8e6,
  junctionMax: 150,
  ambient: { min: -40, max: 85 },
  source: SOURCES.opa277,
  confidence: 'read',
  memoryFields: [...FROM_MEMORY, 'offset.max', 'offset.drift', 'bias', 'gain', 'output.source.min', 'output.sink.min'],
  note: 'its inputs do not reach the negative rail; A grade; the published swing limits are taken as typical',
}

function packages(sheet: Sheet, options: readonly PackageOption[]): AmplifierRow[] {
  return options.map(([partNumber, channels, housing, mounting, thermalResistance, memoryFields = []]) => ({
    ...sheet,
    partNumber,
    channels,
    package: housing,
    mounting,
    thermalResistance,
    memoryFields: [...sheet.memoryFields, ...memoryFields],
  }))
}

export const AMPLIFIERS: readonly AmplifierRow[] = [
  ...packages(LM358, [
    ['LM358P', 2, 'DIP-8', 'through-hole', 80.9],
    ['LM358D', 2, 'SOIC-8', 'surface-mount', 124.7],
  ]),
  ...packages(LM358B, [
    ['LM358BP', 2, 'DIP-8', 'through-hole', 80.9],
    ['LM358BID', 2, 'SOIC-8', 'surface-mount', 124.7],
  ]),
  ...packages(LM2904, [
    ['LM2904P', 2, 'DIP-8', 'through-hole', 80.9],
    ['LM2904D', 2, 'SOIC-8', 'surface-mount', 124.7],
  ]),
  ...packages(LM324, [
    ['LM324N', 4, 'DIP-14', 'through-hole', 66, THERMAL],
    ['LM324D', 4, 'SOIC-14', 'surface-mount', 90, THERMAL],
  ]),
  ...packages(LM324B, [['LM324BID', 4, 'SOIC-14', 'surface-mount', 90, THERMAL]]),
  ...packages(MC3317X, [
    ['MC33171P', 1, 'DIP-8', 'through-hole', 100],
    ['MC33171D', 1, 'SOIC-8', 'surface-mount', 180],
    ['MC33172P', 2, 'DIP-8', 'through-hole', 100],
    ['MC33172D', 2, 'SOIC-8', 'surface-mount', 180],
  ]),
  ...packages(TLC271, [
    ['TLC271CP', 1, 'DIP-8', 'through-hole', 85],
    ['TLC271CD', 1, 'SOIC-8', 'surface-mount', 97],
  ]),
  ...packages({ ...TLC271, quiescent: { typ: 0.0007, max: 0.0016 }, source: SOURCES.tlc272 }, [
    ['TLC272CP', 2, 'DIP-8', 'through-hole', 85],
    ['TLC272CD', 2, 'SOIC-8', 'surface-mount', 97],
  ]),
  ...packages(MCP6001, [
    ['MCP6001T-I/OT', 1, 'SOT-23-5', 'surface-mount', 256, THERMAL],
    ['MCP6002-I/P', 2, 'DIP-8', 'through-hole', 85, THERMAL],
    ['MCP6002-I/SN', 2, 'SOIC-8', 'surface-mount', 163, THERMAL],
  ]),
  ...packages(OPA277, [
    ['OPA277PA', 1, 'DIP-8', 'through-hole', 100, THERMAL],
    ['OPA277UA', 1, 'SOIC-8', 'surface-mount', 150, THERMAL],
  ]),
]
