/**
 * Graphical symbols after IEC 60617, drawn here from their rules: outlines in units of the diagram around the symbol's centre,
 * pins on the edge of its box. A two-ended symbol stands upright with its first pin on top; a transistor has its base at the left.
 */
export const PITCH = 6

export type SymbolKind =
  | 'resistor'
  | 'capacitor'
  | 'diode'
  | 'npn'
  | 'pnp'
  | 'darlington'
  | 'amplifier'
  | 'reference'
  | 'load'

export interface Box {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

export interface SymbolShape {
  /** What no wire and no other symbol may touch; pins lie on its edge, on the grid. */
  readonly box: Box
  readonly pins: Readonly<Record<string, readonly [x: number, y: number]>>
  /** Stroked outlines. */
  readonly outline: string
  /** Filled outlines: arrow heads. */
  readonly solid?: string
}

const around = (x: number, y: number): Box => ({ left: -x, top: -y, right: x, bottom: y })

const TRANSISTOR_PINS = { collector: [0, -18], base: [-18, 0], emitter: [0, 18] } as const
const TRANSISTOR_BOX: Box = { left: -18, top: -18, right: 6, bottom: 18 }
/** Collector and emitter leads from the bar to the pins; the arrow lies on the emitter's. */
const LEADS = 'M-9,-4L0,-11V-18M-9,4L0,11V18'
const ARROW_OUT = 'M0.2,11.2L-6.2,9.4L-2.7,5Z'
const ARROW_IN = 'M-8.6,4.3L-2.2,6.1L-5.7,10.5Z'

export const SYMBOLS: Readonly<Record<SymbolKind, SymbolShape>> = {
  resistor: {
    box: around(6, 24),
    pins: { a: [0, -24], b: [0, 24] },
    outline: 'M0,-24V-16M0,16V24M-6,-16H6V16H-6Z',
  },
  load: {
    box: around(6, 24),
    pins: { a: [0, -24], b: [0, 24] },
    outline: 'M0,-24V-18M0,18V24M-6,-18H6V18H-6Z',
  },
  capacitor: {
    box: around(12, 18),
    pins: { a: [0, -18], b: [0, 18] },
    outline: 'M0,-18V-3M-10,-3H10M-10,3H10M0,3V18',
  },
  diode: {
    box: around(12, 18),
    pins: { cathode: [0, -18], anode: [0, 18] },
    outline: 'M0,-18V18M-8,7H8L0,-7ZM-8,-7H8V-2.5',
  },
  reference: {
    box: around(12, 18),
    pins: { cathode: [0, -18], anode: [0, 18], reference: [12, 0] },
    outline: 'M0,-18V18M-6.5,6H6.5L0,-6ZM-6.5,-6H6.5V-2M-12,-13H12V13H-12Z',
  },
  npn: {
    box: TRANSISTOR_BOX,
    pins: TRANSISTOR_PINS,
    outline: `M-18,0H-9M-9,-10V10${LEADS}`,
    solid: ARROW_OUT,
  },
  pnp: {
    box: TRANSISTOR_BOX,
    pins: TRANSISTOR_PINS,
    outline: `M-18,0H-9M-9,-10V10${LEADS}`,
    solid: ARROW_IN,
  },
  // one part, so one symbol: a second bar stands for the driver inside
  darlington: {
    box: TRANSISTOR_BOX,
    pins: TRANSISTOR_PINS,
    outline: `M-18,0H-13M-13,-7V7M-13,0H-9M-9,-10V10${LEADS}`,
    solid: ARROW_OUT,
  },
  amplifier: {
    box: around(24, 24),
    pins: { plus: [-24, -12], minus: [-24, 12], output: [24, 0], supply: [0, -24], common: [0, 24] },
    outline: 'M-18,-22V22L18,0ZM-24,-12H-18M-24,12H-18M18,0H24M0,-24V-11M0,11V24M-15,-11H-9M-12,-14V-8M-15,11H-9',
  },
}

/** How a symbol is turned: x' = xx·x + xy·y, y' = yx·x + yy·y. */
export interface Turn {
  readonly xx: number
  readonly xy: number
  readonly yx: number
  readonly yy: number
}

const turn = (xx: number, xy: number, yx: number, yy: number): Turn => ({ xx, xy, yx, yy })

export const UPRIGHT = turn(1, 0, 0, 1)
/** First pin at the left; a transistor's base below. */
export const LYING = turn(0, 1, -1, 0)
/** A transistor's collector at the left and its base above. */
export const LYING_BASE_UP = turn(0, 1, 1, 0)
/** Left and right changed over: a transistor's base at the right. */
export const MIRRORED = turn(-1, 0, 0, 1)
/** Top and bottom changed over. */
export const FLIPPED = turn(1, 0, 0, -1)

export const turned = ({ xx, xy, yx, yy }: Turn, [x, y]: readonly [number, number]): [number, number] => [
  xx * x + xy * y,
  yx * x + yy * y,
]

export function turnedBox(by: Turn, box: Box): Box {
  const [x1, y1] = turned(by, [box.left, box.top])
  const [x2, y2] = turned(by, [box.right, box.bottom])
  return { left: Math.min(x1, x2), top: Math.min(y1, y2), right: Math.max(x1, x2), bottom: Math.max(y1, y2) }
}

export const moved = (box: Box, x: number, y: number): Box => ({
  left: box.left + x,
  top: box.top + y,
  right: box.right + x,
  bottom: box.bottom + y,
})

export const isOverlapping = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
