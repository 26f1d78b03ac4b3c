/**
 * The heat of one proven design, part by part: how hot each gets at its own worst corner and along its way to the air, what must
 * carry the heat away, what a finger would feel, and whether a temperature settles at all.
 */
import { DERATING, allowedJunction } from '../../parts/derating/index.ts'
import { boardCopper, leastCopper } from '../../parts/board-copper/index.ts'
import { findTransistor } from '../../parts/transistor/index.ts'
import { SETTLED } from '../../solve/index.ts'
import type { DesignPart, HeatStretch } from '../../topologies/define.ts'
import { type Overrides, cornerOf } from '../point.ts'
import type { Proof } from '../prove.ts'
import { type Runaway, runawaysOf, worstOf } from './hottest.ts'
import { loopGain } from './loopGain.ts'
import { type PathNode, temperaturesOf } from './path.ts'
import { type ResistorCurve, resistorCurveOf } from './resistorCurve.ts'
import { type SafeArea, safeAreaOf } from './safeArea.ts'
import { type HeatsinkName, type SinkAnswer, sinkFor } from './sink.ts'
import { type Surface, surfaceOf } from './surface.ts'

export type { HeatNode, HeatStretch } from '../../topologies/define.ts'
export type { Runaway } from './hottest.ts'
export type { PathNode } from './path.ts'
export type { ResistorCurve } from './resistorCurve.ts'
export type { Envelope, SafeArea, WorkingPoint } from './safeArea.ts'
export type { SinkAnswer } from './sink.ts'
export type { Surface } from './surface.ts'

/** One part at the corner at which it is hottest. Watts, kelvin per watt, degrees Celsius. */
export interface PartHeat {
  part: string
  role: string
  partNumber?: string
  package?: string
  heat: number
  /** Where the heat arises: the junction, or a resistor's body. */
  hottest: number
  /** What the policy allows of a junction at this ambient, and what its maker does; absent for what has none. */
  allowed?: number
  maximum?: number
  thermalResistance: number
  path: HeatStretch[]
  /** Temperatures along the path, the hottest first, the ambient last. */
  nodes: PathNode[]
  condition: { input: number; load: number; ambient: number }
  /** Part tolerances at this corner. */
  overrides: Overrides
  /** Gain of the loop from temperature to heat and back: 1 is thermal runaway. Absent where it could not be solved. */
  loopGain?: number
  surface: Surface
  /** For transistors: what keeps the derated junction in service. */
  sink?: SinkAnswer
  /** The heatsink as built. */
  fitted?: HeatsinkName
  /** What keeps the maker's maximum with the output shorted, where the short must be survived. */
  sinkForShort?: SinkAnswer
  /** For parts on a board whose copper is published: the least that would serve, and all that is known. */
  copper?: { allowed: number; least?: CopperLevel; known: CopperLevel[] }
}

export interface CopperLevel {
  /** Square metres; absent where the sheet speaks of the footprint alone. */
  area?: number
  thermalResistance: number
  board: string
  source: string
}

export interface Heat {
  /** In the order of the parts list; parts that do not dissipate are left out. */
  parts: PartHeat[]
  /** Conditions without a settled temperature. */
  runaway: Runaway[]
  safeAreas: SafeArea[]
  resistors: ResistorCurve[]
}

/** Yields after each part. */
export function* heatOf(proof: Proof): Generator<void, Heat> {
  const heat: Heat = { parts: [], runaway: runawaysOf(proof), safeAreas: [], resistors: [] }
  for (const part of proof.design.parts) {
    const found = partHeat(proof, part)
    if (found) heat.parts.push(found)
    yield
    const area = safeAreaOf(proof, part)
    if (area) heat.safeAreas.push(area)
    const curve = resistorCurveOf(proof, part)
    if (curve) heat.resistors.push(curve)
  }
  return heat
}

