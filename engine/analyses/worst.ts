/**
 * The worst corner of a figure over every part tolerance, found with few solves: at each condition the sign of every
 * tolerance's effect is taken by moving it alone, to first order; the corners that those signs name are solved, the most
 * promising first, and at the worst one found every sign is then flipped in turn until no flip makes it worse. Signs that
 * depend on the other tolerances (a temperature coefficient either side of its reference temperature, say) are thereby found too.
 */
import type { Board } from './observation.ts'

export interface Target {
  /** +1 looks for the highest value, -1 for the lowest. */
  readonly direction: 1 | -1
  /** How many conditions there are to try. */
  readonly conditions: number
  /** Whether the worst corner found is worth refining; without it, always. A rating hardly used need not be known to the last per cent. */
  readonly isWorthRefining?: (worst: number) => boolean
  /** The figure of one board at one condition; NaN where there is no solution. */
  readonly value: (board: Board, condition: number) => number
  /** Its change for each unit of every tolerance, at the solved board `from`, into `into`; NaN where it cannot be told. Without it every board is solved. */
  readonly slopes?: (from: Board, condition: number, into: Float64Array) => void
  /** Solves the corner of every condition, also where it cannot be the worst, so that none without a solution is missed. */
  readonly isThorough?: boolean
  /**
   * Takes the effects again at the worst corner and flips only the signs on which the two do not agree. What this misses lies
   * beyond a cliff on the far side of a tolerance, where the circuit lets go: a design that meets has none.
   */
  readonly isQuick?: boolean
  /**
   * Short of this value nobody asks how bad the worst is: a worst that its effects, with the allowance, do not carry there is
   * not refined, and (unless thorough) corners that they do not carry there are not solved.
   */
  readonly floor?: number
  /** Past this value nobody asks how bad the worst is: the search ends at the first corner there. */
  readonly limit?: number
  readonly recalled?: Recalled
}

/**
 * What was found of a like target before; whatever is not there yet is filled in. Effects that are known are not taken anew, and
 * a worst corner that is the worst again is refined quickly, or in a quick search not at all.
 */
export interface Recalled {
  /** By condition, in the direction looked for. */
  readonly effects: (Float64Array | undefined)[]
  worst?: { board: Board; condition: number }
  /** A corner past the limit, looked at before any other. */
  past?: { board: Board; condition: number }
}

export interface Worst {
  value: number
  board: Board
  condition: number
  /** Boards and conditions at which the figure has no value. */
  failures: { board: Board; condition: number }[]
}

/** Effects below this share of the figure's own size do not count as a sign. */
const SIGNIFICANT = 1e-9
/** A corner is left unsolved where even its effects, made so much larger, cannot carry it past the worst that was solved. */
const ALLOWANCE = 1.5

/** A tolerance whose effect at the corner is within this factor of that at the nominal board cannot turn about in between. */
const LIKE = 5
/** A flip that even the larger of both effects, made this many times as large, does not change by so much of the figure is left out. */
const FELT = 1e-8

/** A condition as it looks from its nominal board. */
interface Prospect {
  readonly condition: number
  readonly corner: Board
  /** By tolerance, in the direction looked for. */
  readonly effects: Float64Array
  /** How far the corner's effects carry, in the direction looked for; and the value that makes, counted in that direction. */
  readonly reach: number
  readonly hope: number
}

