/**
 * What is read off a broken circuit over its corners. Each reading is solved on the nominal board at every condition first;
 * where it is worst, the tolerances are then moved (`findWorst`). A fault whose temperatures do not settle is read at its
 * first moment, every junction at ambient, and its heat is held against what the cooling carries.
 */
import { LOAD_KNEE } from '../../devices/currentSource.ts'
import { COLD, OUTCOMES, type OutcomeName, SETTLED, type ThermalCode } from '../../solve/index.ts'
import type { SizedDesign } from '../../topologies/define.ts'
import type { Board, Observation } from '../observation.ts'
import { type Observer, createObserver } from '../observe.ts'
import { type Condition, type Corner, type ThermalMode, cornerOf, thermalName } from '../point.ts'
import { prepare } from '../prepare.ts'
import type { Found } from '../search.ts'
import { findWorst } from '../worst.ts'

/** A rating that the fault exceeds. */
export interface OverRating {
  part: string
  role: string
  /** As in the parts list; `heat` is what the part takes at first where no temperature settles, against what its cooling carries. */
  quantity: string
  unit: string
  stress: number
  /** What the maker allows there. */
  allowed: number
  /** stress / allowed; absent where nothing at all is allowed. */
  factor?: number
  corner: Corner
}

/** A point of the fault without a solution. */
export interface UnsolvedFault {
  condition: Condition
  thermal: ThermalMode
  outcome: OutcomeName
}

export interface Readings {
  readonly observer: Observer
  /** Undefined where no point has a solution. */
  readonly worst: (read: (seen: Seen) => number, direction: 1 | -1) => Generator<void, Found | undefined>
  /** One entry a part and quantity, the furthest over first. */
  readonly overRatings: () => Generator<void, OverRating[]>
  readonly corner: (found: Found) => Corner | undefined
  /** Conditions at which no temperature settles. */
  readonly runaways: () => Condition[]
  readonly unsolved: () => UnsolvedFault[]
}

/** Volts at the load, amperes into it and out of the supply. */
export interface Seen {
  readonly output: number
  readonly load: number
  readonly inputCurrent: number
}

export interface ReadingCondition {
  readonly input: number
  readonly load: number
  readonly ambient: number
}

type Value = (board: Board, condition: number, mode: ThermalCode) => number

/** Below this share of a rating its worst corner is not refined. */
const HARDLY_USED = 0.6
/** Conditions whose nominal board comes this close to the worst one, as a share, are refined as well, so many at most. */
const CLOSE = 0.2
const REFINED = 4
const RUNAWAY: OutcomeName = 'thermalRunaway'

