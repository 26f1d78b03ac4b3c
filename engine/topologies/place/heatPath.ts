/** The way of a part's heat to the air, stretch by stretch, as its cooling is built. Their sum is the part's thermal resistance. */
import { boardCopper } from '../../parts/board-copper/index.ts'
import type { CatalogueRow } from '../../parts/define.ts'
import { type HeatsinkRow, interfaceOf } from '../../parts/heatsink/index.ts'
import type { DiodeRow } from '../../parts/reference-diode/index.ts'
import type { TransistorRow } from '../../parts/transistor/index.ts'
import type { DesignPart, HeatNode, HeatStretch } from '../define.ts'

type Cooled = Pick<DesignPart, 'thermalResistance' | 'heatPath'>

const along = (heatPath: readonly HeatStretch[]): Cooled => ({
  thermalResistance: heatPath.reduce((sum, { kelvinPerWatt }) => sum + kelvinPerWatt, 0),
  heatPath,
})

/** From where the heat arises to the air in one figure: all that most sheets print. */
export function cooledBare(row: CatalogueRow & { readonly thermalResistance: number }, from: HeatNode): Cooled {
  const { thermalResistance, confidence, memoryFields } = row
  const isMemory = memoryFields.includes('thermalResistance')
  return along([
    {
      from,
      to: 'ambient',
      kelvinPerWatt: thermalResistance,
      source: row.source,
      confidence: isMemory ? 'memory' : confidence,
      note: row.mounting === 'surface-mount' ? 'on its board, still air' : 'still air',
    },
  ])
}

/** Junction to lead where that is known; the rest, through the leads or the copper of the board, is what is left of the whole. */
export function cooledDiode(row: DiodeRow): Cooled {
  const { junctionToLead, thermalResistance } = row
  if (junctionToLead === undefined || junctionToLead >= thermalResistance) return cooledBare(row, 'junction')
  const board = boardCopper(row.package).find((copper) => copper.thermalResistance === thermalResistance)
  const over = board ? `${board.board} (${board.source})` : 'leads and board'
  return along([
    { from: 'junction', to: 'lead', kelvinPerWatt: junctionToLead, source: row.source, confidence: row.confidence },
    {
      from: 'lead',
      to: 'ambient',
      kelvinPerWatt: thermalResistance - junctionToLead,
      source: row.source,
      confidence: 'derived',
      note: `${over}: junction to ambient less junction to lead, still air`,
    },
  ])
}

/** Junction to case to heatsink to air; without a heatsink from the case, or from the junction where the sheet has no case. */
export function cooledTransistor(
  row: TransistorRow,
  heatsink: HeatsinkRow | undefined,
  heatsinkFactor: number,
): Cooled {
  const { thetaJC, thetaJA, source, confidence, memoryFields } = row
  const known = (field: string) => (memoryFields.includes(field) ? 'memory' : confidence)
  const air = { source, confidence: known('thetaJA'), note: 'no heatsink, still air' }
  if (thetaJC === undefined) return along([{ from: 'junction', to: 'ambient', kelvinPerWatt: thetaJA, ...air }])
  const toCase: HeatStretch = {
    from: 'junction',
    to: 'case',
    kelvinPerWatt: thetaJC,
    source,
    confidence: known('thetaJC'),
  }
  if (!heatsink)
    return along([
      toCase,
      {
        ...air,
        from: 'case',
        to: 'ambient',
        kelvinPerWatt: thetaJA - thetaJC,
        confidence: 'derived',
        note: 'no heatsink, still air: junction to ambient less junction to case',
      },
    ])
  const joint = interfaceOf(row.package)
  return along([
    toCase,
    {
      from: 'case',
      to: 'sink',
      kelvinPerWatt: joint?.thermalResistance ?? Infinity,
      source: joint?.source ?? '',
      confidence: joint?.confidence ?? 'assumption',
      note: `${joint?.material ?? ''}, not isolated: the heatsink is at collector potential`,
    },
    {
      from: 'sink',
      to: 'ambient',
      kelvinPerWatt: heatsink.thermalResistance * heatsinkFactor,
      source: heatsink.source,
      confidence: heatsink.confidence,
      note: `${heatsink.partNumber}, ${heatsink.condition}; as printed ${heatsink.thermalResistance} K/W, times ${heatsinkFactor} by the derating policy`,
    },
  ])
}
