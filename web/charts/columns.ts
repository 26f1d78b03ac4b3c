/** The curves as the plots need them: typed arrays in SI, straight from the engine, plus what is stacked or measured from a base. */
import type { Answer, Curves, Part, Table, TopologyName } from '../../engine/compare/comparison.ts'

export type AxisName = 'input' | 'load'
export type Columns = Record<string, Float64Array>

/** Heat by part, largest first: up to three parts by name, the others together. */
export interface HeatShare {
  /** Part id, or e.g. `6 others`. */
  readonly label: string
  /** Ids of the parts in it. */
  readonly parts: readonly string[]
}

export interface DesignColumns {
  readonly topology: TopologyName
  /** `x` in volts; `output`, `heat`, `efficiency`, `hottest`, `inputCurrent`; `part0` to `part3` in watts and their running sums `stack0` to `stack3`. */
  readonly input: Columns
  /** `x` in amperes; `output`, `efficiency`; `change`: output less the output at the least load, in volts. */
  readonly load: Columns
  readonly shares: readonly HeatShare[]
}

/** Parts shown by name before the rest is put together. */
export const NAMED_SHARES = 3

/** Watts: a part that never dissipates more, a capacitor say, is no strand. */
const NO_HEAT = 1e-9

const EMPTY = new Float64Array(0)

/** Linear interpolation in a swept column; NaN outside the sweep and beside a failed point. */
export function valueAt(axis: Float64Array, column: Float64Array | undefined, x: number): number {
  const n = axis.length
  if (!column || n === 0 || !(x >= axis[0]! - 1e-9 && x <= axis[n - 1]! + 1e-9)) return Number.NaN
  let low = 0
  let high = n - 1
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (axis[middle]! <= x) low = middle
    else high = middle
  }
  const width = axis[high]! - axis[low]!
  const t = width > 0 ? Math.min(Math.max((x - axis[low]!) / width, 0), 1) : 0
  // a point exactly on the grid does not depend on its neighbour
  if (t === 0) return column[low]!
  if (t === 1) return column[high]!
  return column[low]! + t * (column[high]! - column[low]!)
}

function peak(column: Float64Array): number {
  let high = 0
  for (const value of column) if (value > high) high = value
  return high
}

/** Ids of the parts that dissipate, largest peak first, in shares. */
function sharesOf(table: Table, parts: readonly Part[]): HeatShare[] {
  const order = new Map(parts.map((part, i) => [part.id, i]))
  const heats = Object.keys(table.columns)
    .filter((name) => name.startsWith('heat.'))
    .map((name) => ({ id: name.slice('heat.'.length), peak: peak(table.columns[name]!) }))
    .filter((heat) => heat.peak > NO_HEAT)
    .toSorted((a, b) => b.peak - a.peak || (order.get(a.id) ?? 0) - (order.get(b.id) ?? 0))
  const named = heats.length <= NAMED_SHARES + 1 ? heats : heats.slice(0, NAMED_SHARES)
  const rest = heats.slice(named.length)
  const shares: HeatShare[] = named.map(({ id }) => ({ label: id, parts: [id] }))
  if (rest.length > 0) shares.push({ label: `${rest.length} others`, parts: rest.map(({ id }) => id) })
  return shares
}

function sum(columns: readonly Float64Array[], length: number): Float64Array {
  const total = new Float64Array(length)
  for (const column of columns) for (let i = 0; i < length; i++) total[i]! += column[i]!
  return total
}

function inputColumns(table: Table, shares: readonly HeatShare[]): Columns {
  const { columns, axis } = table
  const out: Columns = { x: axis }
  for (const name of ['output', 'heat', 'efficiency', 'hottest', 'inputCurrent']) out[name] = columns[name] ?? EMPTY
  let below: Float64Array | undefined
  for (let k = 0; k <= NAMED_SHARES; k++) {
    const share = shares[k]
    const own =
      share &&
      sum(
        share.parts.map((id) => columns[`heat.${id}`]!),
        axis.length,
      )
    out[`part${k}`] = own ?? EMPTY
    below = own && (below ? sum([below, own], axis.length) : own)
    out[`stack${k}`] = below ?? EMPTY
  }
  return out
}

function loadColumns(table: Table, leastLoad: number): Columns {
  const { columns, axis } = table
  const output = columns['output'] ?? EMPTY
  const base = valueAt(axis, output, Math.max(leastLoad, axis[0] ?? 0))
  return {
    x: axis,
    output,
    efficiency: columns['efficiency'] ?? EMPTY,
    change: output.map((volts) => volts - base),
  }
}

const NO_INPUT: Columns = Object.fromEntries(
  [
    'x',
    'output',
    'heat',
    'efficiency',
    'hottest',
    'inputCurrent',
    ...[0, 1, 2, 3].flatMap((k) => [`part${k}`, `stack${k}`]),
  ].map((name) => [name, EMPTY]),
)
const NO_LOAD: Columns = { x: EMPTY, output: EMPTY, efficiency: EMPTY, change: EMPTY }

/** One entry a design, in the order of `comparison.designs`; a design without a circuit has columns of length 0. */
export function designColumns(answer: Answer): DesignColumns[] {
  const { designs, requirements } = answer.comparison
  return designs.map((design, i) => {
    const curves: Curves | undefined = answer.curves[i]
    if (!curves) return { topology: design.topology, input: NO_INPUT, load: NO_LOAD, shares: [] }
    const shares = sharesOf(curves.byInput, design.parts)
    return {
      topology: design.topology,
      input: inputColumns(curves.byInput, shares),
      load: loadColumns(curves.byLoad, requirements.load.min),
      shares,
    }
  })
}
