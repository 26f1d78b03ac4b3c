/** Solved points and the corners behind worst figures, as plain data that anyone can reproduce. */
import type { ThermalCode, Workspace } from '../solve/index.ts'
import { FROZEN, SETTLED } from '../solve/index.ts'
import { efficiencyOf } from './efficiency.ts'
import type { Board } from './observation.ts'
import type { Observer } from './observe.ts'
import type { Prepared } from './prepare.ts'
import type { Found } from './search.ts'

export type ThermalMode = 'settled' | 'frozen' | 'cold'

/** Input in volts, load in amperes, ambient in degrees Celsius. */
export interface Condition {
  input: number
  load: number
  ambient: number
}

/** One solved operating point. */
export interface Point {
  condition: Condition
  nodeVoltages: Record<string, number>
  /** Amperes into the element at each of its nodes, in the order of its nodes. */
  currents: Record<string, number[]>
  /** Watts by part, only parts that dissipate. */
  heat: Record<string, number>
  /** Degrees Celsius by part. */
  junction: Record<string, number>
  output: number
  inputCurrent: number
  /** Fraction, 0 to 1. */
  efficiency: number
}

export type Overrides = Record<string, Record<string, number>>

/** The corner behind a worst figure: nominal elements with these overrides, at this condition. */
export interface Corner {
  condition: Condition
  overrides: Overrides
  thermal: ThermalMode
  point: Point
  /** The other end, on the same board, where the figure is the difference of two points. */
  against?: Point
}

export const thermalName = (mode: ThermalCode): ThermalMode =>
  mode === SETTLED ? 'settled' : mode === FROZEN ? 'frozen' : 'cold'

/** Reads a whole point off a converged workspace. */
export function pointOf(prepared: Prepared, ws: Workspace, condition: Condition): Point {
  const { circuit, design } = prepared
  const nodeVoltages: Record<string, number> = {}
  circuit.nodes.forEach((name, k) => {
    nodeVoltages[name] = ws.voltages[k]!
  })
  const currents: Record<string, number[]> = {}
  design.netlist.elements.forEach((element, k) => {
    const first = circuit.terminals[k]!
    // adding 0 turns -0 into 0: JSON has no negative zero
    currents[element.id] = Array.from(ws.currents.subarray(first, first + element.nodes.length), (i) => i + 0)
  })
  const heat: Record<string, number> = {}
  const junction: Record<string, number> = {}
  let total = 0
  for (const k of prepared.heatParts) {
    const id = circuit.parts[k]!
    total += ws.power[k]!
    if (ws.power[k] !== 0) heat[id] = ws.power[k]!
    junction[id] = ws.junction[k]!
  }
  const inputCurrent = -ws.currents[prepared.inputTerminal]!
  return {
    condition,
    nodeVoltages,
    currents,
    heat,
    junction,
    output: ws.voltages[prepared.output]!,
    inputCurrent,
    efficiency: efficiencyOf(condition.input * inputCurrent, total),
  }
}

/**
 * What this board has other than nominal. A source that doubles with temperature is listed at its value at the point's own
 * temperature, since the printed element is a plain source.
 */
function overridesOf(prepared: Prepared, ws: Workspace): Overrides {
  const { circuit, design } = prepared
  const overrides: Overrides = {}
  const put = (id: string, parameter: string, value: number): void => {
    ;(overrides[id] ??= {})[parameter] = value
  }
  for (const { elementId, parameter, slot } of prepared.moved) {
    const value = ws.parameters[slot]!
    if (value === circuit.parameters[slot]) continue
    const element = design.netlist.elements[circuit.element(elementId)]!
    if (element.kind === 'current-source' && element.doublesEvery !== undefined) {
      const Tj = ws.junction[circuit.part(element.part)]!
      put(elementId, parameter, value * 2 ** ((Tj - (element.tnom ?? 25)) / element.doublesEvery))
    } else put(elementId, parameter, value)
  }
  return overrides
}

/** The full corner of something found; undefined where it does not solve again, which would be our own bug. */
export function cornerOf(observer: Observer, { board, condition, mode, against }: Found): Corner | undefined {
  const { prepared } = observer
  const { outcome, ws } = observer.solve(board, condition, mode)
  if (outcome !== 0) return undefined
  const at = conditionAt(observer, condition)
  const corner: Corner = {
    condition: at,
    overrides: overridesOf(prepared, ws),
    thermal: thermalName(mode),
    point: pointOf(prepared, ws, at),
  }
  // Last, since it is solved in the same workspace.
  const other = against === undefined ? undefined : solvedPoint(observer, board, against, mode)
  return other ? { ...corner, against: other } : corner
}

export function solvedPoint(observer: Observer, board: Board, condition: number, mode: ThermalCode): Point | undefined {
  const { outcome, ws } = observer.solve(board, condition, mode)
  return outcome === 0 ? pointOf(observer.prepared, ws, conditionAt(observer, condition)) : undefined
}

function conditionAt(observer: Observer, index: number): Condition {
  const { input, load, ambient } = observer.conditions[index]!
  return { input, load, ambient }
}
