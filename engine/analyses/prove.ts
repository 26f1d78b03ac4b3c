/** The proof of a fixed design: every figure's worst corner, solved. Nothing here resizes or judges; it finds. */
import type { Requirements } from '../requirements/study.ts'
import type { SizedDesign } from '../topologies/define.ts'
import { COLD, FROZEN, SETTLED, type ThermalCode } from '../solve/index.ts'
import { type Conditions, SHORT_LOAD, conditionsOf } from './conditions.ts'
import { type MinimumInput, findMinimumInput } from './minimumInput.ts'
import { type Board, type Observation, type Observer, createObserver } from './observe.ts'
import { guessAt, prepare } from './prepare.ts'
import { type StartUp, proveStartUp } from './startUp.ts'
import { findWorst } from './worst.ts'

/** A worst value and the corner that makes it. `against` is the other end where the figure is a difference of two points. */
export interface Found {
  value: number
  board: Board
  condition: number
  mode: ThermalCode
  against?: number
}

/** A figure of one same board, with its temperatures held and with them settled. */
export interface ThermalPair {
  frozen: Found
  settled: Found
}

export const worseOf = ({ frozen, settled }: ThermalPair): Found => (frozen.value > settled.value ? frozen : settled)

export interface Unsolved {
  board: Board
  condition: number
  mode: ThermalCode
  outcome: number
}

export interface Proof {
  design: SizedDesign
  requirements: Requirements
  observer: Observer
  conditions: Conditions
  output: { lowest: Found; highest: Found }
  heat: Found
  efficiency: Found
  loadRegulation: ThermalPair
  lineRegulation: ThermalPair
  /** Volts peak to peak; absent without input ripple. */
  outputRipple?: Found
  /** By limit: the largest share used of it over the corners and the unloaded output. */
  limits: Found[]
  shortCircuit: {
    /** Solves the shorted output; its conditions are its own. */
    observer: Observer
    current: Found
    heat: number
    /** By limit: the largest share used of the maker's rating. */ use: Found[]
    settles: boolean
  }
  minimumInput: MinimumInput
  /** Only for designs that could fail to start. */
  startUp?: StartUp
  /** Corners inside the requirements that have no solution. */
  unsolved: Unsolved[]
}

/** A design whose corners cannot be found at all, with the points that failed. */
export interface Unprovable {
  unprovable: true
  design: SizedDesign
  unsolved: Unsolved[]
  observer: Observer
}

export const isUnprovable = (x: Proof | Unprovable): x is Unprovable => 'unprovable' in x

type Read = (seen: Observation) => number

/** Below this share of a rating its worst corner is not refined. */
const HARDLY_USED = 0.6

