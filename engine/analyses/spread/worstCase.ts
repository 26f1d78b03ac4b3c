/**
 * The output's extremes as worst-case analysis gives them, two ways. Extreme value: every tolerance and the environment at
 * whichever end is worst, as the proof found and solved it. Root-sum-square: at each end of the environment, which is no
 * matter of chance, the tolerances' own effects about nominal added as the root of their squares. Both are published practice
 * (ECSS-Q-HB-30-01A, "Worst case analysis", 2011, and JPL D-5703, "Reliability Analyses Handbook", 1990; from memory).
 */
import { SETTLED } from '../../solve/index.ts'
import { type ThermalMode, thermalName } from '../point.ts'
import type { Proof } from '../prove.ts'
import type { Found } from '../search.ts'

export interface Where {
  input: number
  load: number
  ambient: number
}

export interface Extreme {
  /** Volts. */
  value: number
  condition: Where
  thermal: ThermalMode
}

export interface WorstCase {
  corners: { lowest: Extreme; highest: Extreme }
  /**
   * Settled temperatures. `nominal` is the nominal board's output at this end of the environment, `reach` the root of the sum
   * of squares. With limits at 3 sigma it is three standard deviations of the linear circuit; with tolerances uniform within
   * their limits it is the square root of three of them. Absent where no end of the environment could be solved throughout.
   */
  rootSumSquare?: { lowest: Extreme & Reach; highest: Extreme & Reach }
}

interface Reach {
  nominal: number
  reach: number
}

/** Every board needed has mostly been solved by the proof already; yields after each end of the environment. */
export function* worstCaseOf({ observer, conditions, design, output }: Proof): Generator<void, WorstCase> {
  const extremeOf = ({ value, condition, mode }: Found): Extreme => ({
    value,
    condition: where(condition),
    thermal: thermalName(mode),
  })
  const where = (condition: number): Where => {
    const { input, load, ambient } = observer.conditions[condition]!
    return { input, load, ambient }
  }
  let lowest: (Extreme & Reach) | undefined
  let highest: (Extreme & Reach) | undefined
  for (const condition of conditions.corners) {
    const found = rootSumSquareAt(design.tolerances.length, (board) => {
      const seen = observer.observe(board, condition, SETTLED)
      return seen.outcome === 0 ? seen.output : undefined
    })
    yield
    if (!found) continue
    const { nominal, down, up } = found
    const end = { condition: where(condition), thermal: thermalName(SETTLED), nominal }
    if (!lowest || nominal - down < lowest.value) lowest = { value: nominal - down, ...end, reach: down }
    if (!highest || nominal + up > highest.value) highest = { value: nominal + up, ...end, reach: up }
  }
  return {
    corners: { lowest: extremeOf(output.lowest), highest: extremeOf(output.highest) },
    ...(lowest && highest && { rootSumSquare: { lowest, highest } }),
  }
}

/**
 * Each tolerance alone at both of its limits: what lowers the output most counts downwards, what raises it most upwards.
 * Undefined where one of these boards has no value.
 */
export function rootSumSquareAt(
  tolerances: number,
  value: (board: Int8Array) => number | undefined,
): { nominal: number; down: number; up: number } | undefined {
  const board = new Int8Array(tolerances)
  const nominal = value(board)
  if (nominal === undefined) return undefined
  let down = 0
  let up = 0
  for (let j = 0; j < tolerances; j++) {
    board[j] = 1
    const high = value(board)
    board[j] = -1
    const low = value(board)
    board[j] = 0
    if (high === undefined || low === undefined) return undefined
    down += Math.min(0, high - nominal, low - nominal) ** 2
    up += Math.max(0, high - nominal, low - nominal) ** 2
  }
  return { nominal, down: Math.sqrt(down), up: Math.sqrt(up) }
}
