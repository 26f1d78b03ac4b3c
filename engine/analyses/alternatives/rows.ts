/** Parts of the catalogue that could stand in the place of one of a design's, fitted there so that their ratings can be read. */
import { CAPACITORS } from '../../parts/capacitor/index.ts'
import { mountsAs, worksOver } from '../../parts/define.ts'
import { type FoundPart, findPart } from '../../parts/find.ts'
import { HEATSINKS } from '../../parts/heatsink/index.ts'
import { AMPLIFIERS } from '../../parts/op-amp/index.ts'
import { DIODES } from '../../parts/reference-diode/index.ts'
import { RESISTORS } from '../../parts/resistor/index.ts'
import { REFERENCES } from '../../parts/shunt-reference/index.ts'
import { TRANSISTORS, type TransistorRow } from '../../parts/transistor/index.ts'
import { type DesignPart, type Need, isRefusal } from '../../topologies/define.ts'
import { fitAmplifier } from '../../topologies/place/amplifier.ts'
import { fitCapacitor } from '../../topologies/place/capacitor.ts'
import { fitDiode } from '../../topologies/place/diode.ts'
import { fitReference } from '../../topologies/place/reference.ts'
import { fitResistor } from '../../topologies/place/resistor.ts'
import { type Cooling, coolingFor, fitTransistor } from '../../topologies/place/transistor.ts'

/** Watts that a transistor here must shed: in service, and in a shorted output where that must be outlived. */
export interface Shed {
  readonly power: number
  readonly faultPower?: number
}

/** A part fitted in a place; `cooling` where it would not stand there bare. */
export interface FittedRow {
  readonly found: FoundPart
  readonly part: Pick<DesignPart, 'limits' | 'thermalResistance'>
  readonly cooling?: Cooling
}

/**
 * Rows of the same family that do the same by name: a resistor type that is made in the value and as tight, a capacitor or
 * a diode of the same value, a transistor of the same polarity and kind, a reference of the same voltage. A heatsink is
 * read through what it cools, `cooled`.
 */
export function rowsFor(need: Need, part: DesignPart, shed: Shed, cooled?: DesignPart): FittedRow[] {
  const found = findPart(part.partNumber)
  if (!found) return []
  const { id, role } = part
  const { mounting } = need.requirements.parts
  const nodes = part.across ?? ['a', 'b']
  const pinned = (partNumber: string): Need => ({ ...need, pins: { [id]: partNumber } })
  switch (found.family) {
    case 'resistor':
      return RESISTORS.filter(
        (row) =>
          mountsAs(row, mounting) &&
          row.min <= part.value! &&
          row.max >= part.value! &&
          row.tolerance <= found.row.tolerance,
      ).flatMap((row) => {
        const fitted = fitResistor(
          pinned(row.partNumber),
          { id, role, nodes, ohms: part.value!, power: 0, voltage: 0 },
          {},
        )
        return isRefusal(fitted) ? [] : [{ found: { family: 'resistor', row }, part: fitted.part }]
      })
    case 'capacitor':
      return CAPACITORS.filter((row) => mountsAs(row, mounting) && row.farads === found.row.farads).flatMap((row) => {
        const fitted = fitCapacitor(pinned(row.partNumber), { id, role, nodes, farads: row.farads, voltage: 0 })
        return isRefusal(fitted) ? [] : [{ found: { family: 'capacitor', row }, part: fitted.part }]
      })
    case 'reference-diode':
      return DIODES.filter((row) => mountsAs(row, mounting) && row.vz.nominal === found.row.vz.nominal).map((row) => ({
        found: { family: 'reference-diode', row },
        part: fitDiode(need, row, id, role, [nodes[1], nodes[0]]).part,
      }))
    case 'shunt-reference':
      return REFERENCES.filter(
        (row) =>
          mountsAs(row, mounting) &&
          worksOver(row, need.requirements.ambient) &&
          row.adjustable === found.row.adjustable &&
          row.vref.nominal === found.row.vref.nominal,
      ).map((row) => ({
        found: { family: 'shunt-reference', row },
        part: fitReference(need, row, id, role, row.adjustable ? [nodes[0], nodes[1], 'ref'] : nodes).part,
      }))
    case 'op-amp':
      return AMPLIFIERS.filter(
        (row) =>
          mountsAs(row, mounting) &&
          worksOver(row, need.requirements.ambient) &&
          row.supply.min <= need.requirements.input.min,
      ).map((row) => ({
        found: { family: 'op-amp', row },
        part: fitAmplifier(need, row, id, role, ['p', 'm', 'out', nodes[0], nodes[1]]).part,
      }))
    case 'transistor':
      return TRANSISTORS.filter(
        (row) => row.polarity === found.row.polarity && row.darlington === found.row.darlington,
      ).flatMap((row) => transistorIn(need, part, row, shed))
    case 'heatsink':
      return heatsinksFor(need, cooled)
  }
}

/** With the least cooling that it needs; none where no heatsink is enough, or where more than one would be needed. */
function transistorIn(need: Need, part: DesignPart, row: TransistorRow, shed: Shed): FittedRow[] {
  // only the pass or shunt transistor, Q1, may stand on the design's one heatsink
  const cooling = coolingFor(need, row, shed)
  if (!cooling || (cooling.heatsink && part.id !== 'Q1')) return []
  const nodes = [part.across![0], 'base', part.across![1]] as const
  const fitted = fitTransistor(need, row, { id: part.id, role: part.role, nodes, cooling })
  return [{ found: { family: 'transistor', row }, part: fitted.part, ...(cooling.heatsink ? { cooling } : {}) }]
}

function heatsinksFor(need: Need, cooled: DesignPart | undefined): FittedRow[] {
  const found = findPart(cooled?.partNumber)
  if (!cooled || found?.family !== 'transistor') return []
  const nodes = [cooled.across![0], 'base', cooled.across![1]] as const
  return HEATSINKS.filter(({ packages }) => packages.includes(found.row.package)).map((row) => ({
    found: { family: 'heatsink', row },
    part: fitTransistor(need, found.row, { id: cooled.id, role: cooled.role, nodes, cooling: { heatsink: row } }).part,
  }))
}
