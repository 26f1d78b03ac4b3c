/** Published lines and family ratings joined into rows. */
import { FAMILIES, type DiodeBlock, type PublishedDiode } from './published.ts'
import type { DiodeRow } from './row.ts'
import { BLOCKS, SOURCES } from './rows.ts'
import { tempcoOf } from './tempco.ts'

/** Every reference diode of the catalogue, up to 100 V, family by family in rising voltage. */
export const DIODES: readonly DiodeRow[] = BLOCKS.flatMap((block) => block.rows.map((row) => join(block, row)))

function join(block: DiodeBlock, published: PublishedDiode): DiodeRow {
  const [partNumber, nominal, min, max, testCurrent, testImpedance, kneeCurrent, kneeImpedance] = published
  const [, , , , , , , , leakage, leakageVoltage, currentMax] = published
  const { measured, measuredNote, memoryFields, ...ratings } = FAMILIES[block.family]
  const { tempco, note } = tempcoOf(published, BLOCKS)
  // In thermal equilibrium the junction was warmer than the leads by its own heat; taking 25 degC would count that heat twice.
  const referenceTemperature =
    measured === 'pulsed' ? 25 : measured.lead + nominal * testCurrent * measured.junctionToLead
  return {
    partNumber,
    family: block.family,
    ...ratings,
    ...(measured === 'pulsed' ? {} : { junctionToLead: measured.junctionToLead }),
    vz: { nominal, min, max },
    test: { current: testCurrent, impedance: testImpedance },
    knee: { current: kneeCurrent, impedance: kneeImpedance },
    leakage: { current: leakage, voltage: leakageVoltage },
    currentMax,
    tempco,
    referenceTemperature,
    source: SOURCES[block.source],
    confidence: block.confidence,
    memoryFields: [...block.memoryFields, ...memoryFields],
    note: [block.notes[partNumber], block.note, note, measuredNote].filter(Boolean).join('; '),
  }
}
