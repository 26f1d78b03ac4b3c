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
  readonly use: readonly number[]
  /** By limit: the stress itself. */
  readonly stress: readonly number[]
  readonly junction: readonly number[]
}

/** By limit: what is allowed at this ambient; NaN where that depends on the point. */
export function allowedAt(
  { limits }: Prepared,
  { ambient, fault }: Pick<ObservedCondition, 'ambient' | 'fault'>,
): Float64Array {
  return Float64Array.from(limits, ({ limit }) =>
    limit.isByPoint ? NaN : (fault ? limit.inFault : limit.derated)(ambient),
  )
}

/** The share of a limit that is used at one solved point. `allowed`: as of `allowedAt`. */
export function useOf(
  { limits }: Prepared,
  index: number,
  ws: Workspace,
  { ambient, fault }: Pick<ObservedCondition, 'ambient' | 'fault'>,
  allowed: Float64Array,
): number {
  const prepared = limits[index]!
  const { limit } = prepared
  let may = allowed[index]!
  if (limit.isByPoint) {
    prepared.at(ws, at)
    may = (fault ? limit.inFault : limit.derated)(ambient, at)
  }
  return shareUsed(limit.sense, prepared.stress(ws), may)
}

/** What a stress uses of what is allowed; of a least quantity one over what is left of it. Above 1 the rating is exceeded. */
export function shareUsed(sense: 'max' | 'min', stress: number, allowed: number): number {
  if (sense === 'min') return stress <= 0 ? Infinity : allowed / stress
  return allowed <= 0 ? (stress <= 0 ? 0 : Infinity) : Math.max(0, stress) / allowed
}

const at: StressPoint = { voltage: 0, power: 0, junction: 0 }

/** `allowed`: as of `allowedAt`, where ratings are looked at too; without, `use` and `stress` are empty. */
export function observationOf(
  prepared: Prepared,
  ws: Workspace,
  outcome: number,
  condition: ObservedCondition,
  allowed?: Float64Array,
): Observation {
  const { limits } = prepared
  const use: number[] = []
  const stress: number[] = []
  const junction: number[] = []
  for (let p = 0; p < ws.junction.length; p++) junction.push(ws.junction[p]!)
  if (outcome !== 0) {
    const none = allowed ? limits.map(() => NaN) : []
    return {
      outcome,
      output: NaN,
      heat: NaN,
      inputCurrent: NaN,
      efficiency: NaN,
      use: none,
      stress: none,
      junction,
    }
  }
  if (allowed)
    for (let k = 0; k < limits.length; k++) {
      stress.push(limits[k]!.stress(ws))
      use.push(useOf(prepared, k, ws, condition, allowed))
    }
  let heat = 0
  for (const part of prepared.heatParts) heat += ws.power[part]!
  const inputCurrent = -ws.currents[prepared.inputTerminal]!
  return {
    outcome,
    output: ws.voltages[prepared.output]!,
    heat,
    inputCurrent,
    efficiency: efficiencyOf(condition.input * inputCurrent, heat),
    use,
    stress,
    junction,
  }
}
