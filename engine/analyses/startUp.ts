/**
 * Start-up of a feedback design: with the output forced from 0 V up to its nominal value, the current that the circuit
 * delivers must stay above what the load takes, at every corner; otherwise the output can rest below its nominal value.
 */
import type { Element } from '../devices/elements.ts'
import type { Requirements } from '../requirements/study.ts'
import { COLD, type State, type Workspace, newWorkspace, setState, solvePoint, stateOf } from '../solve/index.ts'
import type { SizedDesign } from '../topologies/define.ts'
import type { Board } from './observation.ts'
import { type Prepared, guessAt, prepare, setBoard } from './prepare.ts'
import { type Recall, recalledIn } from './search.ts'
import { findWorst } from './worst.ts'

export interface StartUp {
  /**
   * Amperes left over for charging the output capacitor at the worst corner and output voltage; not positive: it may not start.
   * NaN where no point has a solution.
   */
  surplus: number
  input: number
  ambient: number
  output: number
  board: Board
  /** Forced points that have no solution: where there are any, start-up is not proven. */
  unsolved: number
}

/** Shares of the nominal output at which the output is held: dense near zero, where a bias taken from the output is missing. */
const HELD = [0.9, 0.6, 0.3, 0.1, 0.03, 0]

/**
 * Where the nominal board delivers this many times the full load at every held output, no tolerance can take that away
 * (gain, the widest, spreads by less than three either way): then only the board of lowest output is solved beside it.
 */
const AMPLE = 5

/** A point is searched over the tolerances only where it has, on the nominal board, less than this many times the least surplus. */
const CLOSE = 3

/** One held output at one end of input and ambient. */
interface ForcedPoint {
  /** Of the nominal output. */
  readonly share: number
  readonly input: number
  readonly ambient: number
}

const pointsOf = ({ input, ambient }: Requirements): ForcedPoint[] =>
  HELD.flatMap((share) =>
    [input.min, input.max].flatMap((v) =>
      [ambient.min, ambient.max].map((t): ForcedPoint => ({ share, input: v, ambient: t })),
    ),
  )

/** Under this name a recall keeps the board and the point at which a like design failed to start. */
const START = 'start-up'

/** Whether a design fails to start where a like one did: two solves that can spare the rest of a proof. */
export function failsToStartAgain(built: Prepared, requirements: Requirements, recall: Recall): boolean {
  const past = recall.get(START)?.past
  if (!past) return false
  const point = pointsOf(requirements)[past.condition]!
  const held = holdAt(built.design, point.share * requirements.output.voltage)
  const atNominal = surplusOf(held, new Int8Array(past.board.length), point, requirements)
  return !(atNominal > 0 && surplusOf(held, past.board, point, requirements, stateOf(held.ws)) > 0)
}

/**
 * `weakest`: the board that makes the output lowest. `tolerances`: how many are moved, all or none. With a `recall`, which is
 * filled in, nobody asks for more than whether it starts: the proof ends where it does not, and the surplus is exact only there.
 */
export function proveStartUp(
  built: Prepared,
  requirements: Requirements,
  weakest: Board,
  tolerances: number,
  recall?: Recall,
): StartUp {
  const { design } = built
  const { output, load } = requirements
  const held = new Map<number, Held>()
  // all are wired alike
  for (const share of HELD) held.set(share, holdAt(design, share * output.voltage, held.get(HELD[0]!)?.forced))
  const points = pointsOf(requirements)
  const nominal = new Int8Array(design.tolerances.length)
  let worst: Omit<StartUp, 'unsolved'> = {
    surplus: NaN,
    input: requirements.input.min,
    ambient: requirements.ambient.min,
    output: HELD[0]! * output.voltage,
    board: nominal,
  }
  let unsolved = 0
  let isOver = false
  const surplus = (board: Board, k: number, start?: State): number => {
    const point = points[k]!
    const { share, input, ambient } = point
    const left = surplusOf(held.get(share)!, board, point, requirements, start)
    if (Number.isNaN(left)) unsolved++
    else if (!(worst.surplus <= left))
      worst = { surplus: left, input, ambient, output: share * output.voltage, board: board.slice() }
    if (recall && !(left > 0)) {
      isOver = true
      recalledIn(recall, START).past = { board: board.slice(), condition: k }
    }
    return left
  }
  const told = (): StartUp => ({ ...worst, unsolved })
  /** The nominal board, and where it stands: where every other board's solve begins. */
  const ofNominal: { k: number; left: number; start: State | undefined }[] = []
  for (const [k, { share }] of points.entries()) {
    const left = surplus(nominal, k)
    if (isOver) return told()
    ofNominal.push({ k, left, start: Number.isNaN(left) ? undefined : stateOf(held.get(share)!.ws) })
  }
  if (weakest.length === nominal.length)
    for (const { k, start } of ofNominal) {
      surplus(weakest, k, start)
      if (isOver) return told()
    }
  const least = Math.min(...ofNominal.map(({ left }) => left).filter((x) => !Number.isNaN(x)))
  const close = ofNominal.filter(({ left }) => !(left > Math.max(CLOSE * least, 0)))
  const isAmple = unsolved === 0 && least > AMPLE * load.max
  if (!isAmple && tolerances > 0) {
    const name = `${START} ${close.map(({ k }) => k).join()}`
    findWorst(
      {
        direction: -1,
        conditions: close.length,
        value: (board, k) => surplus(board, close[k]!.k, close[k]!.start),
        ...(recall && { isQuick: true, floor: 0, limit: 0, recalled: recalledIn(recall, name) }),
      },
      tolerances,
    )
  }
  return told()
}

interface Held {
  readonly volts: number
  readonly forced: Prepared
  readonly ws: Workspace
  readonly guess: State
  /** Index of the current that the circuit delivers into the held output. */
  readonly terminal: number
}

/** Amperes left over; NaN where there is no solution. Begins at `start`, without one at the guess. */
function surplusOf(
  { volts, forced, ws, guess, terminal }: Held,
  board: Board,
  { input, ambient }: ForcedPoint,
  { load }: Requirements,
  start?: State,
): number {
  setState(ws, start ?? guess)
  setBoard(forced, ws, board)
  if (solvePoint(forced.circuit, ws, input, 0, ambient, COLD) !== 0) return NaN
  return ws.currents[terminal]! - load.max * Math.tanh(volts / 0.1)
}

/** The circuit with its output held at `volts` by a source; what follows the output starts from there. */
function holdAt(design: SizedDesign, volts: number, like?: Prepared): Held {
  const elements = design.netlist.elements.map((e): Element =>
    e.id === 'load' && e.kind === 'current-source'
      ? { kind: 'voltage-source', id: 'load', nodes: e.nodes, part: e.part, value: volts }
      : e,
  )
  const forced = prepare({ ...design, guess: guessAt(design, volts), netlist: { ...design.netlist, elements } }, like)
  const { circuit } = forced
  const ws = newWorkspace(circuit)
  return {
    volts,
    forced,
    ws,
    guess: stateOf(ws),
    terminal: circuit.terminals[circuit.element('load')]!,
  }
}
