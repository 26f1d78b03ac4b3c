/** The swept curves that the plots draw: nominal parts, nominal ambient, settled temperatures. */
import type { Requirements } from '../requirements/study.ts'
import { SETTLED, type Workspace, newWorkspace, solvePoint } from '../solve/index.ts'
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
 * `efficiency`, `inputCurrent` A, `hottest` degC, and `heat.<partId>` W for each part that dissipates. Over the input also what
 * a circuit diagram shows: `volts.<node>`, and `amperes.<partId>.<node>` into a part from each node that it joins.
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
    byInput: sweep(prepared, requirements, {
      axis: inputAxis(requirements),
      nominal: input.nominal,
      at: (v) => [v, load.max],
      hasNodes: true,
    }),
    byLoad: sweep(prepared, requirements, {
      axis: loadAxis(requirements),
      nominal: load.nominal,
      at: (i) => [input.nominal, i],
      hasNodes: false,
    }),
  }
}

interface Sweep {
  readonly axis: Float64Array
  readonly nominal: number
  readonly at: (x: number) => readonly [input: number, load: number]
  /** Whether the voltages of nodes and the currents of parts are kept too. */
  readonly hasNodes: boolean
}

/** A column and where each of its points is read off. */
interface NodeColumn {
  readonly column: Float64Array
  readonly read: (ws: Workspace) => number
}

/** Voltages of all nodes but ground, and currents into every part; a part's elements at one node count together. */
function nodeColumns(prepared: Prepared, columns: Record<string, Float64Array>, length: number): NodeColumn[] {
  const { circuit, design } = prepared
  const { ground, elements } = design.netlist
  const terminals = new Map<string, number[]>()
  elements.forEach(({ part, nodes }, k) =>
    nodes.forEach((node, pin) => {
      const name = `amperes.${part}.${node}`
      terminals.set(name, [...(terminals.get(name) ?? []), circuit.terminals[k]! + pin])
    }),
  )
  const reads: [string, NodeColumn['read']][] = [
    ...[...new Set(elements.flatMap(({ nodes }) => nodes))]
      .filter((node) => node !== ground)
      .map((node): [string, NodeColumn['read']] => {
        const index = circuit.node(node)
        return [`volts.${node}`, (ws) => ws.voltages[index]!]
      }),
    ...[...terminals].map(([name, indices]): [string, NodeColumn['read']] => [
      name,
      (ws) => {
        let sum = 0
        for (const index of indices) sum += ws.currents[index]!
        return sum
      },
    ]),
  ]
  return reads.map(([name, read]) => ({ column: (columns[name] = new Float64Array(length)), read }))
}

/** One warm sweep away from the nominal point in both directions, so that the wanted branch is followed outwards. */
function sweep(prepared: Prepared, requirements: Requirements, { axis, nominal, at, hasNodes }: Sweep): Table {
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
  const ofNodes = hasNodes ? nodeColumns(prepared, columns, axis.length) : []
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
      for (const { column, read } of ofNodes) column[n] = read(ws)
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