/** `start` is the condition where the search for the wanted branch begins. */
export function readBroken(
  design: SizedDesign,
  start: ReadingCondition,
  conditions: readonly ReadingCondition[],
): Readings {
  const prepared = prepare(design)
  const observer = createObserver(prepared, start.input, start.load)
  const indices = conditions.map(({ input, load, ambient }) => observer.condition(input, load, ambient, true))
  const nominal = new Int8Array(design.tolerances.length)
  const failures = new Map<string, UnsolvedFault>()
  const parts = new Map(design.parts.map((part) => [part.id, part]))
  const powers = new Map<string, Float64Array>()

  const observe = (board: Board, index: number, mode: ThermalCode): Observation | undefined => {
    const seen = observer.observe(board, index, mode)
    if (seen.outcome === 0) return seen
    const { input, load, ambient } = observer.conditions[index]!
    failures.set(`${index} ${mode} ${seen.outcome}`, {
      condition: { input, load, ambient },
      thermal: thermalName(mode),
      outcome: OUTCOMES[seen.outcome]!,
    })
    return undefined
  }

  /** The worst of a value over the conditions, then over the boards at the worst of them and those that come close. */
  function* search(
    value: Value,
    direction: 1 | -1,
    modes: readonly ThermalCode[],
    isWorthRefining: (worst: number) => boolean = () => true,
  ): Generator<void, Found | undefined> {
    const found: Found[] = []
    for (const mode of modes)
      for (const condition of indices) {
        const worth = value(nominal, condition, mode)
        if (!Number.isNaN(worth)) found.push({ value: worth, board: nominal, condition, mode })
        yield
      }
    found.sort((a, b) => (b.value - a.value) * direction)
    let [best] = found
    if (!best || !isWorthRefining(best.value)) return best
    const reach = CLOSE * Math.abs(best.value)
    const { value: top } = best
    for (const { condition, mode } of found.filter((each) => Math.abs(each.value - top) <= reach).slice(0, REFINED)) {
      // What the search asks for first is solved here, where it can be interrupted; it is then remembered.
      for (let j = 0; j < nominal.length; j++) {
        const moved = nominal.slice()
        moved[j] = 1
        value(moved, condition, mode)
        yield
      }
      const target = { direction, conditions: 1, value: (board: Board) => value(board, condition, mode) }
      const worst = findWorst(target, nominal.length)
      if (worst && (worst.value - best.value) * direction > 0)
        best = { value: worst.value, board: worst.board, condition, mode }
      yield
    }
    return best
  }

  /** Watts by part at the first moment, every junction at ambient; undefined without a solution. */
  const firstPower = (board: Board, condition: number): Float64Array | undefined => {
    const key = `${board.join()} ${condition}`
    const known = powers.get(key)
    if (known) return known
    const { outcome, ws } = observer.solve(board, condition, COLD)
    if (outcome !== 0) return undefined
    const power = ws.power.slice()
    powers.set(key, power)
    return power
  }

  /** Stress and share of a rating at a settled point; at the first moment of one that does not settle. */
  const stressAt = (index: number, board: Board, condition: number): Stress | undefined => {
    // a condition at which the nominal board does not settle is not tried with every other board
    const settles = observe(nominal, condition, SETTLED) !== undefined
    const settled = settles ? observe(board, condition, SETTLED) : undefined
    if (settled) return { stress: settled.stress[index]!, use: settled.use[index]!, mode: SETTLED }
    const { part, limit } = prepared.limits[index]!
    if (limit.measure.of !== 'junction') {
      const cold = observe(board, condition, COLD)
      return cold && { stress: cold.stress[index]!, use: cold.use[index]!, mode: COLD }
    }
    const power = firstPower(board, condition)?.[prepared.circuit.part(part)]
    if (power === undefined) return undefined
    const room = Math.max(0, limit.rating - observer.conditions[condition]!.ambient)
    return { stress: power, use: (power * (parts.get(part)!.thermalResistance ?? 0)) / room, mode: COLD }
  }

  function* overRating(index: number): Generator<void, OverRating | undefined> {
    const { part, limit } = prepared.limits[index]!
    // Too little of something (a reference without current) stops the regulation, which the output shows; it harms nothing.
    if (limit.sense === 'min') return undefined
    const found = yield* search(
      (board, condition) => stressAt(index, board, condition)?.use ?? NaN,
      1,
      [SETTLED],
      (use) => use > HARDLY_USED,
    )
    if (!found || !(found.value > 1)) return undefined
    const { stress, mode } = stressAt(index, found.board, found.condition)!
    const corner = cornerOf(observer, { ...found, mode })
    if (!corner) return undefined
    const isHeat = limit.measure.of === 'junction' && mode === COLD
    return {
      part,
      role: parts.get(part)!.role,
      quantity: isHeat ? 'heat' : limit.quantity,
      unit: isHeat ? 'W' : limit.unit,
      stress,
      allowed: stress / found.value,
      ...(Number.isFinite(found.value) ? { factor: found.value } : {}),
      corner,
    }
  }

  function* overRatings(): Generator<void, OverRating[]> {
    const over: OverRating[] = []
    for (let k = 0; k < prepared.limits.length; k++) {
      const one = yield* overRating(k)
      if (one) over.push(one)
    }
    // A part's allowed heat is its junction limit in other units: one cause, one entry.
    const heated = new Set(over.filter(({ quantity }) => quantity === 'power').map(({ part }) => part))
    return over
      .filter(({ part, quantity }) => !heated.has(part) || (quantity !== 'junction' && quantity !== 'heat'))
      .toSorted((a, b) => (b.factor ?? Infinity) - (a.factor ?? Infinity))
  }

  return {
    observer,
    worst: (read, direction) =>
      search(
        (board, condition, mode) => {
          const seen = observe(board, condition, mode)
          if (!seen) return NaN
          const { output, inputCurrent } = seen
          const load = observer.conditions[condition]!.load * Math.tanh(output / LOAD_KNEE)
          return read({ output, load, inputCurrent })
        },
        direction,
        [SETTLED, COLD],
      ),
    overRatings,
    corner: (found) => cornerOf(observer, found),
    runaways: () => [...failures.values()].filter(({ outcome }) => outcome === RUNAWAY).map((each) => each.condition),
    unsolved: () => [...failures.values()].filter(({ outcome }) => outcome !== RUNAWAY),
  }
}

interface Stress {
  readonly stress: number
  readonly use: number
  readonly mode: ThermalCode
}