export function prove(design: SizedDesign, requirements: Requirements): Proof | Unprovable {
  const prepared = prepare(design)
  const observer = createObserver(prepared, requirements.input.nominal, requirements.load.nominal)
  const conditions = conditionsOf(observer, requirements)
  const tolerances = design.tolerances.length
  const unsolved = new Map<string, Unsolved>()

  const look = observer.observe
  const note = (board: Board, condition: number, mode: ThermalCode): void => {
    const seen = look(board, condition, mode)
    if (seen.outcome !== 0)
      unsolved.set(`${board.join()} ${condition} ${mode}`, { board, condition, mode, outcome: seen.outcome })
  }

  /** Worst of one reading over points, every thermal mode asked for. */
  const worstPoint = (
    read: Read,
    direction: 1 | -1,
    among: readonly number[],
    modes: readonly ThermalCode[],
    isWorthRefining?: (worst: number) => boolean,
  ): Found | undefined => {
    const cases = modes.flatMap((mode) => among.map((condition) => ({ mode, condition })))
    const worst = findWorst(
      {
        direction,
        conditions: cases.length,
        value: (b, k) => read(look(b, cases[k]!.condition, cases[k]!.mode)),
        ...(isWorthRefining ? { isWorthRefining } : {}),
      },
      tolerances,
    )
    for (const f of worst?.failures ?? []) note(f.board, cases[f.condition]!.condition, cases[f.condition]!.mode)
    return worst && { value: worst.value, board: worst.board, ...cases[worst.condition]! }
  }

  /** Worst difference of the output over pairs of points of one same board. */
  const worstPair = (pairs: readonly (readonly [number, number])[], mode: ThermalCode): Found | undefined => {
    let best: Found | undefined
    for (const direction of [1, -1] as const) {
      const worst = findWorst(
        {
          direction,
          conditions: pairs.length,
          value: (b, k) => look(b, pairs[k]![0], mode).output - look(b, pairs[k]![1], mode).output,
        },
        tolerances,
      )
      for (const f of worst?.failures ?? []) for (const end of pairs[f.condition]!) note(f.board, end, mode)
      if (worst && (!best || Math.abs(worst.value) > best.value))
        best = {
          value: Math.abs(worst.value),
          board: worst.board,
          condition: pairs[worst.condition]![1],
          against: pairs[worst.condition]![0],
          mode,
        }
    }
    return best
  }

  const lowest = worstPoint((s) => s.output, -1, conditions.corners, [SETTLED, COLD])
  const highest = worstPoint((s) => s.output, 1, conditions.corners, [SETTLED, COLD])
  const heat = worstPoint((s) => s.heat, 1, conditions.corners, [SETTLED])
  const efficiency = worstPoint((s) => s.efficiency, -1, conditions.corners, [SETTLED])
  const load = [worstPair(conditions.loadPairs, FROZEN), worstPair(conditions.loadPairs, SETTLED)]
  const line = [worstPair(conditions.linePairs, FROZEN), worstPair(conditions.linePairs, SETTLED)]
  if (!lowest || !highest || !heat || !efficiency || !load[0] || !load[1] || !line[0] || !line[1])
    return { unprovable: true, design, unsolved: [...unsolved.values()], observer }

  const stressed = [...conditions.corners, ...conditions.unloaded]
  const limits = prepared.limits.map(
    (_, k) =>
      worstPoint(
        (s) => s.use[k]!,
        1,
        stressed,
        [SETTLED],
        (use) => use > HARDLY_USED,
      ) ?? lowest,
  )
  const ripple = conditions.ripplePairs.length > 0 ? worstPair(conditions.ripplePairs, FROZEN) : undefined
  const atFault = proveShort(design, requirements)
  const startUp = design.mayNotStart ? proveStartUp(design, requirements, lowest.board) : undefined
  return {
    design,
    requirements,
    observer,
    conditions,
    output: { lowest, highest },
    heat,
    efficiency,
    loadRegulation: { frozen: load[0], settled: load[1] },
    lineRegulation: { frozen: line[0], settled: line[1] },
    ...(ripple ? { outputRipple: ripple } : {}),
    limits,
    shortCircuit: atFault,
    minimumInput: findMinimumInput(observer, requirements, tolerances),
    ...(startUp ? { startUp } : {}),
    unsolved: [...unsolved.values()],
  }
}

/**
 * The shorted output at the highest input: the largest current, and what the short asks of every rating once it has
 * settled. Where surviving it is no requirement, the nominal board alone says what happens.
 */
function proveShort(design: SizedDesign, requirements: Requirements): Proof['shortCircuit'] {
  const tolerances = design.tolerances.length
  const isRequired = requirements.limits.survivesShort
  const prepared = prepare({ ...design, guess: guessAt(design, 0) })
  const observer = createObserver(prepared, requirements.input.max, SHORT_LOAD)
  const { ambient } = requirements
  const shorted = [...new Set([ambient.min, ambient.max])].map((t) =>
    observer.condition(requirements.input.max, SHORT_LOAD, t, true),
  )
  const nominal = new Int8Array(tolerances)
  // A fault that runs away has no settled point: its current is then that of the first moment, and it does not survive.
  const settles = shorted.every((c) => observer.observe(nominal, c, SETTLED).outcome === 0)
  const mode: ThermalCode = settles ? SETTLED : COLD
  const search = (read: Read): Found | undefined => {
    const worst = findWorst(
      {
        direction: 1,
        conditions: shorted.length,
        value: (b, k) => read(observer.observe(b, shorted[k]!, mode)),
        isWorthRefining: (value) => isRequired && settles && value > HARDLY_USED,
      },
      isRequired && settles ? tolerances : 0,
    )
    return worst && { value: worst.value, board: worst.board, condition: shorted[worst.condition]!, mode }
  }
  const whole = (found: Found | undefined): Found | undefined =>
    found && found.board.length === tolerances ? found : found && { ...found, board: nominal }
  const terminal = prepared.circuit.terminals[prepared.circuit.element('load')]!
  const hottest = whole(search((s) => s.heat))
  const board = hottest?.board ?? nominal
  const condition = hottest?.condition ?? shorted[0]!
  const { outcome, ws } = observer.solve(board, condition, mode)
  const current = { value: outcome === 0 ? Math.abs(ws.currents[terminal]!) : NaN, board, condition, mode }
  const use = prepared.limits.map((_, k) => whole(search((s) => s.use[k]!)) ?? current)
  return { observer, current, heat: hottest?.value ?? NaN, use, settles }
}
