/**
 * The flow picture's shapes. Input power enters through the gate at x = 0; the load strand goes straight on, the heat
 * strands lie under it in order of size and turn down one after the other, the lowest first, so that none cross.
 * Lengths in units of the picture, which is `WIDTH` across.
 */
import type { Balance, Strand } from './balance.ts'

export const WIDTH = 300
/** Top edge of the load strand. */
export const TOP = 4
/** Thickness that the largest input power gets. */
export const FULL_THICKNESS = 68
/** Where turned strands end. */
export const BOTTOM = 120
const INNER_RADIUS = 9
const ARROW = 8
/** Thinner strands are drawn this thick, as hairlines: their label is the measure. */
export const HAIRLINE = 1.2
const FIRST_COLUMN = 34
/** Least distance of two columns: their labels stand side by side. */
const PITCH = 62
const COLUMN_GAP = 14

export interface StrandShape extends Strand {
  /** True thickness, watts times scale. */
  readonly thickness: number
  /** Top edge at the gate. */
  readonly top: number
  /** Centre of the turned part. */
  readonly centre: number
  readonly isHairline: boolean
  readonly path: string
}

export interface FlowShapes {
  readonly load: { readonly thickness: number; readonly top: number; readonly path: string }
  /** Largest first: from the top down at the gate, from the right to the left at the bottom. */
  readonly strands: readonly StrandShape[]
  readonly gate: { readonly top: number; readonly bottom: number }
}

const n = (value: number) => Number(value.toFixed(2))

/** Units of the picture per watt such that `largestInput` watts fit; one number for all designs. */
export function scaleFor(largestInput: number): number {
  return largestInput > 0 ? FULL_THICKNESS / largestInput : 0
}

function turn(top: number, thickness: number, centre: number): string {
  const drawn = Math.max(thickness, HAIRLINE)
  const first = top + (thickness - drawn) / 2
  const last = first + drawn
  const right = centre + drawn / 2
  const left = centre - drawn / 2
  const inner = INNER_RADIUS
  const outer = inner + drawn
  return (
    `M0,${n(first)}H${n(right - outer)}A${n(outer)},${n(outer)} 0 0 1 ${n(right)},${n(first + outer)}V${BOTTOM}` +
    `H${n(left)}V${n(last + inner)}A${inner},${inner} 0 0 0 ${n(left - inner)},${n(last)}H0Z`
  )
}

export function flowShapes(balance: Balance, scale: number): FlowShapes {
  const load = balance.load * scale
  const drawnLoad = Math.max(load, HAIRLINE)
  const bottom = TOP + drawnLoad
  const middle = TOP + drawnLoad / 2
  const arrow = Math.min(ARROW, drawnLoad)
  const path = `M0,${TOP}H${n(WIDTH - arrow)}L${WIDTH},${n(middle)}L${n(WIDTH - arrow)},${n(bottom)}H0Z`

  // columns from the left: the smallest strand turns first
  const centres: number[] = []
  const rising = balance.strands.toReversed().map(({ watts }) => watts * scale)
  for (const [i, thickness] of rising.entries()) {
    const before = centres.at(-1)
    if (before === undefined) centres.push(Math.max(FIRST_COLUMN, INNER_RADIUS + thickness / 2 + 4))
    else centres.push(before + Math.max(PITCH, (rising[i - 1]! + thickness) / 2 + COLUMN_GAP))
  }
  centres.reverse()

  let top = TOP + load
  const strands = balance.strands.map((strand, i): StrandShape => {
    const thickness = strand.watts * scale
    const at = top
    top += thickness
    const centre = centres[i]!
    return {
      ...strand,
      thickness,
      top: at,
      centre,
      isHairline: thickness < HAIRLINE,
      path: turn(at, thickness, centre),
    }
  })
  return {
    load: { thickness: load, top: TOP, path },
    strands,
    gate: { top: TOP - 2, bottom: Math.max(top, bottom) + 2 },
  }
}
