/** The proof of a fixed design: every figure's worst corner, solved. Nothing here resizes or judges; it finds. */
import type { Requirements } from '../requirements/study.ts'
import type { SizedDesign } from '../topologies/define.ts'
import { COLD, FROZEN, SETTLED, type ThermalCode } from '../solve/index.ts'
import { type Conditions, SHORT_LOAD, conditionsOf } from './conditions.ts'
import { type MinimumInput, findMinimumInput } from './minimumInput.ts'
import { type Observer, type Read, createObserver } from './observe.ts'
import { type Prepared, guessAt, prepare } from './prepare.ts'
import { type Among, type Found, type Search, type Unsolved, createSearch } from './search.ts'
import { type StartUp, proveStartUp } from './startUp.ts'
import { findWorst } from './worst.ts'

/** A figure of one same board, with its temperatures held and with them settled. */
export interface ThermalPair {
  frozen: Found
  settled: Found
}

export const worseOf = ({ frozen, settled }: ThermalPair): Found => (frozen.value > settled.value ? frozen : settled)

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

export const isUnprovable = (x: Proof | Band | Unprovable): x is Unprovable => 'unprovable' in x

/** The first part of a proof: the output band alone. A design that leaves its band there needs no more of it. */
export interface Band {
  design: SizedDesign
  requirements: Requirements
  observer: Observer
  conditions: Conditions
  search: Search
  output: { lowest: Found; highest: Found }
}

/** Below this share of a rating its worst corner is not refined. */
const HARDLY_USED = 0.6

/** `boards: 'nominal'` leaves the tolerances out: a first impression. */
export function proveBand(
  prepared: Prepared,
  requirements: Requirements,
  boards: 'all' | 'nominal' = 'all',
): Band | Unprovable {
  const { design } = prepared
  const observer = createObserver(prepared, requirements.input.nominal, requirements.load.nominal)
  const conditions = conditionsOf(observer, requirements)
  const search = createSearch(observer, boards === 'all' ? design.tolerances.length : 0)
  const among: Among = { conditions: conditions.corners, modes: [SETTLED, COLD], isThorough: true }
  const lowest = search.point((s) => s.output, -1, among)
  const highest = search.point((s) => s.output, 1, among)
  if (!lowest || !highest) return { unprovable: true, design, unsolved: search.unsolved(), observer }
  return { design, requirements, observer, conditions, search, output: { lowest, highest } }
}

/** The rest of the proof of a design whose band is known. */
export function prove(band: Band): Proof | Unprovable {
  const { design, requirements, observer, conditions, search, output } = band
  const { prepared } = observer
  const settled: Among = { conditions: conditions.corners, modes: [SETTLED] }
  const heat = search.point((s) => s.heat, 1, settled)
  const efficiency = search.point((s) => s.efficiency, -1, settled)
  const load = [search.pair(conditions.loadPairs, FROZEN), search.pair(conditions.loadPairs, SETTLED)]
  const line = [search.pair(conditions.linePairs, FROZEN), search.pair(conditions.linePairs, SETTLED)]
  if (!heat || !efficiency || !load[0] || !load[1] || !line[0] || !line[1])
    return { unprovable: true, design, unsolved: search.unsolved(), observer }

  const stressed: Among = {
    conditions: [...conditions.corners, ...conditions.unloaded],
    modes: [SETTLED],
    isWorthRefining: (use: number) => use > HARDLY_USED,
  }
  const limits = prepared.limits.map((_, k) => search.point((s) => s.use[k]!, 1, stressed) ?? heat)
  const ripple = conditions.ripplePairs.length > 0 ? search.pair(conditions.ripplePairs, FROZEN) : undefined
  const startUp = design.mayNotStart
    ? proveStartUp(prepared, requirements, output.lowest.board, search.tolerances)
    : undefined
  return {
    design,
    requirements,
    observer,
    conditions,
    output,
    heat,
    efficiency,
    loadRegulation: { frozen: load[0], settled: load[1] },
    lineRegulation: { frozen: line[0], settled: line[1] },
    ...(ripple ? { outputRipple: ripple } : {}),
    limits,
    shortCircuit: proveShort(prepared, requirements, search.tolerances),
    minimumInput: findMinimumInput(observer, requirements, search.tolerances),
    ...(startUp ? { startUp } : {}),
    unsolved: search.unsolved(),
  }
}

/**
 * The shorted output at the highest input: the largest current, and what the short asks of every rating once it has
 * settled. Where surviving it is no requirement, the nominal board alone says what happens.
 */
function proveShort(built: Prepared, requirements: Requirements, tolerances: number): Proof['shortCircuit'] {
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
  const search = (read: Read): Found | undefined => {
    const worst = findWorst(
      {
        direction: 1,
        conditions: shorted.length,
        value: (b, k) => read(observer.observe(b, shorted[k]!, mode)),
        slope: (from, j, k) => observer.slope(read, from, j, shorted[k]!, mode),
        isWorthRefining: (value) => isRequired && settles && value > HARDLY_USED,
      },
      isRequired && settles ? tolerances : 0,
    )
    return worst && { value: worst.value, board: worst.board, condition: shorted[worst.condition]!, mode }
  }
  const whole = (found: Found | undefined): Found | undefined =>
    found && found.board.length === nominal.length ? found : found && { ...found, board: nominal }
  const terminal = prepared.circuit.terminals[prepared.circuit.element('load')]!
  const hottest = whole(search((s) => s.heat))
  const board = hottest?.board ?? nominal
  const condition = hottest?.condition ?? shorted[0]!
  const { outcome, ws } = observer.solve(board, condition, mode)
  const current = { value: outcome === 0 ? Math.abs(ws.currents[terminal]!) : NaN, board, condition, mode }
  const use = prepared.limits.map((_, k) => whole(search((s) => s.use[k]!)) ?? current)
  return { observer, current, heat: hottest?.value ?? NaN, use, settles }
}
