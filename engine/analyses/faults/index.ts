/**
 * The faults of a design, each solved as a circuit of its own: what the load sees, which part goes over its maker's rating
 * and by how much, whether a temperature settles at all, and what a fuse, a crowbar or a limiter would change.
 */
import type { Element } from '../../devices/elements.ts'
import { COLD, SETTLED } from '../../solve/index.ts'
import { FAULTS, type FaultKind, type FaultName } from '../../topologies/faults.ts'
import { SHORT_LOAD } from '../conditions.ts'
import type { Condition, Corner } from '../point.ts'
import type { Found, Proof } from '../prove.ts'
import { breakDesign } from './broken.ts'
import { cautionsOf } from './cautions.ts'
import { type AddedLimiter, tryLimiter } from './limiter.ts'
import { type LoadLine, loadLineOf } from './loadLine.ts'
import {
  type Crowbar,
  type Fuse,
  type FuseOutcome,
  fireCrowbar,
  fuseFor,
  fuseOutcome,
  tripVoltage,
} from './protection.ts'
import {
  type OverRating,
  type ReadingCondition,
  type Readings,
  type Seen,
  type UnsolvedFault,
  readBroken,
} from './readings.ts'

export type { Crowbar, Fuse, FuseOutcome } from './protection.ts'
export type { AddedLimiter } from './limiter.ts'
export type { LatchUp, Line, LoadLine } from './loadLine.ts'
export type { OverRating, UnsolvedFault } from './readings.ts'
export type { FaultName } from '../../topologies/faults.ts'

/** A range of one quantity over every condition of a fault, and the corners behind its ends. */
export interface Reach {
  lowest: number
  highest: number
  corners: { lowest: Corner; highest: Corner }
}

export interface Fault {
  fault: FaultName
  title: string
  /** The part that fails; absent where it is the load. */
  part?: string
  /** The circuit with the fault is the design's circuit less the elements `removed` and with those `added`. */
  removed: string[]
  added: Element[]
  /** Volts at the load; absent where no point has a solution. */
  output?: Reach
  /** Amperes into the load, the largest, with its corner. */
  loadCurrent?: { value: number; corner: Corner }
  inputCurrent?: Reach
  /** Nominal board and condition; at the first moment where no temperature settles. */
  nominal?: Corner
  over: OverRating[]
  /** False where some condition has no settled temperature below 400 °C: a part burns. */
  settles: boolean
  /** Where it does not settle. */
  runaways: Condition[]
  /** Whether every other part bears it for good; absent where nothing could be solved. */
  survives?: boolean
  unsolved: UnsolvedFault[]
  protection: {
    /** What a fuse in the input does; absent where no fuse is large enough. */
    fuse?: FuseOutcome
    /** Only where the output rises far enough to fire one. */
    crowbar?: Crowbar
    /** Only for a shorted output. */
    limiter?: { isFitted: boolean; added?: AddedLimiter }
  }
}

export interface Faults {
  /** Volts, the allowed output. */
  band: { low: number; high: number }
  /** The standard fuse that would go into the input; absent where none is large enough. */
  fuse?: Fuse
  list: Fault[]
  loadLine?: LoadLine
  /** What to be warned of, with this design's numbers. */
  cautions: string[]
}

export function* faultsOf(proof: Proof): Generator<void, Faults> {
  const { design, requirements } = proof
  const { input, output } = requirements
  const band = {
    low: output.voltage * (1 - output.tolerance),
    high: output.voltage * (1 + output.tolerance),
  }
  const fuse = fuseFor(fullLoadInput(proof))
  const list: Fault[] = []
  for (const kind of FAULTS) {
    const broken = breakDesign(design, kind, input.nominal)
    if (!broken) continue
    const start = startOf(kind, proof)
    const readings = readBroken(broken.design, start, conditionsOf(kind, proof))
    const fault: Fault = {
      fault: kind.name,
      title: kind.title,
      ...(broken.part ? { part: broken.part.id } : {}),
      removed: [...broken.removed],
      added: [...broken.added],
      ...(yield* measure(readings, start)),
      protection: {},
    }
    yield
    const { inputCurrent } = fault
    if (fuse && inputCurrent) fault.protection.fuse = fuseOutcome(fuse, inputCurrent.lowest, inputCurrent.highest)
    const trip = tripVoltage(band.high)
    if (broken.part && fault.output && fault.output.highest > trip) {
      const fired = fireCrowbar(
        broken.design,
        trip,
        { input: input.max, ambient: requirements.ambient.max, fullLoad: requirements.load.max },
        fuse,
      )
      if (fired) fault.protection.crowbar = fired
    }
    if (kind.how === 'load-shorted') {
      const limiter = tryLimiter(design, requirements)
      if (limiter) fault.protection.limiter = limiter
    }
    list.push(fault)
    yield
  }
  const loadLine = yield* loadLineOf(design, requirements)
  const faults = { band, ...(fuse ? { fuse } : {}), list, ...(loadLine ? { loadLine } : {}) }
  return { ...faults, cautions: cautionsOf(proof, faults) }
}

