/**
 * The load line of a design: output voltage against the current that the circuit can deliver, from open to short. Along the
 * regulated branch the load is raised to the full one; from there on the output is forced down to 0 V and the current that
 * the circuit delivers into it is read. Junctions are at ambient throughout: the line as a quick sweep sees it.
 *
 * A load of constant current can rest where the circuit delivers less than it draws: it latches up there, when it is switched
 * on or when a short is taken away. The load draws I·tanh(V / 0.1 V).
 */
import { LOAD_KNEE } from '../../devices/currentSource.ts'
import type { Requirements } from '../../requirements/study.ts'
import { COLD, type Workspace, copyState, newWorkspace, solvePoint } from '../../solve/index.ts'
import type { SizedDesign } from '../../topologies/define.ts'
import type { Board } from '../observation.ts'
import { type Prepared, prepare, setBoard } from '../prepare.ts'
import { findWorst } from '../worst.ts'
import { holding } from './protection.ts'

export interface Line {
  input: number
  ambient: number
  /** By tolerance id, -1 low or +1 high; those at their nominal value are left out. */
  board: Record<string, number>
  /** Volts at the output and amperes delivered, from no load to the short. */
  volts: number[]
  amperes: number[]
  /** Watts in the pass transistor at each point; absent where the design has none. */
  passHeat?: number[]
}

export interface LatchUp {
  /** Volts at which the output can rest instead of at its nominal value. */
  rests: number
  /** What is missing there at its worst: the output where the gap is widest, and what is delivered and drawn there. */
  widest: { volts: number; delivered: number; drawn: number }
  input: number
  ambient: number
}

export interface LoadLine {
  /** Whether a part of the design limits its current. */
  isLimited: boolean
  nominal: Line
  /** The boards and conditions that deliver the least, and into a short the most. */
  least: Line
  most: Line
  /** The full load, as a load of constant current draws it along the least line; absent where it cannot latch up. */
  latchUp?: LatchUp
  /** Forced points without a solution, left out of the lines. */
  unsolved: number
}

/** Forced voltages as shares of the regulated one: dense near the short, where a constant-current load begins to draw. */
const SHARES = [
  1 - 1e-4,
  0.999,
  ...Array.from({ length: 39 }, (_, k) => 0.975 - 0.025 * k),
  0.0125,
  0.006,
  0.003,
  0.001,
  0,
]
const REGULATED_POINTS = 9
/** Resting below this share of what is regulated at full load is a latch-up and not mere sag. */
const SAG = 0.9
/** Below this share of its nominal value the output is no longer regulated. */
const COLLAPSED = 0.5
/** Where the board of least current is looked for, as a share of the output. */
const HALFWAY = 0.5

export function* loadLineOf(design: SizedDesign, requirements: Requirements): Generator<void, LoadLine | undefined> {
  const { input, output, load, ambient } = requirements
  const sweeper = createSweeper(design, output.voltage)
  const corners = [input.min, input.max].flatMap((v) => [ambient.min, ambient.max].map((t) => ({ v, t })))
  const nominalBoard = new Int8Array(design.tolerances.length)
  /** The corner of input and ambient that is extreme on the nominal board, then the board that is extreme there. */
  function* extreme(direction: 1 | -1, volts: number): Generator<void, { board: Board; at: Place } | undefined> {
    const deliver = sweeper.holdAt(volts)
    const value = (board: Board, at: Place): number => deliver(board, at)?.amperes ?? NaN
    let best: { at: Place; amperes: number } | undefined
    for (const at of corners) {
      const amperes = value(nominalBoard, at)
      if (!Number.isNaN(amperes) && (!best || (amperes - best.amperes) * direction > 0)) best = { at, amperes }
      yield
    }
    if (!best) return undefined
    const { at } = best
    const worst = findWorst({ direction, conditions: 1, value: (board) => value(board, at) }, nominalBoard.length)
    return worst && { board: worst.board, at }
  }
  const least = yield* extreme(-1, HALFWAY * output.voltage)
  const most = yield* extreme(1, 0)
  if (!least || !most) return undefined
  const nominal = yield* sweeper.line(nominalBoard, { v: input.nominal, t: ambient.nominal }, load.max)
  const leastLine = yield* sweeper.line(least.board, least.at, load.max)
  const mostLine = yield* sweeper.line(most.board, most.at, load.max)
  if ([nominal, leastLine, mostLine].some(({ volts }) => volts.length === 0)) return undefined
  const regulated = leastLine.volts[leastLine.amperes.indexOf(load.max)] ?? output.voltage
  const latchUp = latchUpOn(leastLine, load.max, SAG * Math.min(output.voltage, regulated))
  return {
    isLimited: design.parts.some(({ role }) => role === 'current limiter'),
    nominal,
    least: leastLine,
    most: mostLine,
    ...(latchUp ? { latchUp } : {}),
    unsolved: sweeper.unsolved(),
  }
}

