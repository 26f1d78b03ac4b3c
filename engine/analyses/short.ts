/** The shorted output at the highest input: the largest current, and what the short asks of every rating once it has settled. */
import { once } from '../once.ts'
import type { Requirements } from '../requirements/study.ts'
import { COLD, SETTLED, type ThermalCode } from '../solve/index.ts'
import { SHORT_LOAD } from './conditions.ts'
import { type Observer, type Read, createObserver } from './observe.ts'
import { type Prepared, guessAt, prepare } from './prepare.ts'
import type { Found } from './search.ts'
import { findWorst } from './worst.ts'

export interface ShortCircuit {
  /** Solves the shorted output; its conditions are its own. */
  observer: Observer
  current: Found
  heat: number
  /** By limit: the largest share used of the maker's rating. */
  use: Found[]
  settles: boolean
}

/** Below this share of a rating its worst corner is not refined. */
const HARDLY_USED = 0.6

/**
 * Where surviving the short is no requirement, the nominal board alone says what happens. What is handed back proves it;
 * with a `floor`, shares short of it need not be exact.
 */
export function prepareShort(
  built: Prepared,
  requirements: Requirements,
  tolerances: number,
): (floor?: number) => ShortCircuit {
  const { design } = built
  const isRequired = requirements.limits.survivesShort
  const prepared = prepare({ ...design, guess: guessAt(design, 0) }, built)
  const observer = createObserver(prepared, requirements.input.max, SHORT_LOAD)
  const { ambient } = requirements
  const shorted = [...new Set([ambient.min, ambient.max])].map((t) =>
    observer.condition(requirements.input.max, SHORT_LOAD, t, true),
  )
  const nominal = new Int8Array(design.tolerances.length)
  // A fault that runs away has no settled point: its current is then that of the first moment, and it does not survive.
  const settles = shorted.every((c) => observer.observe(nominal, c, SETTLED).outcome === 0)
  const mode: ThermalCode = settles ? SETTLED : COLD
  const search = (read: Read, floor?: number): Found | undefined => {
    const worst = findWorst(
      {
        direction: 1,
        conditions: shorted.length,
        value: (b, k) => read(observer.observe(b, shorted[k]!, mode)),
        slopes: (from, k, into) => observer.slopes(read, from, shorted[k]!, mode, into, true),
        isWorthRefining: (value) => isRequired && settles && value > HARDLY_USED,
        ...(floor === undefined ? {} : { floor }),
      },
      isRequired && settles ? tolerances : 0,
    )
    return worst && { value: worst.value, board: worst.board, condition: shorted[worst.condition]!, mode }
  }
  const whole = (found: Found | undefined): Found | undefined =>
    found && found.board.length === nominal.length ? found : found && { ...found, board: nominal }
  const terminal = prepared.circuit.terminals[prepared.circuit.element('load')]!
  const hottest = once(() => whole(search((s) => s.heat)))
  const current = once((): Found => {
    const board = hottest()?.board ?? nominal
    const condition = hottest()?.condition ?? shorted[0]!
    const { outcome, ws } = observer.solve(board, condition, mode)
    return { value: outcome === 0 ? Math.abs(ws.currents[terminal]!) : NaN, board, condition, mode }
  })
  return (floor) => ({
    observer,
    settles,
    use: prepared.limits.map((_, k) => whole(search((s) => s.use[k]!, floor)) ?? current()),
    get current() {
      return current()
    },
    get heat() {
      return hottest()?.value ?? NaN
    },
  })
}
