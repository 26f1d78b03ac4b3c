/** Heat of one design over input voltage and load current: nominal parts, nominal ambient, settled temperatures. */
import type { Requirements } from '../requirements/study.ts'
import { SETTLED, newWorkspace, solvePoint } from '../solve/index.ts'
import { inputAxis, loadAxis } from './curves.ts'
import type { Proof } from './prove.ts'

/** One solved point; volts, amperes, watts, degrees Celsius. */
export interface HeatPoint {
  input: number
  load: number
  output: number
  heat: number
  /** Of the hottest part. */
  hottest: number
}

/** The grid, and its points that have a solution: row by row of rising load, in each of rising input. */
export interface HeatMap {
  /** The same axes as those of the swept curves: somewhat beyond the required input range, and from no load to a quarter above the full. */
  inputs: number[]
  loads: number[]
  points: HeatPoint[]
}

const COLUMNS = 25
const ROWS = 21

/** Every so manieth point of an axis, its ends included. */
const thinned = (axis: Float64Array, count: number): number[] =>
  Array.from({ length: count }, (_, k) => axis[0]! + ((axis.at(-1)! - axis[0]!) * k) / (count - 1))

const heatMapAxes = (requirements: Requirements): Pick<HeatMap, 'inputs' | 'loads'> => ({
  inputs: thinned(inputAxis(requirements), COLUMNS),
  loads: thinned(loadAxis(requirements), ROWS),
})

/** Yields after each row. Each row is swept outwards from the nominal input, so that the wanted branch is followed. */
export function* heatMapOf({ observer, requirements }: Proof): Generator<void, HeatMap> {
  const { circuit, heatParts, output } = observer.prepared
  const { inputs, loads } = heatMapAxes(requirements)
  const ambient = requirements.ambient.nominal
  const { nominal } = requirements.input
  const above = inputs.flatMap((volts, k) => (volts >= nominal ? [k] : []))
  const below = inputs.flatMap((volts, k) => (volts < nominal ? [k] : [])).toReversed()
  const points: HeatPoint[] = []
  for (const load of loads) {
    const row: (HeatPoint | undefined)[] = []
    for (const outwards of [above, below]) {
      const ws = newWorkspace(circuit)
      solvePoint(circuit, ws, nominal, requirements.load.nominal, ambient, SETTLED)
      for (const k of outwards) {
        const input = inputs[k]!
        if (solvePoint(circuit, ws, input, load, ambient, SETTLED) !== 0) continue
        let heat = 0
        let hottest = ambient
        for (const part of heatParts) {
          heat += ws.power[part]!
          hottest = Math.max(hottest, ws.junction[part]!)
        }
        row[k] = { input, load, output: ws.voltages[output]!, heat, hottest }
      }
    }
    points.push(...row.filter((point) => point !== undefined))
    yield
  }
  return { inputs, loads, points }
}
