/** What one broken circuit does, read over all its corners: the load, the supply, the parts. */
import { COLD, SETTLED } from '../../solve/index.ts'
import type { Condition, Corner } from '../point.ts'
import type { Found } from '../search.ts'
import type { OverRating, ReadingCondition, Readings, Seen, UnsolvedFault } from './readings.ts'

/** A range of one quantity over every condition of a fault, and the corners behind its ends. */
export interface Reach {
  lowest: number
  highest: number
  corners: { lowest: Corner; highest: Corner }
}

export interface Measured {
  /** Volts at the load; absent where no point has a solution. */
  output?: Reach
  /** Amperes into the load, the largest, with its corner. */
  loadCurrent?: { value: number; corner: Corner }
  inputCurrent?: Reach
  /** Nominal board and condition; at the first moment where no temperature settles. */
  nominal?: Corner
  over: OverRating[]
  /** False where some condition has no settled temperature below 400 °C: a part burns. */
  settles: boolean
  /** Where it does not settle. */
  runaways: Condition[]
  /** Whether every other part bears it for good; absent where nothing could be solved. */
  survives?: boolean
  unsolved: UnsolvedFault[]
}

export function* measure(readings: Readings, start: ReadingCondition): Generator<void, Measured> {
  const output = yield* reach(readings, (seen) => seen.output)
  const inputCurrent = yield* reach(readings, (seen) => seen.inputCurrent)
  const drawn = yield* readings.worst((seen) => seen.load, 1)
  const drawnCorner = drawn && readings.corner(drawn)
  const over = yield* readings.overRatings()
  const nominal = nominalCorner(readings, start)
  const runaways = readings.runaways()
  const settles = runaways.length === 0
  const unsolved = readings.unsolved()
  return {
    ...(output ? { output } : {}),
    ...(drawnCorner ? { loadCurrent: { value: drawn.value, corner: drawnCorner } } : {}),
    ...(inputCurrent ? { inputCurrent } : {}),
    ...(nominal ? { nominal } : {}),
    over,
    settles,
    runaways,
    ...(output ? { survives: settles && over.length === 0 } : {}),
    unsolved,
  }
}

function* reach(readings: Readings, read: (seen: Seen) => number): Generator<void, Reach | undefined> {
  const low = yield* readings.worst(read, -1)
  const high = yield* readings.worst(read, 1)
  const lowest = low && readings.corner(low)
  const highest = high && readings.corner(high)
  return lowest && highest && { lowest: low.value, highest: high.value, corners: { lowest, highest } }
}

function nominalCorner({ observer, corner }: Readings, { input, load, ambient }: ReadingCondition): Corner | undefined {
  const board = new Int8Array(observer.prepared.design.tolerances.length)
  const condition = observer.condition(input, load, ambient, true)
  const found = (mode: Found['mode']): Found => ({ value: 0, board, condition, mode })
  return corner(found(SETTLED)) ?? corner(found(COLD))
}