export function findWorst(target: Target, tolerances: number): Worst | undefined {
  const { direction, value, slopes, recalled } = target
  const floor = target.floor === undefined ? -Infinity : target.floor * direction
  const limit = target.limit === undefined ? Infinity : target.limit * direction
  const nominal = new Int8Array(tolerances)
  const failures: Worst['failures'] = []
  let worst: Worst | undefined
  const consider = (board: Board, condition: number): number => {
    const found = value(board, condition)
    if (Number.isNaN(found)) failures.push({ board: board.slice(), condition })
    else if (!worst || (found - worst.value) * direction > 0)
      worst = { value: found, board: board.slice(), condition, failures }
    return found
  }
  /** Whether the worst so far is past the limit; then it is remembered. */
  const isPast = (): boolean => {
    const is = worst !== undefined && worst.value * direction > limit
    if (is && recalled) recalled.past = worst!
    return is
  }
  if (recalled?.past && limit < Infinity) {
    consider(recalled.past.board, recalled.past.condition)
    if (isPast()) return worst
  }
  const prospects: Prospect[] = []
  const moved = new Int8Array(tolerances)
  /** The nominal board's effects, in the direction looked for: to first order, or by solving where that is not to be had. */
  const effectsAt = (condition: number, base: number): Float64Array => {
    const effects = new Float64Array(tolerances).fill(NaN)
    slopes?.(nominal, condition, effects)
    for (let j = 0; j < tolerances; j++) {
      if (Number.isNaN(effects[j]!)) {
        moved.fill(0)
        moved[j] = 1
        effects[j] = value(moved, condition) - base
      }
      effects[j]! *= direction
    }
    return effects
  }
  const bases: number[] = []
  for (let condition = 0; condition < target.conditions; condition++) {
    bases.push(consider(nominal, condition))
    if (isPast()) return worst
  }
  for (const [condition, base] of bases.entries()) {
    const corner = new Int8Array(tolerances)
    const effects = recalled?.effects[condition] ?? effectsAt(condition, base)
    if (recalled) recalled.effects[condition] = effects
    const least = SIGNIFICANT * Math.max(Math.abs(base), 1e-6)
    let reach = 0
    for (let j = 0; j < tolerances; j++) {
      const change = effects[j]!
      corner[j] = change > least ? 1 : change < -least ? -1 : 0
      if (corner[j] !== 0) reach += Math.abs(change)
    }
    prospects.push({ condition, corner, effects, reach, hope: base * direction + reach })
    if (!target.isThorough) continue
    consider(corner, condition)
    if (isPast()) return worst
  }
  const toTry = target.isThorough ? [] : prospects.toSorted((a, b) => b.hope - a.hope)
  for (const { condition, corner, reach, hope } of toTry) {
    const best: Worst | undefined = worst
    const far = hope + (ALLOWANCE - 1) * reach
    if (far < floor || (best && far < best.value * direction)) continue
    consider(corner, condition)
    if (isPast()) return worst
  }
  if (recalled?.worst) consider(recalled.worst.board, recalled.worst.condition)
  if (!worst) return undefined
  if (target.isWorthRefining && !target.isWorthRefining(worst.value)) return worst
  if (floor > -Infinity) {
    const { condition, value: found }: Worst = worst
    const { reach } = prospects[condition]!
    if (found * direction + (ALLOWANCE - 1) * reach < floor) return worst
  }

  const isKnown = recalled?.worst !== undefined && isSame(recalled.worst, worst)
  if (isKnown && target.isQuick) return worst
  /** The tolerances whose other side may be the worse one. */
  const doubtful = ({ board, condition, value: found }: Worst): number[] => {
    const all = [...board.keys()]
    if (!(target.isQuick || isKnown) || !slopes) return all
    const first = prospects[condition]!.effects
    const there = new Float64Array(tolerances).fill(NaN)
    slopes(board, condition, there)
    return all.filter((j) => isDoubtful(board[j]!, first[j]!, there[j]! * direction, Math.abs(found)))
  }
  let improved = true
  for (let round = 0; improved && round < 4; round++) {
    improved = false
    for (const j of doubtful(worst)) {
      const here: Worst = worst
      const sides = here.board[j] === 0 ? [-1, 1] : [-here.board[j]!]
      for (const side of sides) {
        const flipped = here.board.slice()
        flipped[j] = side
        consider(flipped, here.condition)
      }
      if (isPast()) return worst
      if (worst !== here) improved = true
    }
  }
  if (recalled) recalled.worst = { board: worst.board, condition: worst.condition }
  return worst
}

const isSame = (a: { board: Board; condition: number }, b: { board: Board; condition: number }): boolean =>
  a.condition === b.condition && a.board.every((side, j) => side === b.board[j])

/**
 * Whether the other side of a tolerance could still be the worse one: by its effect at the nominal board and at the corner,
 * both in the direction looked for, and the size of the figure.
 */
function isDoubtful(side: number, first: number, there: number, size: number): boolean {
  const a = Math.abs(first)
  const b = Math.abs(there)
  if (LIKE * Math.max(a, b) < FELT * size) return false
  return !(first * side > 0 && there * side > 0 && a < LIKE * b && b < LIKE * a)
}
