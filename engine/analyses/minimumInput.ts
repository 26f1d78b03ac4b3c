/** The lowest input at which the worst board still regulates at full load. */
import type { Requirements } from '../requirements/study.ts'
import { COLD, SETTLED, type ThermalCode } from '../solve/index.ts'
import type { Board, Observer } from './observe.ts'
import { findWorst } from './worst.ts'

export interface MinimumInput {
  /** Volts. */
  value: number
  board: Board
  ambient: number
  mode: ThermalCode
}

/** Dropout is where the output has fallen by this share of its value at nominal input (common practice, no source). */
const DROPOUT_SHARE = 0.02
const RESOLUTION = 1e-4

/**
 * At full load, over both ends of ambient, cold and settled: the lowest input that holds the lower edge of the band, or,
 * where this board's output lies below that edge (or within 2 % of it) even at nominal input, the input at which it has
 * fallen 2 % below its value there.
 */
export function findMinimumInput(observer: Observer, requirements: Requirements, tolerances: number): MinimumInput {
  const { input, output, load, ambient } = requirements
  const edge = output.voltage * (1 - output.tolerance)
  const outputAt = (board: Board, volts: number, t: number, mode: ThermalCode): number =>
    observer.observe(board, observer.condition(volts, load.max, t), mode).output

  const search = (board: Board, t: number, mode: ThermalCode): number => {
    const threshold = Math.min(edge, outputAt(board, input.nominal, t, mode) * (1 - DROPOUT_SHARE))
    const excess = (volts: number): number => {
      const found = outputAt(board, volts, t, mode) - threshold
      return Number.isNaN(found) ? -threshold : found
    }
    let low = threshold * 0.9
    let high = input.nominal
    let atLow = excess(low)
    let atHigh = excess(high)
    if (!(atHigh > 0)) return input.nominal
    if (atLow > 0) return low
    // Illinois variant of regula falsi: keeps the bracket, does not stall at the kink where regulation begins.
    let side = 0
    for (let k = 0; k < 60 && high - low > RESOLUTION; k++) {
      const mid = k % 3 === 2 ? (low + high) / 2 : (low * atHigh - high * atLow) / (atHigh - atLow)
      const at = excess(mid)
      if (at > 0) {
        high = mid
        atHigh = at
        if (side === 1) atLow /= 2
        side = 1
      } else {
        low = mid
        atLow = at
        if (side === -1) atHigh /= 2
        side = -1
      }
    }
    return high
  }

  const nominal = new Int8Array(tolerances)
  let worst: MinimumInput = { value: -Infinity, board: nominal, ambient: ambient.nominal, mode: SETTLED }
  for (const t of ambient.min === ambient.max ? [ambient.min] : [ambient.min, ambient.max])
    for (const mode of [SETTLED, COLD] as const) {
      const first = search(nominal, t, mode)
      // The board that sags most just where the nominal one lets go is the one that lets go first.
      const sagging = findWorst({ direction: -1, conditions: 1, value: (b) => outputAt(b, first, t, mode) }, tolerances)
      const board = sagging?.board ?? nominal
      const value = Math.max(first, search(board, t, mode))
      if (value > worst.value) worst = { value, board: value > first ? board : nominal, ambient: t, mode }
    }
  return worst
}
