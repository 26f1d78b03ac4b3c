/** The shape of the published numbers in `rows.ts`, and what the sheets say once for a whole family. */
import type { Confidence, RowMounting } from '../define.ts'
import type { SOURCES } from './rows.ts'

/**
 * One line of a data sheet: part number; Vz nominal, minimum, maximum in V; IZT in A, ZZT maximum in ohm; IZK in A, ZZK
 * maximum in ohm; IR maximum in A at VR in V; IZM in A; tempco of Vz minimum, typical, maximum in 1/K, null where the
 * sheet leaves it blank.
 */
export type PublishedDiode = readonly [
  partNumber: string,
  nominal: number,
  min: number,
  max: number,
  testCurrent: number,
  testImpedance: number,
  kneeCurrent: number,
  kneeImpedance: number,
  leakage: number,
  leakageVoltage: number,
  currentMax: number,
  tempcoMin: number | null,
  tempcoTyp: number | null,
  tempcoMax: number | null,
]

/** Lines of one sheet that share how they were read. `notes` holds remarks on single lines, by part number. */
export interface DiodeBlock {
  readonly family: DiodeFamily
  readonly source: keyof typeof SOURCES
  readonly confidence: Confidence
  readonly memoryFields: readonly string[]
  readonly note: string
  readonly rows: readonly PublishedDiode[]
  readonly notes: Readonly<Record<string, string>>
}

export type DiodeFamily =
  | '1N52xxB'
  | 'BZX55C'
  | 'BZX79C'
  | 'MMSZ52xxB'
  | '1N47xxA'
  | '1N59xxB'
  | '1N53xxB'
  | '1SMA59xxB'
  | '1SMB59xxB'

/** What holds for every part number of a family. Watts, kelvin per watt, degrees Celsius. */
export interface FamilyRatings {
  readonly package: string
  readonly mounting: RowMounting
  /** The headline rating, where it is taken, and the temperature from which it falls by `slope` watts per kelvin. */
  readonly power: number
  readonly powerWhere: string
  readonly derateFrom: number
  readonly slope: number
  /** Junction to ambient in still air on a board. */
  readonly thermalResistance: number
  readonly junctionMax: number
  /**
   * How the sheet's Vz was measured. `pulsed`: too briefly to warm up, so it holds at 25 degC junction. `equilibrium`: warmed
   * up with the leads held at `lead` degC, `junctionToLead` K/W away.
   */
  readonly measured: 'pulsed' | { readonly lead: number; readonly junctionToLead: number }
  readonly measuredNote: string
  /** Fields of this record that were not seen in the source, by the names that a row gives them. */
  readonly memoryFields: readonly string[]
}

const LEADS_AT_30 = 'Vz taken in thermal equilibrium with the leads at 30 degC (condition from memory of the sheet)'

/** Ratings by family; sources as in `SOURCES`, except where the notes say from memory. */
export const FAMILIES: Readonly<Record<DiodeFamily, FamilyRatings>> = {
  '1N52xxB': {
    package: 'DO-35',
    mounting: 'through-hole',
    power: 0.5,
    powerWhere: 'ambient',
    derateFrom: 50,
    slope: 0.004,
    thermalResistance: 300,
    junctionMax: 200,
    // No junction-to-lead figure is printed; 1/(4 mW/K) is what the derating slope implies.
    measured: { lead: 30, junctionToLead: 250 },
    measuredNote: `${LEADS_AT_30}; 250 K/W to the leads derived from the 4 mW/K derating`,
    memoryFields: ['referenceTemperature'],
  },
  BZX55C: {
    package: 'DO-35',
    mounting: 'through-hole',
    power: 0.5,
    powerWhere: 'lead 4 mm',
    derateFrom: 25,
    slope: 0.00333333,
    thermalResistance: 300,
    junctionMax: 175,
    measured: 'pulsed',
    measuredNote: 'Vz taken with short pulses (from memory of the sheet), so it holds at 25 degC junction',
    memoryFields: ['referenceTemperature'],
  },
  BZX79C: {
    package: 'DO-35',
    mounting: 'through-hole',
    power: 0.5,
    powerWhere: 'lead 4 mm, or lead 9.5 mm at 75 degC, by maker',
    derateFrom: 25,
    slope: 0.00333333,
    thermalResistance: 350,
    junctionMax: 175,
    measured: 'pulsed',
    measuredNote: 'Vz taken with short pulses (from memory of the sheet), so it holds at 25 degC junction',
    memoryFields: ['referenceTemperature'],
  },
  MMSZ52xxB: {
    package: 'SOD-123',
    mounting: 'surface-mount',
    power: 0.5,
    powerWhere: 'lead, FR-5 board',
    derateFrom: 75,
    slope: 0.0067,
    thermalResistance: 340,
    junctionMax: 150,
    measured: { lead: 30, junctionToLead: 150 },
    measuredNote: LEADS_AT_30,
    memoryFields: ['referenceTemperature'],
  },
  '1N47xxA': {
    package: 'DO-41',
    mounting: 'through-hole',
    power: 1,
    powerWhere: 'lead or ambient at 9.5 mm',
    derateFrom: 50,
    slope: 0.00667,
    thermalResistance: 175,
    junctionMax: 175,
    // Published with the leads held constant at 9.5 mm, which makes it junction to lead whatever its name; others print 45 to 150.
    measured: { lead: 30, junctionToLead: 100 },
    measuredNote: `${LEADS_AT_30}; 100 K/W to the leads (Formosa, leads constant at 9.5 mm; 45 to 150 K/W elsewhere)`,
    memoryFields: ['referenceTemperature'],
  },
  '1N59xxB': {
    package: 'DO-41 plastic (Surmetic 30)',
    mounting: 'through-hole',
    power: 3,
    powerWhere: 'lead 9.5 mm',
    derateFrom: 75,
    slope: 0.024,
    thermalResistance: 150,
    junctionMax: 200,
    measured: { lead: 30, junctionToLead: 41.7 },
    measuredNote: LEADS_AT_30,
    memoryFields: ['referenceTemperature'],
  },
  '1N53xxB': {
    package: 'DO-201 type, case 017AA axial',
    mounting: 'through-hole',
    power: 5,
    powerWhere: 'lead 9.5 mm',
    derateFrom: 25,
    slope: 0.04,
    thermalResistance: 85,
    junctionMax: 150,
    measured: 'pulsed',
    measuredNote:
      'Vz taken 40 ms after switching on (from memory of the sheet): short against warming up, so it holds at 25 degC junction',
    memoryFields: ['referenceTemperature'],
  },
  '1SMA59xxB': {
    package: 'SMA DO-214AC',
    mounting: 'surface-mount',
    power: 1.5,
    powerWhere: 'lead, 1 in2 pad FR-4',
    derateFrom: 75,
    slope: 0.02,
    thermalResistance: 250,
    junctionMax: 150,
    measured: { lead: 30, junctionToLead: 50 },
    measuredNote: LEADS_AT_30,
    memoryFields: ['referenceTemperature'],
  },
  '1SMB59xxB': {
    package: 'SMB DO-214AA',
    mounting: 'surface-mount',
    power: 3,
    powerWhere: 'lead, zero length',
    derateFrom: 75,
    slope: 0.04,
    thermalResistance: 226,
    junctionMax: 150,
    measured: { lead: 30, junctionToLead: 25 },
    measuredNote: LEADS_AT_30,
    memoryFields: ['referenceTemperature'],
  },
}
