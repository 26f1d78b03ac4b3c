/** The proof of a fixed design: every figure's worst corner, solved. Nothing here resizes or judges; it finds. */
import { once } from '../once.ts'
import type { Requirements } from '../requirements/study.ts'
import type { SizedDesign } from '../topologies/define.ts'
import { COLD, FROZEN, SETTLED } from '../solve/index.ts'
import { type Conditions, conditionsOf } from './conditions.ts'
import { type MinimumInput, findMinimumInput } from './minimumInput.ts'
import { type Observer, createObserver } from './observe.ts'
import type { Prepared } from './prepare.ts'
import { type Among, type Found, type Recall, type Search, type Unsolved, createSearch } from './search.ts'
import { type StartUp, proveStartUp } from './startUp.ts'
import { type ShortCircuit, prepareShort } from './short.ts'

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
  outputRipple?: Found | undefined
  /** By limit: the largest share used of it over the corners and the unloaded output. */
  limits: Found[]
  shortCircuit: ShortCircuit
  minimumInput: MinimumInput
  /** Only for designs that could fail to start. */
  startUp?: StartUp | undefined
  /** Corners inside the requirements that have no solution; of a lean proof those that its own searches met. */
  unsolved: readonly Unsolved[]
  /** What the verdict rests on: the same, but that a lean proof knows it exactly only where a rating is exceeded. */
  strained: { limits: Found[]; shortCircuit: ShortCircuit }
}

/**
 * What will be read of a proof beside its verdict. Whatever is left out is found once it is read all the same: a lean proof
 * saves the search for numbers that nobody asks for, and the last per cent of ratings that are kept with room to spare.
 */
export interface Lean {
  readonly loadRegulation: boolean
  readonly lineRegulation: boolean
}

/** How much of a design is proven: with every tolerance, with nominal parts alone (a first impression), or lean. */
export type Extent = 'all' | 'nominal' | Lean

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
  /** Only for designs that could fail to start. */
  startUp: () => StartUp | undefined
  extent: Extent
}

/** Below this share of a rating its worst corner is not refined. */
const HARDLY_USED = 0.6
/** Share of the output by which it must leave its band for the search to end there: rounding must not decide. */
const BEYOND_DOUBT = 1e-6

/**
 * The output band alone. Of a lean one the lowest output is exact where it stays in the band, and of the highest one that is known
 * too; where the lowest leaves it, the highest is not looked for.
 * `known`: an observer of the same design at the same nominal point, for what it has solved already. `recall`: of a like design
 * under like requirements; it is filled in.
 */
export function proveBand(
  prepared: Prepared,
  requirements: Requirements,
  extent: Extent = 'all',
  known?: Observer,
  recall?: Recall,
): Band | Unprovable {
  const { design } = prepared
  const observer = known ?? createObserver(prepared, requirements.input.nominal, requirements.load.nominal)
  const conditions = conditionsOf(observer, requirements)
  const tolerances = extent === 'nominal' ? 0 : design.tolerances.length
  const isLean = typeof extent === 'object'
  const search = createSearch(observer, tolerances, isLean, recall)
  const among: Among = { conditions: conditions.corners, modes: [SETTLED, COLD], isThorough: true }
  const { voltage, tolerance } = requirements.output
  const high = voltage * (1 + tolerance)
  const tooLow = voltage * (1 - tolerance - BEYOND_DOUBT)
  const tooHigh = voltage * (1 + tolerance + BEYOND_DOUBT)
  // no floor below: where the headroom runs out, slopes taken inside it tell nothing
  const lowest = search.point('output', (s) => s.output, -1, { ...among, ...(isLean && { limit: tooLow }) })
  const highest =
    isLean && lowest && lowest.value < tooLow
      ? lowest
      : search.point('output', (s) => s.output, 1, { ...among, ...(isLean && { floor: high, limit: tooHigh }) })
  if (!lowest || !highest) return { unprovable: true, design, unsolved: search.unsolved(), observer }
  const startUp = once(() =>
    design.mayNotStart
      ? proveStartUp(prepared, requirements, lowest.board, tolerances, isLean ? (recall ?? new Map()) : undefined)
      : undefined,
  )
  return { design, requirements, observer, conditions, search, output: { lowest, highest }, startUp, extent }
}

