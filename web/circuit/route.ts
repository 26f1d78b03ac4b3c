/**
 * Wires between pins, along a square grid: as short and straight as can be, around every symbol and text, other nets crossed
 * at right angles or not at all. Each net grows as a tree, pin by pin.
 */
import { PITCH } from './symbols.ts'
import type { Box } from './symbols.ts'

/** A place on the grid, in steps of `PITCH`. */
export interface Spot {
  readonly x: number
  readonly y: number
}

export interface Pin extends Spot {
  /** Which way its lead points: up, down or sideways. */
  readonly faces: 'up' | 'down' | 'side'
}

export interface Net {
  readonly name: string
  readonly pins: readonly Pin[]
  /** A straight wire that the net has from the start, a rail: pins that face it are wired straight to it where the way is free. */
  readonly trunk?: readonly [Spot, Spot]
}

export interface Wire {
  readonly net: string
  /** A straight piece, in units of the diagram; from left to right or from top to bottom. */
  readonly from: Spot
  readonly to: Spot
}

export interface Routed {
  readonly wires: readonly Wire[]
  /** Where three or more pieces of a net meet, in units of the diagram. */
  readonly dots: readonly (Spot & { readonly net: string })[]
  /** Lower is neater. */
  readonly cost: number
}

export interface Field {
  /** In units of the diagram. */
  readonly symbols: readonly Box[]
  readonly texts: readonly Box[]
  readonly extent: Box
}

const EAST = 1
const SOUTH = 2
const WEST = 4
const NORTH = 8
const DIRECTIONS = [EAST, SOUTH, WEST, NORTH] as const
const OPPOSITE: Readonly<Record<number, number>> = { [EAST]: WEST, [WEST]: EAST, [SOUTH]: NORTH, [NORTH]: SOUTH }
const DX: Readonly<Record<number, number>> = { [EAST]: 1, [WEST]: -1, [SOUTH]: 0, [NORTH]: 0 }
const DY: Readonly<Record<number, number>> = { [EAST]: 0, [WEST]: 0, [SOUTH]: 1, [NORTH]: -1 }

/** What a step, a bend, a crossing and a step beside another wire cost. */
const STEP = 1
const BEND = 3
const CROSSING = 7
const BESIDE = 0.6
const FOURTH = 4

/** Routes every net in the order given; undefined where one cannot be reached. */
export function route(nets: readonly Net[], field: Field): Routed | undefined {
  const grid = new Grid(field, nets)
  let cost = 0
  for (const [index, net] of nets.entries()) if (net.trunk) grid.draw(index + 1, net.trunk)
  for (const [index, net] of nets.entries()) if (net.trunk) grid.drop(index + 1, net.pins, net.trunk)
  for (const [index, net] of nets.entries()) {
    const own = index + 1
    const left = net.pins.map((spot) => grid.cell(spot))
    let root: number | undefined
    if (!net.trunk) root = left.shift()
    while (left.length > 0) {
      // the pin nearest to what is wired already comes next
      const next = grid.nearest(own, left, root)
      const found = grid.search(own, left[next]!, root)
      if (!found) return undefined
      grid.lay(own, found.path)
      cost += found.cost
      left.splice(next, 1)
    }
  }
  return { ...grid.read(nets), cost }
}

class Grid {
  readonly #left: number
  readonly #top: number
  readonly #columns: number
  readonly #rows: number
  readonly #blocked: Uint8Array
  /** By cell: net of a pin there, else 0. */
  readonly #pin: Uint8Array
  /** By cell: up to two nets that pass, and the directions in which their wires leave it. */
  readonly #owner: [Uint8Array, Uint8Array]
  readonly #mask: [Uint8Array, Uint8Array]

  constructor({ symbols, texts, extent }: Field, nets: readonly Net[]) {
    this.#left = Math.floor(extent.left / PITCH)
    this.#top = Math.floor(extent.top / PITCH)
    this.#columns = Math.ceil(extent.right / PITCH) - this.#left + 1
    this.#rows = Math.ceil(extent.bottom / PITCH) - this.#top + 1
    const cells = this.#columns * this.#rows
    this.#blocked = new Uint8Array(cells)
    this.#pin = new Uint8Array(cells)
    this.#owner = [new Uint8Array(cells), new Uint8Array(cells)]
    this.#mask = [new Uint8Array(cells), new Uint8Array(cells)]
    for (const box of symbols) this.#block(box, 0)
    for (const box of texts) this.#block(box, 2)
    for (const [index, { pins }] of nets.entries())
      for (const spot of pins) {
        const cell = this.cell(spot)
        this.#pin[cell] = index + 1
        this.#blocked[cell] = 0
      }
  }

