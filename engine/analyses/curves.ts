/** The swept curves that the plots draw: nominal parts, nominal ambient, settled temperatures. */
import type { Requirements } from '../requirements/study.ts'
import { SETTLED, newWorkspace, solvePoint } from '../solve/index.ts'
import { efficiencyOf } from './efficiency.ts'
import type { Prepared } from './prepare.ts'

/**
 * A swept analysis: one axis, one column a quantity, all of one length. A point that did not converge is NaN in every
 * column and a code other than 0 in `outcome`.
 */
export interface Table {
  axis: Float64Array
  columns: Record<string, Float64Array>
  outcome: Uint8Array
}

/**
 * `byInput` sweeps the input at full load; `byLoad` sweeps the load at nominal input. Columns: `output` V, `heat` W,
 * `efficiency`, `inputCurrent` A, `hottest` degC, and `heat.<partId>` W for each part that dissipates.
 */
export interface Curves {
  byInput: Table
  byLoad: Table
}

const POINTS = 97

/** How far beyond the required input range the plots look, as a share of its width (at least of a tenth of its top). */
const MARGIN = 0.3

export function inputAxis({ input }: Requirements): Float64Array {
  const beyond = MARGIN * Math.max(input.max - input.min, 0.1 * input.max)
  const from = Math.max(0.5, input.min - beyond)
  return Float64Array.from({ length: POINTS }, (_, k) => from + ((input.max + beyond - from) * k) / (POINTS - 1))
}

/** From no load to a quarter more than the full load. */
export function loadAxis({ load }: Requirements): Float64Array {
  return Float64Array.from({ length: POINTS }, (_, k) => (1.25 * load.max * k) / (POINTS - 1))
}

export function curvesOf(prepared: Prepared, requirements: Requirements): Curves {
  const { input, load } = requirements
  return {
    byInput: sweep(prepared, requirements, inputAxis(requirements), input.nominal, (v) => [v, load.max]),
    byLoad: sweep(prepared, requirements, loadAxis(requirements), load.nominal, (i) => [input.nominal, i]),
  }
}

/** One warm sweep away from the nominal point in both directions, so that the wanted branch is followed outwards. */
function sweep(
  prepared: Prepared,
  requirements: Requirements,
  axis: Float64Array,
  nominal: number,
  at: (x: number) => readonly [input: number, load: number],
): Table {
  const { circuit } = prepared
  const ambient = requirements.ambient.nominal
  const columns: Record<string, Float64Array> = {}
  for (const name of ['output', 'heat', 'efficiency', 'inputCurrent', 'hottest'])
    columns[name] = new Float64Array(axis.length)
  const partColumns = Array.from(prepared.heatParts, (k) => {
    const column = new Float64Array(axis.length)
    columns[`heat.${circuit.parts[k]!}`] = column
    return { k, column }
  })
  const outcome = new Uint8Array(axis.length)
  const run = (indices: number[]): void => {
    const ws = newWorkspace(circuit)
    solvePoint(circuit, ws, requirements.input.nominal, requirements.load.nominal, ambient, SETTLED)
    for (const n of indices) {
      const [volts, amperes] = at(axis[n]!)
      const code = solvePoint(circuit, ws, volts, amperes, ambient, SETTLED)
      outcome[n] = code
      if (code !== 0) {
        for (const column of Object.values(columns)) column[n] = NaN
        continue
      }
      let heat = 0
      let hottest = ambient
      for (const { k, column } of partColumns) {
        column[n] = ws.power[k]!
        heat += ws.power[k]!
        hottest = Math.max(hottest, ws.junction[k]!)
      }
      const current = -ws.currents[prepared.inputTerminal]!
      columns['output']![n] = ws.voltages[prepared.output]!
      columns['heat']![n] = heat
      columns['inputCurrent']![n] = current
      columns['efficiency']![n] = efficiencyOf(volts * current, heat)
      columns['hottest']![n] = hottest
    }
  }
  const split = axis.findIndex((x) => x >= nominal)
  const first = split < 0 ? axis.length : split
  run(Array.from({ length: axis.length - first }, (_, k) => first + k))
  run(Array.from({ length: first }, (_, k) => first - 1 - k))
  return { axis, columns, outcome }
}
