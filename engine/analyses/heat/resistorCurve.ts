/** How a resistor's power falls with the ambient, and where the design works on that line. */
import { DERATING } from '../../parts/derating/index.ts'
import { RESISTORS, resistorPowerAt, resistorShare } from '../../parts/resistor/index.ts'
import { SETTLED } from '../../solve/index.ts'
import type { DesignPart } from '../../topologies/define.ts'
import type { Proof } from '../prove.ts'

export interface ResistorCurve {
  part: string
  partNumber: string
  ohms: number
  source: string
  /** The maker's line: level up to `derateFrom`, nothing left from `zeroPowerAt` on. Watts, degrees Celsius. */
  power: number
  derateFrom: number
  zeroPowerAt: number
  /** Share of it that the policy leaves. */
  share: number
  /** The most that nominal parts take at either end of the ambient, and at the corner that uses it most. */
  points: { of: 'nominal' | 'worst'; ambient: number; power: number; allowed: number }[]
}

export function resistorCurveOf(proof: Proof, part: DesignPart): ResistorCurve | undefined {
  const row = RESISTORS.find(({ partNumber }) => partNumber === part.partNumber)
  const { observer, conditions, requirements } = proof
  const limit = observer.prepared.limits.findIndex((l) => l.part === part.id && l.limit.quantity === 'power')
  if (!row || limit === -1 || part.value === undefined) return undefined
  const share = resistorShare(row, DERATING[requirements.derating])
  const nominal = new Int8Array(proof.design.tolerances.length)
  const most = new Map<number, number>()
  for (const at of [...conditions.corners, ...conditions.unloaded]) {
    const seen = observer.observe(nominal, at, SETTLED)
    if (seen.outcome !== 0) continue
    const { ambient } = observer.conditions[at]!
    most.set(ambient, Math.max(most.get(ambient) ?? 0, seen.stress[limit]!))
  }
  const worst = proof.limits[limit]!
  const { ambient } = observer.conditions[worst.condition]!
  const allowed = (at: number): number => resistorPowerAt(row, at) * share
  const atWorst = observer.observe(worst.board, worst.condition, worst.mode).stress[limit]!
  return {
    part: part.id,
    partNumber: row.partNumber,
    ohms: part.value,
    source: row.source,
    power: row.power,
    derateFrom: row.derateFrom,
    zeroPowerAt: row.zeroPowerAt,
    share,
    points: [
      ...[...most].map(([at, power]) => ({ of: 'nominal' as const, ambient: at, power, allowed: allowed(at) })),
      ...(Number.isFinite(atWorst)
        ? [{ of: 'worst' as const, ambient, power: atWorst, allowed: allowed(ambient) }]
        : []),
    ],
  }
}
