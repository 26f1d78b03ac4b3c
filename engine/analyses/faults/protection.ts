/** What a fuse and a crowbar change about a fault, worked out from the solved circuit. Volts and amperes. */
import type { Element } from '../../devices/elements.ts'
import { COLD, SETTLED, newWorkspace, solvePoint } from '../../solve/index.ts'
import type { SizedDesign } from '../../topologies/define.ts'
import { allowedAt, useOf } from '../observation.ts'
import { guessAt, prepare } from '../prepare.ts'

/** The rated currents of miniature fuses in amperes, R10 steps from 32 mA to 10 A: IEC 60127, from memory. */
const RATED_CURRENTS = [
  0.032, 0.04, 0.05, 0.063, 0.08, 0.1, 0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15,
  4, 5, 6.3, 8, 10,
]

/** A fuse is loaded with three quarters of its rated current at most (common practice, no source). */
const FUSE_LOADING = 0.75
/** It holds for an hour at least up to this multiple of its rated current, and opens within half an hour at most from the other: IEC 60127-2, from memory. */
const HOLDS = 1.5
const BLOWS = 2.1

export interface Fuse {
  /** Amperes, a standard rated current. */
  rating: number
  /** Input current at full load, the largest over the corners. */
  fullLoad: number
  /** Up to here it is sure to hold, from here on it is sure to open. */
  holds: number
  blows: number
  source: string
}

/** Undefined where no miniature fuse is large enough. */
export function fuseFor(fullLoad: number): Fuse | undefined {
  const rating = RATED_CURRENTS.find((amperes) => amperes * FUSE_LOADING >= fullLoad)
  return rating === undefined
    ? undefined
    : {
        rating,
        fullLoad,
        holds: rating * HOLDS,
        blows: rating * BLOWS,
        source: 'IEC 60127-2, from memory; loaded to three quarters at most, common practice, no source',
      }
}

/** `holds`: the fuse notices nothing; `blows`: it opens within half an hour, mostly far sooner; `may blow`: in between. */
export type FuseOutcome = 'holds' | 'may blow' | 'blows'

export function fuseOutcome({ holds, blows }: Fuse, lowest: number, highest: number): FuseOutcome {
  if (lowest >= blows) return 'blows'
  return highest <= holds ? 'holds' : 'may blow'
}

/** A crowbar fires this far above the upper edge of the band (common practice, no source). */
const TRIP_ABOVE = 1.15
/** Volts across a fired thyristor: typical, from memory. */
const FIRED = 1.5
/** Beyond this multiple of the full load only supply and wiring limit the current: no number of ours would mean anything. */
const SUPPLY_LIMITED = 1000

export interface Crowbar {
  /** The load never sees more than this for longer than the crowbar takes to fire. */
  trip: number
  /** What the load sees once it has fired. */
  fired: number
  /** What the crowbar carries at the highest input; absent where only supply and wiring limit it. */
  current?: number
  /** What a fuse in the input then does; absent where there is no fuse. */
  fuse?: FuseOutcome
  /** Parts beyond their makers' ratings while it is fired and nothing opens. */
  over: { part: string; quantity: string; unit: string; stress: number; allowed: number }[]
}

/** Above this a fault's output makes a crowbar fire. `top` is the upper edge of the band. */
export const tripVoltage = (top: number): number => top * TRIP_ABOVE

/** The broken design with its output held at a fired thyristor's voltage, nominal board, highest input and hottest ambient. */
export function fireCrowbar(
  broken: SizedDesign,
  trip: number,
  { input, ambient, fullLoad }: { input: number; ambient: number; fullLoad: number },
  fuse: Fuse | undefined,
): Crowbar | undefined {
  const prepared = prepare(holding(broken, FIRED))
  const { circuit, limits } = prepared
  const ws = newWorkspace(circuit)
  const mode = ([SETTLED, COLD] as const).find((each) => solvePoint(circuit, ws, input, 0, ambient, each) === 0)
  if (mode === undefined) return undefined
  const current = ws.currents[circuit.terminals[circuit.element('load')]!]!
  const drawn = -ws.currents[prepared.inputTerminal]!
  const isLimited = current < SUPPLY_LIMITED * fullLoad
  const condition = { ambient, fault: true }
  const allowed = allowedAt(prepared, condition)
  const over = limits.flatMap(({ part, limit, stress }, k) => {
    const use = useOf(prepared, k, ws, condition, allowed)
    if (limit.sense === 'min' || !(use > 1)) return []
    return [{ part, quantity: limit.quantity, unit: limit.unit, stress: stress(ws), allowed: stress(ws) / use }]
  })
  return {
    trip,
    fired: FIRED,
    ...(isLimited ? { current } : {}),
    ...(fuse ? { fuse: fuseOutcome(fuse, drawn, drawn) } : {}),
    over: isLimited ? over : [],
  }
}

/** The circuit with a source of `volts` in the place of its load: what the source takes is what the circuit can deliver. */
export function holding(design: SizedDesign, volts: number): SizedDesign {
  const elements = design.netlist.elements.map((e): Element =>
    e.id === 'load' && e.kind === 'current-source'
      ? { kind: 'voltage-source', id: 'load', nodes: e.nodes, part: e.part, value: volts }
      : e,
  )
  return { ...design, guess: guessAt(design, volts), netlist: { ...design.netlist, elements } }
}
