/**
 * The faults of a design, each solved as a circuit of its own: what the load sees, which part goes over its maker's rating
 * and by how much, whether a temperature settles at all, and what a fuse, a crowbar or a limiter would change.
 */
import type { Element } from '../../devices/elements.ts'
import { SETTLED } from '../../solve/index.ts'
import type { DesignPart } from '../../topologies/define.ts'
import { FAULTS, type FaultKind, type FaultName } from '../../topologies/faults.ts'
import { SHORT_LOAD } from '../conditions.ts'
import type { Proof } from '../prove.ts'
import { breakDesign } from './broken.ts'
import { cautionsOf } from './cautions.ts'
import { limiterOf, passOf, withLimiter } from './limiter.ts'
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
import { type Measured, measure } from './measure.ts'
import { type OverRating, type ReadingCondition, readBroken } from './readings.ts'

export type { Crowbar, Fuse, FuseOutcome } from './protection.ts'
export type { LatchUp, Line, LoadLine } from './loadLine.ts'
export type { Reach } from './measure.ts'
export type { OverRating, UnsolvedFault } from './readings.ts'
export type { FaultName } from '../../topologies/faults.ts'

/** The shorted output with a limiter put into a design that has none. */
export interface AddedLimiter {
  /** Ohms of the sense resistor, and the volts that it costs at full load. */
  sense: number
  drop: number
  /** Amperes into the short, the largest. */
  current: number
  over: Omit<OverRating, 'corner'>[]
  survives: boolean
  /** Kelvin per watt from junction to ambient that the pass transistor has, and that it would need to outlive the short. */
  cooling: number
  coolingNeeded: number
}

export interface Fault extends Measured {
  fault: FaultName
  title: string
  /** The part that fails; absent where it is the load. */
  part?: string
  /** The circuit with the fault is the design's circuit less the elements `removed` and with those `added`. */
  removed: string[]
  added: Element[]
  protection: {
    /** What a fuse in the input does; absent where no fuse is large enough. */
    fuse?: FuseOutcome
    /** Only where the output rises far enough to fire one. */
    crowbar?: Crowbar
    /** Only for a shorted output. */
    limiter?: { isFitted: boolean; /** Where none is fitted. */ added?: AddedLimiter }
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
    if (kind.how === 'load-shorted' && passOf(design)) {
      const added = yield* addedLimiter(kind, proof)
      fault.protection.limiter = { isFitted: limiterOf(design) !== undefined, ...(added ? { added } : {}) }
    }
    list.push(fault)
    yield
  }
  const loadLine = yield* loadLineOf(design, requirements)
  const faults = { band, ...(fuse ? { fuse } : {}), list, ...(loadLine ? { loadLine } : {}) }
  return { ...faults, cautions: cautionsOf(proof, faults) }
}

function* addedLimiter(kind: FaultKind, proof: Proof): Generator<void, AddedLimiter | undefined> {
  const { design, requirements } = proof
  const { input, load, ambient } = requirements
  const limited = withLimiter(design, requirements)
  const broken = limited && breakDesign(limited.design, kind, input.nominal)
  if (!limited || !broken) return undefined
  const readings = readBroken(broken.design, startOf(kind, proof), conditionsOf(kind, proof))
  const { loadCurrent, over, survives } = yield* measure(readings, startOf(kind, proof))
  if (!loadCurrent) return undefined
  const { Tj_max, thermalResistance } = coolingOf(passOf(design)!)
  return {
    sense: limited.sense,
    drop: limited.sense * load.max,
    current: loadCurrent.value,
    over: over.map(({ corner: _, ...rest }) => rest),
    survives: survives ?? false,
    cooling: thermalResistance,
    coolingNeeded: (Tj_max - ambient.max) / (input.max * loadCurrent.value),
  }
}

function coolingOf({ limits, thermalResistance = 0 }: DesignPart): { Tj_max: number; thermalResistance: number } {
  return { Tj_max: limits.find(({ quantity }) => quantity === 'junction')!.rating, thermalResistance }
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
