/** Worst corners over the conditions of one observer, points and pairs of points, and a list of what had no solution. */
import type { ThermalCode } from '../solve/index.ts'
import type { Board } from './observation.ts'
import type { Observer, Read } from './observe.ts'
import { type Recalled, findWorst } from './worst.ts'

/** A worst value and the corner that makes it. `against` is the other end where the figure is a difference of two points. */
export interface Found {
  value: number
  board: Board
  condition: number
  mode: ThermalCode
  against?: number
}

export interface Unsolved {
  board: Board
  condition: number
  mode: ThermalCode
  outcome: number
}

/** Where a worst point is looked for, and how hard. */
export interface Among {
  readonly conditions: readonly number[]
  readonly modes: readonly ThermalCode[]
  readonly isWorthRefining?: (worst: number) => boolean
  readonly isThorough?: boolean
  /** Whether a use or a stress is read. */
  readonly ofLimits?: boolean
  /** Whether the value itself is read, so that a quick search will not do. */
  readonly isRead?: boolean
  /** Short of this value the worst need not be known exactly; see `Target`. */
  readonly floor?: number
  /** Past this value nobody asks how bad the worst is; see `Target`. */
  readonly limit?: number
}

export interface Search {
  /** How many tolerances are moved: all of the design's, or none. */
  readonly tolerances: number
  /** Worst of one reading over points, every thermal mode asked for; undefined where none solves. `name`: for recalling it. */
  readonly point: (name: string, read: Read, direction: 1 | -1, among: Among) => Found | undefined
  /** Worst difference of the output over pairs of points of one same board, in volts. `name`: for recalling it. */
  readonly pair: (name: string, pairs: readonly (readonly [number, number])[], mode: ThermalCode) => Found | undefined
  /** Every point met so far that has no solution. */
  readonly unsolved: () => Unsolved[]
}

/** A difference smaller than this share of the one with the other sign is not refined. */
const LESSER = 0.5

/** What the searches of a like design found, by search. */
export type Recall = Map<string, Recalled>

/** What is recalled under a name; nothing yet, at the first time. */
export function recalledIn(recall: Recall, name: string): Recalled {
  const recalled = recall.get(name) ?? { effects: [] }
  recall.set(name, recalled)
  return recalled
}

/** `isQuick`: see `Target`. */
export function createSearch(observer: Observer, tolerances: number, isQuick: boolean, recall?: Recall): Search {
  const { observe, slopes } = observer
  const unsolved = new Map<string, Unsolved>()

  const recalledOf = (name: string): { recalled?: Recalled } => (recall ? { recalled: recalledIn(recall, name) } : {})

  const note = (board: Board, condition: number, mode: ThermalCode): void => {
    const { outcome } = observe(board, condition, mode)
    if (outcome !== 0) unsolved.set(`${board.join()} ${condition} ${mode}`, { board, condition, mode, outcome })
  }

  return {
    tolerances,
    unsolved: () => [...unsolved.values()],
    point(name, read, direction, { conditions, modes, ofLimits, isRead = false, ...how }) {
      const cases = modes.flatMap((mode) => conditions.map((condition) => ({ mode, condition })))
      const worst = findWorst(
        {
          ...how,
          ...recalledOf(`${name} ${direction} ${cases.length}`),
          isQuick: isQuick && !isRead,
          direction,
          conditions: cases.length,
          value: (b, k) => read(observe(b, cases[k]!.condition, cases[k]!.mode)),
          slopes: (from, k, into) => slopes(read, from, cases[k]!.condition, cases[k]!.mode, into, ofLimits),
        },
        tolerances,
      )
      for (const f of worst?.failures ?? []) note(f.board, cases[f.condition]!.condition, cases[f.condition]!.mode)
      return worst && { value: worst.value, board: worst.board, ...cases[worst.condition]! }
    },
    pair(name, pairs, mode) {
      const output: Read = (s) => s.output
      let best: Found | undefined
      const other = new Float64Array(tolerances)
      for (const direction of [1, -1] as const) {
        const worst = findWorst(
          {
            direction,
            ...recalledOf(`${name} ${mode} ${direction} ${pairs.length}`),
            isThorough: true,
            conditions: pairs.length,
            value: (b, k) => observe(b, pairs[k]![0], mode).output - observe(b, pairs[k]![1], mode).output,
            slopes(from, k, into) {
              slopes(output, from, pairs[k]![0], mode, into)
              slopes(output, from, pairs[k]![1], mode, other)
              for (let j = 0; j < tolerances; j++) into[j]! -= other[j]!
            },
            isWorthRefining: (value) => !best || value * direction > LESSER * best.value,
          },
          tolerances,
        )
        for (const f of worst?.failures ?? []) for (const end of pairs[f.condition]!) note(f.board, end, mode)
        if (worst && (!best || worst.value * direction > best.value))
          best = {
            value: Math.abs(worst.value),
            board: worst.board,
            condition: pairs[worst.condition]![1],
            against: pairs[worst.condition]![0],
            mode,
          }
      }
      return best
    },
  }
}
