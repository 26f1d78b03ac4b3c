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
import { findWorst } from './worst.ts'

export interface StartUp {
  /** Amperes left over for charging the output capacitor at the worst corner and output voltage; not positive: it may not start. */
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
  readonly held: Held
  readonly input: number
  readonly ambient: number
}

/** `weakest`: the board that makes the output lowest. `tolerances`: how many are moved, all or none. */
export function proveStartUp(
  built: Prepared,
  requirements: Requirements,
  weakest: Board,
  tolerances: number,
): StartUp | undefined {
  const { design } = built
  const { input, output, load, ambient } = requirements
  const held: Held[] = []
  // all are wired alike
  for (const share of HELD) held.push(holdAt(design, share * output.voltage, held[0]?.forced))
  const points = held.flatMap((each) =>
    [input.min, input.max].flatMap((v) =>
      [ambient.min, ambient.max].map((t): ForcedPoint => ({ held: each, input: v, ambient: t })),
    ),
  )
  let worst: StartUp | undefined
  let unsolved = 0
  const surplus = (board: Board, point: ForcedPoint, start?: State): number => {
    const { volts, forced, ws, guess, terminal } = point.held
    setState(ws, start ?? guess)
    setBoard(forced, ws, board)
    if (solvePoint(forced.circuit, ws, point.input, 0, point.ambient, COLD) !== 0) {
      unsolved++
      return NaN
    }
    const left = ws.currents[terminal]! - load.max * Math.tanh(volts / 0.1)
    if (!worst || left < worst.surplus)
      worst = {
        surplus: left,
        input: point.input,
        ambient: point.ambient,
        output: volts,
        board: board.slice(),
        unsolved,
      }
    return left
  }
  const nominal = new Int8Array(design.tolerances.length)
  /** The nominal board, and where it stands: where every other board's solve begins. */
  const ofNominal = points.map((point) => {
    const left = surplus(nominal, point)
    return { point, left, start: Number.isNaN(left) ? undefined : stateOf(point.held.ws) }
  })
  if (weakest.length === nominal.length) for (const { point, start } of ofNominal) surplus(weakest, point, start)
  const least = Math.min(...ofNominal.map(({ left }) => left).filter((x) => !Number.isNaN(x)))
  const close = ofNominal.filter(({ left }) => !(left > Math.max(CLOSE * least, 0)))
  const isAmple = unsolved === 0 && least > AMPLE * load.max
  if (!isAmple && tolerances > 0)
    findWorst(
      {
        direction: -1,
        conditions: close.length,
        value: (board, k) => surplus(board, close[k]!.point, close[k]!.start),
      },
      tolerances,
    )
  return worst && { ...worst, unsolved }
}

interface Held {
  readonly volts: number
  readonly forced: Prepared
  readonly ws: Workspace
  readonly guess: State
  /** Index of the current that the circuit delivers into the held output. */
  readonly terminal: number
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
