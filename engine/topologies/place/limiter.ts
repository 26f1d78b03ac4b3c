/** The current limiter: a sense resistor in the emitter lead and a transistor that steals the pass transistor's base drive. */
import { TRANSISTORS, type TransistorRow, vbeOf } from '../../parts/transistor/index.ts'
import type { Demands, Need, Refusal } from '../define.ts'
import type { Fitted } from './fitted.ts'
import { fitResistor } from './resistor.ts'
import { fitTransistor } from './transistor.ts'

/** VBE spread of the limiting transistor either way (common practice, no source). */
const VBE_SPREAD = 0.03

/** The small transistor that limits: it carries base drive only. */
export function limiterRow(need: Need): TransistorRow {
  const pinned = need.pins['Q2']
  const row = TRANSISTORS.find((r) => r.partNumber === (pinned ?? 'BC337-25'))
  if (!row) throw new Error('place/limiter: the limiting transistor is not in the list')
  return row
}

/**
 * Threshold of the limiter: least where it must not bite yet (hot, low sample, a twentieth of the drive), most where it
 * holds the short (cold, high sample, all of the drive). Volts; `drive` in amperes.
 */
export function limiterThreshold(need: Need, row: TransistorRow, drive: number): { V_on: number; V_full: number } {
  const { ambient } = need.requirements
  return {
    V_on: vbeOf(row, drive / 20, 1, ambient.max) - VBE_SPREAD,
    V_full: vbeOf(row, drive, 1, ambient.min) + VBE_SPREAD,
  }
}

export function fitLimiter(
  need: Need,
  row: TransistorRow,
  values: { R_sc: number; P_sc: number; V_full: number },
  nodes: { base: string; sense: string; out: string },
  demands: Demands,
): (Fitted | Refusal)[] {
  return [
    fitTransistor(need, row, {
      id: 'Q2',
      role: 'current limiter',
      nodes: [nodes.base, nodes.sense, nodes.out],
      cooling: { thermalResistance: row.thetaJA },
    }),
    fitResistor(
      need,
      {
        id: 'R2',
        role: 'current sense resistor',
        nodes: [nodes.sense, nodes.out],
        ohms: values.R_sc,
        power: 0,
        voltage: 0,
        fault: { power: values.P_sc, voltage: values.V_full },
      },
      demands,
    ),
  ]
}
