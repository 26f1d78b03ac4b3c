/**
 * The textbooks' devices as circuit elements: a reference diode with a fixed voltage and slope, a transistor with a fixed
 * current gain and a stated base-emitter voltage, an amplifier that only amplifies. They run through our solver.
 */
import type { AmplifierModel, DiodeModel, Element, Netlist } from '../../../engine/devices/elements.ts'
import { type OwnSolution, solveOurs } from '../own/solver.ts'

const CELSIUS = 25
/** kT/q at 25 °C, from the exact constants. */
const VT = 0.025692579

/** A thousandth of a junction's steepness: 0.06 mV a decade of current is what remains of the knee. */
const STEEP = 1e-3

export const source = (id: string, node: string, volts: number): Element => ({
  id,
  kind: 'voltage-source',
  nodes: [node, '0'],
  value: volts,
  part: id,
})

export const supply = (volts: number): Element => source('input', 'in', volts)

/** Pushes `amperes` into `node`. */
export const feed = (node: string, amperes: number): Element => ({
  id: `I${node}`,
  kind: 'current-source',
  nodes: ['0', node],
  value: amperes,
  part: `I${node}`,
})

export const resistor = (id: string, a: string, b: string, ohms: number): Element => ({
  id,
  kind: 'resistor',
  nodes: [a, b],
  ohms,
  part: id,
})

/** Reference diode from `cathode` to `anode`: `volts` is its voltage extrapolated to zero current, `slope` in ohms. */
export const referenceDiode = (id: string, cathode: string, volts: number, slope = 0, anode = '0'): Element => {
  const model: DiodeModel = {
    IS: 1e-15,
    N: 1,
    RS: slope,
    BV: volts,
    IBV: 5e-3,
    NBV: STEEP,
    EG: 1.11,
    XTI: 3,
    TNOM: CELSIUS,
    tc: 0,
  }
  return { id, kind: 'diode', nodes: [anode, cathode], model, part: id }
}

/** NPN of fixed gain whose base-emitter voltage is `volts` at `amperes` of collector current. */
export const transistor = (
  id: string,
  [collector, base, emitter]: readonly [string, string, string],
  beta: number,
  volts: number,
  amperes: number,
): Element => ({
  id,
  kind: 'npn',
  nodes: [collector, base, emitter],
  model: { IS: amperes / Math.expm1(volts / VT), BF: beta, NF: 1, TNOM: CELSIUS },
  part: id,
})

export const amplifier = (
  id: string,
  nodes: readonly [string, string, string, string, string],
  model: Partial<AmplifierModel> = {},
): Element => ({
  id,
  kind: 'amplifier',
  nodes,
  model: {
    A0: 1e5,
    VOS: 0,
    DVOS: 0,
    TNOM: CELSIUS,
    PSRR: 1e12,
    VS0: 0,
    CMRR: 1e12,
    VC0: 0,
    DH: 0,
    DL: 0,
    RO: 1,
    ISRC: 10,
    ISNK: 10,
    IQ: 0,
    IB: 0,
    ...model,
  },
  part: id,
})

/** A solved circuit, read in the words of the examples. */
export interface Solved extends OwnSolution {
  /** Volts at a node. */
  v(node: string): number
  /** Amperes into the first terminal of an element. */
  i(element: string): number
  /** Watts in an element's part. */
  p(element: string): number
}

function known(value: number | undefined, name: string): number {
  if (value === undefined) throw new Error(`nothing is called ${name}`)
  return value
}

/** Solves the elements at 25 °C; `near` starts the search, and is needed only where a loop could rest elsewhere. */
export function solve(elements: readonly Element[], near: Readonly<Record<string, number>> = {}): Solved {
  const netlist: Netlist = { ground: '0', elements }
  const feeding = elements.find((element) => element.id === 'input')
  const input = feeding?.kind === 'voltage-source' ? feeding.value : 0
  const solution = solveOurs(netlist, { condition: { input, load: 0, ambient: CELSIUS }, near })
  return {
    ...solution,
    v: (node) => known(solution.nodeVoltages[node], node),
    i: (element) => known(solution.currents[element]?.[0], element),
    p: (element) => known(solution.power[element], element),
  }
}

/** Derivative of `f` by a small symmetric step. */
export const slopeOf = (f: (x: number) => number, at: number, step: number): number =>
  (f(at + step) - f(at - step)) / (2 * step)
