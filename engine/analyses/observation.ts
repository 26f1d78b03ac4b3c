/** What is read off one solved point of one board. */
import type { Workspace } from '../solve/index.ts'
import type { StressPoint } from '../topologies/define.ts'
import { efficiencyOf } from './efficiency.ts'
import type { Prepared } from './prepare.ts'

/** Input in volts, load in amperes, ambient in degrees Celsius; `fault` points are held against the maker's ratings, not the derated ones. */
export interface ObservedCondition {
  readonly input: number
  readonly load: number
  readonly ambient: number
  readonly fault: boolean
}

/** One entry a tolerance: -1 low, 0 nominal, +1 high. */
export type Board = Int8Array

export interface Observation {
  /** Outcome code of the solve; every number below is meaningless unless it is 0. */
  readonly outcome: number
  readonly output: number
  readonly heat: number
  readonly inputCurrent: number
  readonly efficiency: number
  /** By limit: share of the (derated, or in a fault the maker's) rating that is used; above 1 it is exceeded. */
  readonly use: Float64Array
  /** By limit: the stress itself. */
  readonly stress: Float64Array
  readonly junction: Float64Array
}

/** The share of a limit that is used at one solved point. */
export function useOf(
  prepared: Prepared,
  index: number,
  ws: Workspace,
  ambient: number,
  fault: boolean,
  at: StressPoint,
): number {
  const { limit, stress, at: read } = prepared.limits[index]!
  read(ws, at)
  const allowed = (fault ? limit.inFault : limit.derated)(ambient, at)
  const value = stress(ws)
  if (limit.sense === 'min') return value <= 0 ? Infinity : allowed / value
  return allowed <= 0 ? (value <= 0 ? 0 : Infinity) : Math.max(0, value) / allowed
}

const UNREAD = new Float64Array(0)
const at: StressPoint = { voltage: 0, power: 0, junction: 0 }

/** `withLimits`: whether ratings are looked at too; without, `use` and `stress` are empty. */
export function observationOf(
  prepared: Prepared,
  ws: Workspace,
  outcome: number,
  { input, ambient, fault }: ObservedCondition,
  withLimits: boolean,
): Observation {
  const { limits } = prepared
  const count = withLimits ? limits.length : 0
  const use = count > 0 ? new Float64Array(count) : UNREAD
  const stress = count > 0 ? new Float64Array(count) : UNREAD
  const junction = ws.junction.slice()
  if (outcome !== 0)
    return {
      outcome,
      output: NaN,
      heat: NaN,
      inputCurrent: NaN,
      efficiency: NaN,
      use: use.fill(NaN),
      stress: stress.fill(NaN),
      junction,
    }
  for (let k = 0; k < count; k++) {
    stress[k] = limits[k]!.stress(ws)
    use[k] = useOf(prepared, k, ws, ambient, fault, at)
  }
  let heat = 0
  for (const part of prepared.heatParts) heat += ws.power[part]!
  const inputCurrent = -ws.currents[prepared.inputTerminal]!
  return {
    outcome,
    output: ws.voltages[prepared.output]!,
    heat,
    inputCurrent,
    efficiency: efficiencyOf(input * inputCurrent, heat),
    use,
    stress,
    junction,
  }
}