  cell({ x, y }: Spot): number {
    return (y - this.#top) * this.#columns + (x - this.#left)
  }

  #block({ left, top, right, bottom }: Box, clear: number): void {
    for (let y = Math.ceil((top - clear) / PITCH); y <= Math.floor((bottom + clear) / PITCH); y++)
      for (let x = Math.ceil((left - clear) / PITCH); x <= Math.floor((right + clear) / PITCH); x++)
        if (this.#isInside(x, y)) this.#blocked[this.cell({ x, y })] = 1
  }

  #isInside(x: number, y: number): boolean {
    return x >= this.#left && x < this.#left + this.#columns && y >= this.#top && y < this.#top + this.#rows
  }

  draw(own: number, [from, to]: readonly [Spot, Spot]): void {
    const path: number[] = []
    const dx = Math.sign(to.x - from.x)
    const dy = Math.sign(to.y - from.y)
    for (let { x, y } = from; ; x += dx, y += dy) {
      path.push(this.cell({ x, y }))
      if (x === to.x && y === to.y) break
    }
    this.lay(own, path)
  }

  /** Wires the pins that face the rail straight to it, where nothing is in the way. */
  drop(own: number, pins: readonly Pin[], [from, to]: readonly [Spot, Spot]): void {
    for (const pin of pins) {
      const isTowards = pin.faces === 'up' ? from.y < pin.y : pin.faces === 'down' && from.y > pin.y
      if (!isTowards || pin.x < from.x || pin.x > to.x) continue
      const dy = Math.sign(from.y - pin.y)
      let isFree = true
      for (let y = pin.y + dy; y !== from.y; y += dy) {
        const cell = this.cell({ x: pin.x, y })
        if (this.#blocked[cell] || this.#pin[cell] || this.#owner[0][cell]) isFree = false
      }
      if (isFree) this.draw(own, [pin, { x: pin.x, y: from.y }])
    }
  }

  /** Index of the pin nearest to the net's wires. */
  nearest(own: number, pins: readonly number[], root: number | undefined): number {
    const wired: number[] = root === undefined ? [] : [root]
    for (let cell = 0; cell < this.#blocked.length; cell++) if (this.#own(cell, own) !== 0) wired.push(cell)
    let best = 0
    let least = Infinity
    for (const [k, pin] of pins.entries())
      for (const cell of wired) {
        const dx = Math.abs((pin % this.#columns) - (cell % this.#columns))
        const dy = Math.abs(Math.floor(pin / this.#columns) - Math.floor(cell / this.#columns))
        if (dx + dy >= least) continue
        least = dx + dy
        best = k
      }
    return best
  }

  /** Which of a cell's two places holds the net; -1 where none does. */
  #place(cell: number, own: number): number {
    return this.#owner[0][cell] === own ? 0 : this.#owner[1][cell] === own ? 1 : -1
  }

  lay(own: number, path: readonly number[]): void {
    for (let k = 0; k < path.length; k++) {
      const cell = path[k]!
      let place = this.#place(cell, own)
      if (place < 0) {
        place = this.#owner[0][cell] === 0 ? 0 : 1
        this.#owner[place]![cell] = own
      }
      for (const other of [path[k - 1], path[k + 1]])
        if (other !== undefined) this.#mask[place]![cell]! |= this.#directionOf(other - cell)
    }
  }

  #directionOf(step: number): number {
    return step === 1 ? EAST : step === -1 ? WEST : step === this.#columns ? SOUTH : NORTH
  }

  #stepOf(direction: number): number {
    return DX[direction]! + DY[direction]! * this.#columns
  }

  /** Directions in which the net's wires leave a cell. */
  #own(cell: number, own: number): number {
    const place = this.#place(cell, own)
    return place < 0 ? 0 : this.#mask[place]![cell]!
  }

  /** The nets of others that hold a cell: their directions, and how many they are. */
  #others(cell: number, own: number): { mask: number; count: number } {
    let mask = 0
    let count = 0
    for (const place of [0, 1] as const) {
      const owner = this.#owner[place][cell]!
      if (owner === 0 || owner === own) continue
      mask |= this.#mask[place][cell]!
      count++
    }
    return { mask, count }
  }

  /** Cheapest way from a pin to what the net has already: its wires, or its first pin where it has none yet. */
  search(own: number, from: number, root: number | undefined): { cost: number; path: number[] } | undefined {
    const states = this.#columns * this.#rows * 4
    const costs = new Float64Array(states).fill(Infinity)
    const back = new Int32Array(states).fill(-1)
    const queue = new Heap()
    const isTarget = (cell: number) => cell !== from && (cell === root || this.#own(cell, own) !== 0)
    // a pin that a wire of its own net passes already
    if (this.#own(from, own) !== 0) return { cost: 0, path: [from] }
    for (let d = 0; d < 4; d++) {
      costs[from * 4 + d] = 0
      queue.push(from * 4 + d, 0)
    }
    for (let state = queue.pop(); state >= 0; state = queue.pop()) {
      const cell = state >> 2
      const heading = DIRECTIONS[state & 3]!
      const sofar = costs[state]!
      if (isTarget(cell)) return { cost: sofar, path: this.#wayTo(state, back) }
      for (let d = 0; d < 4; d++) {
        const direction = DIRECTIONS[d]!
        if (direction === OPPOSITE[heading] && cell !== from) continue
        const isBend = direction !== heading && cell !== from
        // over another net only straight on
        if (isBend && this.#others(cell, own).count > 0) continue
        const next = this.#neighbour(cell, direction)
        if (next < 0) continue
        const step = this.#enter(next, direction, own, isTarget(next))
        if (step === Infinity) continue
        const total = sofar + step + (isBend ? BEND : 0)
        const reached = next * 4 + d
        if (total >= costs[reached]!) continue
        costs[reached] = total
        back[reached] = cell === from ? from * 4 : state
        queue.push(reached, total)
      }
    }
    return undefined
  }

  #neighbour(cell: number, direction: number): number {
    const x = (cell % this.#columns) + DX[direction]!
    const y = Math.floor(cell / this.#columns) + DY[direction]!
    return x < 0 || y < 0 || x >= this.#columns || y >= this.#rows ? -1 : cell + this.#stepOf(direction)
  }

  /** What it costs to come into a cell. */
  #enter(cell: number, direction: number, own: number, isTarget: boolean): number {
    const pin = this.#pin[cell]!
    if (this.#blocked[cell] || (pin !== 0 && pin !== own)) return Infinity
    // a pin of the net that is not connected yet is reached by its own way
    if (pin === own && !isTarget) return Infinity
    const { mask, count } = this.#others(cell, own)
    let cost = STEP
    if (count > 0) {
      const along = direction === EAST || direction === WEST ? EAST | WEST : NORTH | SOUTH
      const across = (EAST | SOUTH | WEST | NORTH) & ~along
      if (count > 1 || isTarget || mask !== across) return Infinity
      cost += CROSSING
    } else if (isTarget) {
      const joined = this.#own(cell, own) | OPPOSITE[direction]!
      if (joined === (EAST | SOUTH | WEST | NORTH)) cost += FOURTH
    } else {
      for (const side of DIRECTIONS) {
        if (side === direction || side === OPPOSITE[direction]) continue
        const beside = this.#neighbour(cell, side)
        if (beside >= 0 && (this.#owner[0][beside] !== 0 || this.#blocked[beside])) cost += BESIDE
      }
    }
    return cost
  }

  #wayTo(state: number, back: Int32Array): number[] {
    const path: number[] = []
    for (let at = state; at >= 0; at = back[at]!) path.push(at >> 2)
    return path.toReversed()
  }

  #spot(cell: number): Spot {
    return {
      x: ((cell % this.#columns) + this.#left) * PITCH,
      y: (Math.floor(cell / this.#columns) + this.#top) * PITCH,
    }
  }

  read(nets: readonly Net[]): Pick<Routed, 'wires' | 'dots'> {
    const wires: Wire[] = []
    const dots: (Spot & { net: string })[] = []
    for (const [index, { name }] of nets.entries()) {
      const own = index + 1
      for (let cell = 0; cell < this.#blocked.length; cell++) {
        const mask = this.#own(cell, own)
        if (mask === 0) continue
        for (const direction of [EAST, SOUTH]) {
          // a piece begins where its wire does not come from behind
          if (!(mask & direction) || mask & OPPOSITE[direction]!) continue
          let end = cell
          while (this.#own(end, own) & direction) end += this.#stepOf(direction)
          wires.push({ net: name, from: this.#spot(cell), to: this.#spot(end) })
        }
        const ways = DIRECTIONS.filter((direction) => mask & direction).length + (this.#pin[cell] === own ? 1 : 0)
        if (ways > 2) dots.push({ net: name, ...this.#spot(cell) })
      }
    }
    return { wires, dots }
  }
}

/** States by their cost, cheapest first. */
class Heap {
  readonly #states: number[] = []
  readonly #costs: number[] = []

  push(state: number, cost: number): void {
    const states = this.#states
    const costs = this.#costs
    let k = states.length
    states.push(state)
    costs.push(cost)
    while (k > 0) {
      const parent = (k - 1) >> 1
      if (costs[parent]! <= cost) break
      states[k] = states[parent]!
      costs[k] = costs[parent]!
      k = parent
    }
    states[k] = state
    costs[k] = cost
  }

  /** -1 where it is empty. */
  pop(): number {
    const states = this.#states
    const costs = this.#costs
    const first = states[0]
    if (first === undefined) return -1
    const state = states.pop()!
    const cost = costs.pop()!
    const size = states.length
    if (size === 0) return first
    let k = 0
    for (;;) {
      let child = 2 * k + 1
      if (child >= size) break
      if (child + 1 < size && costs[child + 1]! < costs[child]!) child++
      if (costs[child]! >= cost) break
      states[k] = states[child]!
      costs[k] = costs[child]!
      k = child
    }
    states[k] = state
    costs[k] = cost
    return first
  }
}
