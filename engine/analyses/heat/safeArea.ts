/** The safe operating area of a transistor of a design, with the points at which it works. */
import { DERATING, type DeratingPolicy } from '../../parts/derating/index.ts'
import {
  type SoaBound,
  type TransistorRow,
  findTransistor,
  soaBound,
  soaCurrent,
} from '../../parts/transistor/index.ts'
import type { DesignPart } from '../../topologies/define.ts'
import { COLD, SETTLED } from '../../solve/index.ts'
import type { Board } from '../observation.ts'
import type { Observer } from '../observe.ts'
import type { Proof } from '../prove.ts'
import { resistanceTo } from './path.ts'

/** The edge of the area at one case temperature, by rising voltage: volts, amperes, and which limit makes it there. */
export interface Envelope {
  /** `maker` at 25 °C; `hot`: the maker's at the hottest case in service; `policy`: what the derating policy leaves of that. */
  of: 'maker' | 'hot' | 'policy'
  caseTemperature: number
  volts: number[]
  amperes: number[]
  bounds: SoaBound[]
}

export interface WorkingPoint {
  /** `corner`: nominal parts at a corner; `worst`: the corner and tolerances that use the area most; `short`: the shorted output. */
  of: 'corner' | 'worst' | 'short'
  volts: number
  amperes: number
  caseTemperature: number
  /** What is allowed at this voltage and case temperature: by the policy, with the output shorted by the maker. */
  allowed: number
  condition: { input: number; load: number; ambient: number }
  /** `cold` where the short has no settled temperature and its first moment is shown. */
  thermal: 'settled' | 'cold'
}

export interface SafeArea {
  part: string
  partNumber: string
  source: string
  /** Where the branch of second breakdown comes from; absent where the sheet has none, and power alone bounds the area. */
  secondBreakdown?: string
  envelopes: Envelope[]
  points: WorkingPoint[]
}

const STEPS = 72
const LOWEST_VOLTAGE = 1

/** Logarithmic steps from 1 V to `to`, and the voltages at which the edge bends. */
function voltages(row: TransistorRow, caseTemperature: number, to: number): number[] {
  const from = Math.min(LOWEST_VOLTAGE, to / 10)
  const even = Array.from({ length: STEPS + 1 }, (_, k) => from * (to / from) ** (k / STEPS))
  // the power's corner: what the area allows at a voltage high enough is the power over that voltage
  const corner = (soaCurrent(row, from, caseTemperature) > 0 ? powerAt(row, caseTemperature) : 0) / row.Ic_max
  const bends = [corner, ...row.safeArea.map(({ Vce }) => Vce)].filter((v) => v > from && v < to)
  return [...new Set([...even.slice(0, -1), to, ...bends])].toSorted((a, b) => a - b)
}

const powerAt = (row: TransistorRow, caseTemperature: number): number =>
  ((row.Pcase ?? row.Pambient) * Math.max(0, row.Tj_max - caseTemperature)) / (row.Tj_max - 25)

function envelope(row: TransistorRow, of: Envelope['of'], caseTemperature: number, policy?: DeratingPolicy): Envelope {
  const volts = voltages(row, caseTemperature, row.VCEO * (policy?.transistorVoltage ?? 1))
  const share = policy?.soa ?? 1
  const most = row.Ic_max * (policy?.transistorCurrent ?? 1)
  const own = volts.map((v) => soaCurrent(row, v, caseTemperature) * share)
  return {
    of,
    caseTemperature,
    volts,
    amperes: own.map((i) => Math.min(i, most)),
    bounds: volts.map((v, k) => (own[k]! >= most ? 'current' : soaBound(row, v, caseTemperature))),
  }
}

/** The area of one part; undefined where it is no transistor of the list. */
export function safeAreaOf(proof: Proof, part: DesignPart): SafeArea | undefined {
  const row = part.partNumber === undefined ? undefined : findTransistor(part.partNumber)
  if (!row) return undefined
  const { observer, conditions, shortCircuit, requirements } = proof
  const { limits } = observer.prepared
  const current = limits.findIndex((l) => l.part === part.id && l.limit.quantity === 'safeArea')
  const voltage = limits.findIndex((l) => l.part === part.id && l.limit.quantity === 'voltage')
  if (current === -1 || voltage === -1) return undefined
  const theta = part.thermalResistance ?? 0
  const toCase = part.heatPath?.[0]?.to === 'case' ? resistanceTo(part.heatPath, 'case') : 0
  const index = observer.prepared.circuit.part(part.id)
  const policy = DERATING[requirements.derating]

  const pointAt = (
    of: WorkingPoint['of'],
    from: Observer,
    board: Board,
    at: number,
    mode: typeof SETTLED | typeof COLD,
  ): WorkingPoint[] => {
    const seen = from.observe(board, at, mode)
    if (seen.outcome !== 0) return []
    const { input, load, ambient } = from.conditions[at]!
    const Tj = seen.junction[index]!
    const volts = seen.stress[voltage]!
    // cold, the case is still at the ambient whatever the heat
    const caseTemperature = theta > 0 && mode !== COLD ? Tj - ((Tj - ambient) / theta) * toCase : ambient
    return [
      {
        of,
        volts,
        amperes: seen.stress[current]!,
        caseTemperature,
        allowed: soaCurrent(row, volts, caseTemperature) * (of === 'short' ? 1 : policy.soa),
        condition: { input, load, ambient },
        thermal: mode === COLD ? 'cold' : 'settled',
      },
    ]
  }

  const nominal = new Int8Array(proof.design.tolerances.length)
  const worst = proof.limits[current]!
  const inShort = shortCircuit.use[current]!
  const points = [
    ...[...conditions.corners, ...conditions.unloaded].flatMap((at) =>
      pointAt('corner', observer, nominal, at, SETTLED),
    ),
    ...pointAt('worst', observer, worst.board, worst.condition, SETTLED),
    ...pointAt('short', shortCircuit.observer, inShort.board, inShort.condition, shortCircuit.settles ? SETTLED : COLD),
  ]
  const hottest = Math.max(
    25,
    ...points.filter(({ of }) => of !== 'short').map(({ caseTemperature }) => caseTemperature),
  )
  return {
    part: part.id,
    partNumber: row.partNumber,
    source: row.source,
    ...(row.safeArea.length > 2
      ? {
          secondBreakdown:
            'data sheet points at a case temperature of 25 °C, read from a plot; share falling to 40 % at 150 °C as the BD139 sheet has it, assumed for other types',
        }
      : {}),
    envelopes: [envelope(row, 'maker', 25), envelope(row, 'hot', hottest), envelope(row, 'policy', hottest, policy)],
    points,
  }
}
