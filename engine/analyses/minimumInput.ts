/** The lowest input at which the worst board still regulates at full load. */
import type { Requirements } from '../requirements/study.ts'
import { COLD, SETTLED, type ThermalCode, newWorkspace, solvePoint } from '../solve/index.ts'
import type { Board } from './observation.ts'
import type { Observer } from './observe.ts'
import { setBoard } from './prepare.ts'
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
/** Volts to which the input is found. */
const RESOLUTION = 5e-4

/**
 * At full load, over both ends of ambient, cold and settled: the lowest input that holds the lower edge of the band, or,
 * where this board's output lies below that edge (or within 2 % of it) even at nominal input, the input at which it has
 * fallen 2 % below its value there. A board without an output at nominal input lets go there.
 */
export function findMinimumInput(observer: Observer, requirements: Requirements, tolerances: number): MinimumInput {
  const { input, output, load, ambient } = requirements
  const { prepared } = observer
  const edge = output.voltage * (1 - output.tolerance)
  const ws = newWorkspace(prepared.circuit)

  const search = (board: Board, t: number, mode: ThermalCode): number => {
    setBoard(prepared, ws, board)
    const outputAt = (volts: number): number =>
      solvePoint(prepared.circuit, ws, volts, load.max, t, mode) === 0 ? ws.voltages[prepared.output]! : NaN
    const nominal = outputAt(input.nominal)
    if (Number.isNaN(nominal)) return input.nominal
    const threshold = Math.min(edge, nominal * (1 - DROPOUT_SHARE))
    let high = input.nominal
    let low = input.nominal
    // Down in small steps first, each from the one before: a first step into dropout is the hardest to solve.
    const stride = Math.max(0.05 * (input.nominal - threshold), 0.02)
    for (;;) {
      low = Math.max(threshold * 0.9, high - stride)
      if (!(outputAt(low) >= threshold) || low <= threshold * 0.9) break
      high = low
    }
    while (high - low > RESOLUTION) {
      const middle = (low + high) / 2
      if (outputAt(middle) >= threshold) high = middle
      else low = middle
    }
    return high
  }

  const nominal = new Int8Array(tolerances)
  const cases = [...new Set([ambient.min, ambient.max])].flatMap((t) =>
    ([SETTLED, COLD] as const).map((mode) => ({ t, mode, first: search(nominal, t, mode) })),
  )
  // The board that sags most just where the nominal one lets go is the one that lets go first.
  const hardest = cases.reduce((a, b) => (b.first > a.first ? b : a))
  const here = observer.condition(hardest.first, load.max, hardest.t)
  const sagging = findWorst(
    {
      direction: -1,
      conditions: 1,
      value: (b) => observer.observe(b, here, hardest.mode).output,
      isWorthRefining: () => false,
    },
    tolerances,
  )
  let worst: MinimumInput = { value: hardest.first, board: nominal, ambient: hardest.t, mode: hardest.mode }
  if (sagging)
    for (const { t, mode } of cases) {
      const value = search(sagging.board, t, mode)
      if (value > worst.value) worst = { value, board: sagging.board, ambient: t, mode }
    }
  return worst
}
