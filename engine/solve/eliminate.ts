/**
 * Chooses the order of elimination once, when a circuit is compiled, which `plan.ts` writes down.
 *
 * The pivot is the diagonal entry of least Markowitz cost, (row entries - 1)·(column entries - 1), among those not small
 * in their column at any of the given states (H. M. Markowitz, Management Science 3 (1957) 255). A column holding an
 * amplifier's gain thereby comes last, which is what keeps the fixed order sound. Off the diagonal it goes only where no
 * diagonal entry will do, as in the row of a floating source.
 */
import type { Below, Elimination, Pivot } from './circuit.ts'

/** A pivot is taken only if it is at least this share of the largest entry of its column. */
const THRESHOLD = 1e-3

interface Candidate {
  row: number
  column: number
}

/**
 * `rows[e]`, `columns[e]`: the place in `x` of entry e; `unknowns`: the places solved for; `samples`: values of the
 * entries at a few states, all of which the order must suit.
 */
export function chooseElimination(
  rows: ArrayLike<number>,
  columns: ArrayLike<number>,
  unknowns: Int32Array,
  samples: readonly Float64Array[],
): Elimination {
  const m = unknowns.length
  const numberOf = new Map(Array.from(unknowns, (place, k) => [place, k]))
  const place = new Int32Array(m * m).fill(-1)
  const values = samples.map(() => new Float64Array(m * m))
  for (let e = 0; e < rows.length; e += 1) {
    const at = numberOf.get(rows[e]!)! * m + numberOf.get(columns[e]!)!
    place[at] = e
    samples.forEach((sample, k) => {
      values[k]![at] = sample[e]!
    })
  }
  let entries = rows.length
  const rowDone = new Uint8Array(m)
  const columnDone = new Uint8Array(m)
  const pivots: Pivot[] = []

  for (let step = 0; step < m; step += 1) {
    const { row, column } = choosePivot(m, place, values, rowDone, columnDone)
    rowDone[row] = 1
    columnDone[column] = 1
    const pivotAt = row * m + column
    const right: number[] = []
    for (let j = 0; j < m; j += 1) if (columnDone[j] === 0 && place[row * m + j]! >= 0) right.push(j)
    const below: number[] = []
    for (let i = 0; i < m; i += 1) if (rowDone[i] === 0 && place[i * m + column]! >= 0) below.push(i)

    const rowsBelow: Below[] = []
    for (const i of below) {
      const updates: number[] = []
      for (const j of right) {
        const at = i * m + j
        if (place[at]! < 0) {
          place[at] = entries
          entries += 1
        }
        updates.push(place[at]!, place[row * m + j]!)
      }
      rowsBelow.push({ row: unknowns[i]!, entry: place[i * m + column]!, updates })
      for (const value of values) {
        const multiplier = value[i * m + column]! / value[pivotAt]!
        if (!Number.isFinite(multiplier)) continue
        for (const j of right) value[i * m + j]! -= multiplier * value[row * m + j]!
      }
    }
    pivots.push({
      row: unknowns[row]!,
      column: unknowns[column]!,
      entry: place[pivotAt]!,
      below: rowsBelow,
      right: right.map((j) => ({ entry: place[row * m + j]!, column: unknowns[j]! })),
    })
  }
  return { entries, pivots }
}

function choosePivot(
  m: number,
  place: Int32Array,
  values: readonly Float64Array[],
  rowDone: Uint8Array,
  columnDone: Uint8Array,
): Candidate {
  const rowCount = new Int32Array(m)
  const columnCount = new Int32Array(m)
  const largest = values.map(() => new Float64Array(m))
  const active: Candidate[] = []
  for (let row = 0; row < m; row += 1) {
    if (rowDone[row] === 1) continue
    for (let column = 0; column < m; column += 1) {
      const at = row * m + column
      if (columnDone[column] === 1 || place[at]! < 0) continue
      active.push({ row, column })
      rowCount[row]! += 1
      columnCount[column]! += 1
      values.forEach((value, k) => {
        largest[k]![column] = Math.max(largest[k]![column]!, Math.abs(value[at]!))
      })
    }
  }
  let best: Candidate | undefined
  let bestClass = 3
  let bestCost = Infinity
  let bestShare = -1
  for (const candidate of active) {
    const { row, column } = candidate
    let share = Infinity
    values.forEach((value, k) => {
      const most = largest[k]![column]!
      share = Math.min(share, most > 0 ? Math.abs(value[row * m + column]!) / most : 0)
    })
    const isSound = share >= THRESHOLD
    // sound on the diagonal, sound off it, whatever is largest
    const rank = isSound ? (row === column ? 0 : 1) : 2
    const cost = isSound ? (rowCount[row]! - 1) * (columnCount[column]! - 1) : 0
    if (rank < bestClass || (rank === bestClass && (cost < bestCost || (cost === bestCost && share > bestShare)))) {
      best = candidate
      bestClass = rank
      bestCost = cost
      bestShare = share
    }
  }
  // a structurally singular circuit: take any pair, the run finds the zero pivot
  return best ?? { row: rowDone.indexOf(0), column: columnDone.indexOf(0) }
}