function partHeat(proof: Proof, part: DesignPart): PartHeat | undefined {
  const { thermalResistance, heatPath } = part
  if (thermalResistance === undefined || heatPath === undefined) return undefined
  const { observer } = proof
  const index = observer.prepared.circuit.part(part.id)
  const worst = worstOf(proof, (seen) => seen.junction[index]!, 1)
  if (!worst) return undefined
  const corner = cornerOf(observer, { ...worst, mode: SETTLED })
  if (!corner) return undefined
  const { condition, overrides, point } = corner
  const hottest = point.junction[part.id] ?? condition.ambient
  const watts = point.heat[part.id] ?? 0
  const nodes = temperaturesOf(heatPath, watts, condition.ambient)
  const gain = loopGain(observer, part.id, thermalResistance, worst.board, worst.condition)
  const { semiconductor } = part
  return {
    part: part.id,
    role: part.role,
    ...(part.partNumber === undefined ? {} : { partNumber: part.partNumber }),
    ...(part.package === undefined ? {} : { package: part.package }),
    heat: watts,
    hottest,
    ...(semiconductor
      ? { allowed: allowedAt(proof, semiconductor, condition.ambient), maximum: semiconductor.junctionMax }
      : {}),
    thermalResistance,
    path: [...heatPath],
    nodes,
    condition,
    overrides,
    ...(gain === undefined ? {} : { loopGain: gain }),
    surface: surfaceOf(part, nodes),
    ...cooling(proof, part, index),
  }
}

const allowedAt = (proof: Proof, { kind, junctionMax }: Semiconductor, ambient: number): number =>
  allowedJunction(junctionMax, DERATING[proof.requirements.derating], kind, ambient)

type Semiconductor = NonNullable<DesignPart['semiconductor']>

/** A part that takes no more is cold whatever cools it, watts. */
const LEAST_HEAT = 1e-6

/** Settled, a part's heat is its rise over its resistance; never so little that the resistance allowed would be endless. */
const heatOfRise = (rise: number, thermalResistance: number): number => Math.max(rise / thermalResistance, LEAST_HEAT)

/** What would have to carry the heat away: a heatsink for a transistor, copper for what is soldered flat. */
function cooling(
  proof: Proof,
  part: DesignPart,
  index: number,
): Pick<PartHeat, 'sink' | 'fitted' | 'sinkForShort' | 'copper'> {
  const { semiconductor, thermalResistance: built } = part
  if (!semiconductor || built === undefined) return {}
  const row = part.partNumber === undefined ? undefined : findTransistor(part.partNumber)
  const known = row ? [] : boardCopper(part.package ?? '')
  if (!row && known.length === 0) return {}
  // Settled, a part's heat is its rise over its resistance: no other reading is needed.
  const worst = worstOf(
    proof,
    ({ junction }, { ambient }) =>
      (allowedAt(proof, semiconductor, ambient) - ambient) / heatOfRise(junction[index]! - ambient, built),
    -1,
  )
  const allowed = worst?.value ?? LEAST_HEAT ** -1
  if (!row) {
    const least = leastCopper(part.package ?? '', allowed)
    const level = (each: (typeof known)[number]): CopperLevel => ({
      ...(each.area === undefined ? {} : { area: each.area }),
      thermalResistance: each.thermalResistance,
      board: each.board,
      source: each.source,
    })
    return { copper: { allowed, ...(least ? { least: level(least) } : {}), known: known.map(level) } }
  }
  const ask = {
    package: row.package,
    ...(row.thetaJC === undefined ? {} : { thetaJC: row.thetaJC }),
    thetaJA: row.thetaJA,
  }
  const { heatsinkFactor } = DERATING[proof.requirements.derating]
  const short = shortAllowance(proof, part, index, built, semiconductor)
  const fitted = proof.design.parts.find(({ cools }) => cools === part.id)
  return {
    sink: sinkFor({ ...ask, allowed, heatsinkFactor }),
    ...(fitted?.partNumber === undefined || fitted.value === undefined
      ? {}
      : { fitted: { partNumber: fitted.partNumber, thermalResistance: fitted.value } }),
    ...(short === undefined ? {} : { sinkForShort: sinkFor({ ...ask, allowed: short, heatsinkFactor }) }),
  }
}

/** Kelvin per watt that keep the maker's maximum with the output shorted; undefined where that is not asked for, or nothing settles. */
function shortAllowance(
  { shortCircuit, requirements }: Proof,
  part: DesignPart,
  index: number,
  built: number,
  { junctionMax }: Semiconductor,
): number | undefined {
  if (!requirements.limits.survivesShort || !shortCircuit.settles) return undefined
  const { observer } = shortCircuit
  const limit = observer.prepared.limits.findIndex((l) => l.part === part.id && l.limit.quantity === 'junction')
  const found = shortCircuit.use[limit]
  if (!found) return undefined
  const seen = observer.observe(found.board, found.condition, SETTLED)
  if (seen.outcome !== 0) return undefined
  const { ambient } = observer.conditions[found.condition]!
  return (junctionMax - ambient) / heatOfRise(seen.junction[index]! - ambient, built)
}