/** The rest of the proof of a design whose band is known. */
export function prove(band: Band): Proof | Unprovable {
  const { design, requirements, observer, conditions, search, output, startUp, extent } = band
  const { prepared } = observer
  const { limits: asked, input } = requirements
  const lean = typeof extent === 'object' ? extent : undefined
  const settled: Among = { conditions: conditions.corners, modes: [SETTLED], isRead: true }
  const stressed: Among = {
    conditions: [...conditions.corners, ...conditions.unloaded],
    modes: [SETTLED],
    isWorthRefining: (use: number) => use > HARDLY_USED,
    ofLimits: true,
  }

  const heat = once(() => search.point('heat', (s) => s.heat, 1, settled))
  const efficiency = once(() => search.point('efficiency', (s) => s.efficiency, -1, settled))
  const regulation = (name: string, pairs: readonly (readonly [number, number])[]) =>
    once((): ThermalPair | undefined => {
      const frozen = search.pair(name, pairs, FROZEN)
      const warmed = search.pair(name, pairs, SETTLED)
      return frozen && warmed && { frozen, settled: warmed }
    })
  const load = regulation('load', conditions.loadPairs)
  const line = regulation('line', conditions.linePairs)
  const ripple = once(() =>
    conditions.ripplePairs.length > 0 ? search.pair('ripple', conditions.ripplePairs, FROZEN) : undefined,
  )
  const hottest = (): Found => heat() ?? output.highest
  // a least quantity is used as one over what is left of it, which no slope foretells
  const uses = (floor?: number) =>
    once(() =>
      prepared.limits.map(({ limit }, k) => {
        const isShort = floor !== undefined && limit.sense !== 'min'
        const among: Among = isShort ? { ...stressed, floor } : stressed
        // shares of another rating are no guide
        return search.point(`use ${k} of ${limit.rating}`, (s) => s.use[k]!, 1, among) ?? hottest()
      }),
    )
  const limits = uses()
  const shortOf = once(() => prepareShort(prepared, requirements, search.tolerances))
  const short = once(() => shortOf()())
  const strainedLimits = lean ? uses(1) : limits
  const strainedShort = lean ? once(() => shortOf()(1)) : short
  const least = once(() => findMinimumInput(observer, requirements, search.tolerances))

  // in this order: what has no solution is met on the way
  if (!heat()) return unprovable()
  if (!lean) if (!efficiency()) return unprovable()
  const isLoadRead = !lean || lean.loadRegulation || asked.loadRegulation !== undefined
  if (isLoadRead && !load()) return unprovable()
  const isLineRead = !lean || lean.lineRegulation || asked.lineRegulation !== undefined
  if (isLineRead && !line()) return unprovable()
  strainedLimits()
  if (!lean || (asked.outputRipple !== undefined && input.ripple > 0)) ripple()
  const unsolved = search.unsolved()

  function unprovable(): Unprovable {
    return { unprovable: true, design, unsolved: search.unsolved(), observer }
  }
  return {
    design,
    requirements,
    observer,
    conditions,
    output,
    get heat() {
      return heat()!
    },
    get efficiency() {
      return efficiency()!
    },
    get loadRegulation() {
      return load()!
    },
    get lineRegulation() {
      return line()!
    },
    get outputRipple() {
      return ripple()
    },
    get limits() {
      return limits()
    },
    get shortCircuit() {
      return short()
    },
    get minimumInput() {
      return least()
    },
    get startUp() {
      return startUp()
    },
    unsolved,
    strained: {
      get limits() {
        return strainedLimits()
      },
      get shortCircuit() {
        return strainedShort()
      },
    },
  }
}