/** The largest input current over the corners, nominal board. */
function fullLoadInput({ observer, conditions, design }: Proof): number {
  const nominal = new Int8Array(design.tolerances.length)
  return Math.max(
    ...conditions.corners.map((index) => {
      const seen = observer.observe(nominal, index, SETTLED)
      return seen.outcome === 0 ? seen.inputCurrent : 0
    }),
  )
}

const loadOf = ({ how }: FaultKind, load: number): number =>
  how === 'load-shorted' ? SHORT_LOAD : how === 'load-removed' ? 0 : load

function startOf(kind: FaultKind, { requirements }: Proof): ReadingCondition {
  const { input, load, ambient } = requirements
  return { input: input.nominal, load: loadOf(kind, load.nominal), ambient: ambient.nominal }
}

/** Both ends of input and ambient, and of the load where the fault leaves it. */
function conditionsOf(kind: FaultKind, { requirements }: Proof): ReadingCondition[] {
  const { input, load, ambient } = requirements
  const loads = new Set([loadOf(kind, load.min), loadOf(kind, load.max)])
  return [input.min, input.max].flatMap((v) =>
    [...new Set([ambient.min, ambient.max])].flatMap((t) => [...loads].map((i) => ({ input: v, load: i, ambient: t }))),
  )
}

type Measured = Pick<
  Fault,
  'output' | 'loadCurrent' | 'inputCurrent' | 'nominal' | 'over' | 'settles' | 'runaways' | 'survives' | 'unsolved'
>

function* measure(readings: Readings, start: ReadingCondition): Generator<void, Measured> {
  const output = yield* reach(readings, (seen) => seen.output)
  const inputCurrent = yield* reach(readings, (seen) => seen.inputCurrent)
  const drawn = yield* readings.worst((seen) => seen.load, 1)
  const drawnCorner = drawn && readings.corner(drawn)
  const over = yield* readings.overRatings()
  const nominal = nominalCorner(readings, start)
  const runaways = readings.runaways()
  const settles = runaways.length === 0
  const unsolved = readings.unsolved()
  return {
    ...(output ? { output } : {}),
    ...(drawnCorner ? { loadCurrent: { value: drawn.value, corner: drawnCorner } } : {}),
    ...(inputCurrent ? { inputCurrent } : {}),
    ...(nominal ? { nominal } : {}),
    over,
    settles,
    runaways,
    ...(output ? { survives: settles && over.length === 0 } : {}),
    unsolved,
  }
}

function* reach(readings: Readings, read: (seen: Seen) => number): Generator<void, Reach | undefined> {
  const low = yield* readings.worst(read, -1)
  const high = yield* readings.worst(read, 1)
  const lowest = low && readings.corner(low)
  const highest = high && readings.corner(high)
  return lowest && highest && { lowest: low.value, highest: high.value, corners: { lowest, highest } }
}

function nominalCorner({ observer, corner }: Readings, { input, load, ambient }: ReadingCondition): Corner | undefined {
  const board = new Int8Array(observer.prepared.design.tolerances.length)
  const condition = observer.condition(input, load, ambient, true)
  const found = (mode: Found['mode']): Found => ({ value: 0, board, condition, mode })
  return corner(found(SETTLED)) ?? corner(found(COLD))
}