/** Input in volts, ambient in degrees Celsius. */
interface Place {
  readonly v: number
  readonly t: number
}

interface Delivered {
  readonly amperes: number
  /** Watts by part of the circuit. */
  readonly power: Float64Array
}

interface Sweeper {
  /** What the circuit delivers into an output held at these volts; undefined without a solution. */
  readonly holdAt: (volts: number) => (board: Board, at: Place) => Delivered | undefined
  readonly line: (board: Board, at: Place, fullLoad: number) => Generator<void, Line>
  readonly unsolved: () => number
}

function createSweeper(design: SizedDesign, nominal: number): Sweeper {
  const whole = prepare(design)
  const passId = design.parts.find(({ role }) => role.startsWith('pass transistor'))?.id
  let unsolved = 0

  const holdAt: Sweeper['holdAt'] = (volts) => {
    const held = prepare(holding(design, volts))
    const ws = newWorkspace(held.circuit)
    const fresh = newWorkspace(held.circuit)
    return (board, at) => {
      copyState(fresh, ws)
      setBoard(held, ws, board)
      return deliveredBy(held, ws, at, volts)
    }
  }

  /** Down the forced branch, each point from the one before as long as that leads anywhere, else from a guess of its own. */
  const sweepDown = (board: Board, at: Place, top: number): ((volts: number) => Delivered | undefined) => {
    const held = prepare(holding(design, top))
    const ws = newWorkspace(held.circuit)
    setBoard(held, ws, board)
    let isWarm = true
    return (volts) => {
      const warm = isWarm ? deliveredBy(held, ws, at, volts) : undefined
      isWarm &&= warm !== undefined
      return warm ?? holdAt(volts)(board, at)
    }
  }

  function* line(board: Board, at: Place, fullLoad: number): Generator<void, Line> {
    const made: Line = {
      input: at.v,
      ambient: at.t,
      board: Object.fromEntries(design.tolerances.flatMap(({ id }, k) => (board[k] === 0 ? [] : [[id, board[k]!]]))),
      volts: [],
      amperes: [],
      ...(passId === undefined ? {} : { passHeat: [] }),
    }
    const add = ({ circuit }: Prepared, power: Float64Array, volts: number, amperes: number): void => {
      made.volts.push(volts)
      made.amperes.push(amperes)
      if (passId !== undefined) made.passHeat!.push(power[circuit.part(passId)]!)
    }
    const regulated = newWorkspace(whole.circuit)
    setBoard(whole, regulated, board)
    let top = nominal
    for (let k = 0; k < REGULATED_POINTS; k++) {
      const amperes = (fullLoad * k) / (REGULATED_POINTS - 1)
      const isSolved = solvePoint(whole.circuit, regulated, at.v, amperes, at.t, COLD) === 0
      const volts = regulated.voltages[whole.output]!
      // a load beyond the knee finds the output folded back: the regulated branch ends before it
      if (isSolved && volts < COLLAPSED * nominal) break
      if (isSolved) {
        add(whole, regulated.power, volts, amperes)
        top = volts
      } else unsolved++
      yield
    }
    const deliver = sweepDown(board, at, top)
    for (const share of SHARES) {
      const found = deliver(share * top)
      if (found) add(whole, found.power, share * top, found.amperes)
      else unsolved++
      yield
    }
    return made
  }

  return { holdAt, line, unsolved: () => unsolved }
}

function deliveredBy({ circuit }: Prepared, ws: Workspace, at: Place, volts: number): Delivered | undefined {
  ws.parameters[circuit.slot('load', 'value')] = volts
  ws.stale = true
  if (solvePoint(circuit, ws, at.v, 0, at.t, COLD) !== 0) return undefined
  return { amperes: ws.currents[circuit.terminals[circuit.element('load')]!]!, power: ws.power }
}

/** Amperes that the full load draws at `volts`. */
const drawnBy = (load: number, volts: number): number => load * Math.tanh(volts / LOAD_KNEE)

/**
 * Coming up from the short, the first voltage at which the load draws all that is delivered. Between two points of the line
 * the surplus is taken as straight.
 */
export function latchUpOn({ input, ambient, volts, amperes }: Line, load: number, below: number): LatchUp | undefined {
  let before: { volts: number; surplus: number } | undefined
  let rests: number | undefined
  let widest: LatchUp['widest'] | undefined
  for (let k = volts.length - 1; k >= 0; k--) {
    const v = volts[k]!
    if (v > below) break
    const drawn = drawnBy(load, v)
    const surplus = amperes[k]! - drawn
    if (surplus <= 0) {
      rests ??= before ? before.volts + ((v - before.volts) * before.surplus) / (before.surplus - surplus) : v
      if (!widest || surplus < widest.delivered - widest.drawn) widest = { volts: v, delivered: amperes[k]!, drawn }
    }
    before = { volts: v, surplus }
  }
  return rests === undefined || !widest ? undefined : { rests, widest, input, ambient }
}
