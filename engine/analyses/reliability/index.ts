/**
 * Failure rate by part stress, MIL-HDBK-217F Notice 2 (28 February 1995). The handbook means typical operation, so the
 * stresses are those of the nominal board at nominal input, load and ambient, warmed up: not those of the worst corner.
 */
import { type FoundPart, findPart } from '../../parts/index.ts'
import type { Assumptions, EnvironmentName, QualityName } from '../../requirements/study.ts'
import { SETTLED } from '../../solve/index.ts'
import type { DesignPart } from '../../topologies/define.ts'
import { type Condition, type Point, solvedPoint } from '../point.ts'
import type { Proof } from '../prove.ts'
import { capacitorSheet, capacitorStyle } from './capacitor.ts'
import { diodeSheet } from './diode.ts'
import { circuitSheet } from './linearCircuit.ts'
import { resistorSheet } from './resistor.ts'
import type { Sheet } from './sheet.ts'
import { transistorSheet } from './transistor.ts'

export type { Factor, FactorGround, Sheet } from './sheet.ts'

export interface PartReliability {
  part: string
  sheet?: Sheet
  /** Of the total, 0 to 1. */
  share?: number
  /** Why the part has no rate. */
  without?: string
}

export interface Reliability {
  /** Where stresses and temperatures were taken. */
  condition: Condition
  environment: EnvironmentName
  quality: QualityName
  parts: PartReliability[]
  /** Sum over the parts that have a rate, in 10⁶ hours; absent where the nominal point has no solution. */
  perMillionHours?: number
  /** The same in 10⁹ hours. */
  fit?: number
  /** Hours between failures if the rate were constant and any failure of a part were one of the rail. */
  mtbfHours?: number
  remarks: readonly string[]
}

/** What such a figure is good for, and what went into it. */
const REMARKS: readonly string[] = [
  'Good for comparing designs and for finding the part that dominates. Not for forecasting failures in the field: the handbook dates from 1995, is no longer maintained and is inactive for new designs, and today’s parts, made and screened otherwise, are not what it was fitted to.',
  'Every part’s failure counts as one of the rail, whether it would be noticed or not. Wear-out is not in it: a constant rate says nothing about how long an electrolytic capacitor lasts.',
  'Temperatures and stresses are those of nominal input, load and ambient, warmed up; at the worst corner the rate is higher.',
  'Which style of the handbook a part counts as is our assignment: the catalogue’s parts are commercial types without one.',
  'Board, solder joints and heatsinks are not counted. A resistor that hardly warms up has hardly any rate: so the equation has it.',
  'Quality other than commercial presumes equivalents of the listed parts, which are sold as commercial ones.',
  'Equations and tables were read in transcriptions of the handbook, not in its print; what is from memory is marked.',
]

/** Upper end of the smallest class: none of the catalogue's amplifiers and references is thought to have more (assumption). */
const TRANSISTORS_ON_DIE = 100

/** Pins by package. */
const PINS: Readonly<Record<string, number>> = {
  'TO-92': 3,
  'SOT-23': 3,
  'SOT-23-5': 5,
  'DIP-8': 8,
  'SOIC-8': 8,
  'DIP-14': 14,
  'SOIC-14': 14,
}

export function reliabilityOf(proof: Proof, { environment, quality }: Assumptions): Reliability {
  const { design, observer, conditions, requirements } = proof
  const board = new Int8Array(design.tolerances.length)
  const point = solvedPoint(observer, board, conditions.nominal, SETTLED)
  const { input, load, ambient } = requirements
  const condition = { input: input.nominal, load: load.nominal, ambient: ambient.nominal }
  const parts = design.parts.map((part): PartReliability => {
    if (!point) return { part: part.id, without: 'the nominal point has no solution' }
    const found = findPart(part.partNumber)
    if (found?.family === 'heatsink') return { part: part.id, without: 'the handbook has no model of a heatsink' }
    const sheet = found && sheetOf(found, part, point, { environment, quality })
    return sheet ? { part: part.id, sheet } : { part: part.id, without: 'no model of the handbook is known for it' }
  })
  const total = parts.reduce((sum, { sheet }) => sum + (sheet?.perMillionHours ?? 0), 0)
  if (total > 0) for (const entry of parts) if (entry.sheet) entry.share = entry.sheet.perMillionHours / total
  return {
    condition,
    environment,
    quality,
    parts,
    ...(total > 0 ? { perMillionHours: total, fit: total * 1e3, mtbfHours: 1e6 / total } : {}),
    remarks: REMARKS,
  }
}

/** Failures in 10⁹ hours; undefined where the nominal point has no solution. */
export const failureRateOf = (proof: Proof, assumptions: Assumptions): number | undefined =>
  reliabilityOf(proof, assumptions).fit

function sheetOf(
  found: FoundPart,
  part: DesignPart,
  point: Point,
  setting: { environment: EnvironmentName; quality: QualityName },
): Sheet | undefined {
  const temperature = point.junction[part.id] ?? point.condition.ambient
  switch (found.family) {
    case 'resistor': {
      const { technology, power: rated } = found.row
      const style = technology.startsWith('wirewound') ? 'wirewound' : 'film'
      return resistorSheet({ ...setting, style, temperature, power: point.heat[part.id] ?? 0, rated })
    }
    case 'capacitor': {
      const { kind, mounting, farads, voltage: rated } = found.row
      const style = capacitorStyle(kind, mounting === 'surface-mount')
      return capacitorSheet({ ...setting, style, temperature, farads, voltage: voltageAcross(part, point), rated })
    }
    case 'reference-diode':
      return diodeSheet({ ...setting, temperature })
    case 'transistor': {
      const { package: housing, Pcase, Pambient, VCEO, darlington } = found.row
      return transistorSheet({
        ...setting,
        temperature,
        // a small transistor is sold by what it sheds in air, a power transistor by what its case does
        rated: housing === 'TO-92' ? Pambient : (Pcase ?? Pambient),
        voltage: voltageAcross(part, point),
        vceo: VCEO,
        isDarlington: darlington,
      })
    }
    case 'op-amp':
    case 'shunt-reference': {
      const pins = PINS[found.row.package]
      return pins === undefined
        ? undefined
        : circuitSheet({ ...setting, temperature, pins, transistors: TRANSISTORS_ON_DIE })
    }
    default:
      return undefined
  }
}

function voltageAcross({ across }: DesignPart, { nodeVoltages }: Point): number {
  const [plus, minus] = across ?? ['', '']
  // the node at 0 V is not among the solved ones
  return Math.abs((nodeVoltages[plus] ?? 0) - (nodeVoltages[minus] ?? 0))
}
