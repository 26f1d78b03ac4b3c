/**
 * The circuit as one array of integers and the workspace as one array of doubles. The inner loops touch nothing else:
 * every integer of a record is the absolute place of a double, so that no object is looked up between two additions.
 */
import type { DeviceSet, Elimination, Layout } from './circuit.ts'
import { AMPLIFIER_MEMORY } from './drive.ts'

/** Places of single doubles: the load's current and the share of the sources let through; the continuation's conductance. */
export const LOAD = 0
export const SCALE = 1
export const ANCHOR = 2
/** 1 where an amplifier is evaluated as its input stands, unsteered: next to a solution. */
export const TRUSTED = 3
const FIRST_SECTION = 4

/** Where the sections of the doubles begin. `x`, `f` and `dx` have one length, so that one place serves all three. */
export interface Memory {
  readonly x: number
  readonly f: number
  readonly dx: number
  readonly diagonal: number
  readonly out: number
  readonly derived: number
  readonly conductance: number
  readonly branch: number
  readonly last: number
  readonly terminal: number
  readonly currents: number
  readonly power: number
  readonly base: number
  readonly matrix: number
  readonly length: number
}

/** `entries`: matrix entries with fill. */
export function mapMemory(layout: Layout, entries: number): Memory {
  let next = FIRST_SECTION
  const section = (length: number): number => {
    next += length
    return next - length
  }
  const { size, diodes, transistors, amplifiers, loads } = layout
  return {
    x: section(size),
    f: section(size),
    dx: section(size),
    diagonal: section(size),
    out: section(layout.outLength),
    derived: section(layout.derivedLength),
    conductance: section(layout.resistors.count),
    branch: section(layout.sources.branchRow.length),
    last: section(diodes.count + 2 * transistors.count + AMPLIFIER_MEMORY * amplifiers.count + loads.count),
    terminal: section(5),
    currents: section(layout.terminalFrom.length),
    power: section(layout.partCount),
    base: section(entries),
    matrix: section(entries),
    length: next,
  }
}

/** Places in the head of the plan. A section's records lie from plan[SECTION] up to plan[SECTION + 1]. */
export const X = 0
export const F = 1
export const FIRST_UNKNOWN = 2
/** Added to the place of an unknown in `x`, this gives its place in `f`, `dx`, `diagonal`. */
export const SIZE = 3
export const BASE = 4
export const MATRIX = 5
/** Matrix entries with fill. */
export const ENTRIES = 6
export const TERMINAL = 7
export const CURRENTS = 8
export const POWER = 9
export const OUT_END = 10
/** Conductance, x of both ends, place of the two currents. */
export const RESISTORS = 11
/** x of both ends, place of currents and derivatives, last voltage. */
export const LOADS = 12
/** x of both ends, place of the two currents, the current. */
export const FIXED = 13
/** x of plus and minus, x of the branch's current, its voltage. */
export const BRANCHES = 14
/** x of both terminals, derived values, currents and derivatives, last voltage. */
export const DIODES = 15
/** x of the three terminals, derived values, currents and derivatives, last two voltages. */
export const TRANSISTORS = 16
/** x of the five terminals, derived values, currents and derivatives, last evaluation. */
export const AMPLIFIERS = 17
/** x of the three terminals, derived values, currents and derivatives. */
export const REFERENCES = 18
/** Matrix entry, derivative. */
export const STAMPS = 19
/** Matrix entry, place in `diagonal`. */
export const DIAGONAL = 20
/** By pivot: its entry, how many rows below; by row: its entry, how many updates; by update: target, source. */
export const FACTOR = 21
/** By pivot with rows below: its row in `f`, how many; by row: its row in `f`, its multiplier. */
export const FORWARD = 22
/** By pivot, last first: its row in `f`, its column in `dx`, its entry, how many right of it; then entry and column of each. */
export const BACK = 23
/** Current, x of its node, power of its part. */
export const TERMINALS = 24
/** Conductance, x of the outer and of the inner end. */
export const SERIES = 25
const END = 26
const HEAD = 27

function counted(count: number, row: (k: number) => number[]): number[][] {
  return Array.from({ length: count }, (_, k) => row(k))
}

/** Writes the plan; without an elimination the circuit can be evaluated and assembled but not solved. */
export function writePlan(layout: Layout, memory: Memory, elimination: Elimination | undefined): Int32Array {
  const { x, f, dx, out, derived } = memory
  const plan: number[] = Array.from({ length: HEAD }, () => 0)
  const records = (section: number, rows: Iterable<readonly number[]>): void => {
    plan[section] = plan.length
    for (const row of rows) plan.push(...row)
    plan[section + 1] = plan.length
  }
  const devices = (section: number, set: DeviceSet, terminals: number, last?: { at: number; each: number }): void => {
    const row = (_: unknown, k: number): number[] => [
      ...Array.from({ length: terminals }, (__, t) => x + set.terminals[k * terminals + t]!),
      derived + set.derivedAt[k]!,
      out + set.outAt[k]!,
      ...(last === undefined ? [] : [memory.last + last.at + last.each * k]),
    ]
    records(section, Array.from({ length: set.count }, row))
  }
  const { resistors, loads, fixed, sources, diodes, transistors, amplifiers, references } = layout

  plan[X] = x
  plan[F] = f
  plan[FIRST_UNKNOWN] = x + layout.firstUnknown
  plan[SIZE] = layout.size
  plan[BASE] = memory.base
  plan[MATRIX] = memory.matrix
  plan[ENTRIES] = memory.matrix - memory.base
  plan[TERMINAL] = memory.terminal
  plan[CURRENTS] = memory.currents
  plan[POWER] = memory.power
  plan[OUT_END] = out + layout.outLength
  records(
    RESISTORS,
    counted(resistors.plainCount, (k) => [
      memory.conductance + k,
      x + resistors.ends[2 * k]!,
      x + resistors.ends[2 * k + 1]!,
      out + resistors.outAt[k]!,
    ]),
  )
  records(
    LOADS,
    counted(loads.count, (k) => [
      x + loads.terminals[2 * k]!,
      x + loads.terminals[2 * k + 1]!,
      out + loads.outAt[k]!,
      memory.last + diodes.count + 2 * transistors.count + AMPLIFIER_MEMORY * amplifiers.count + k,
    ]),
  )
  records(
    FIXED,
    counted(fixed.count, (k) => [
      x + fixed.terminals[2 * k]!,
      x + fixed.terminals[2 * k + 1]!,
      out + fixed.outAt[k]!,
      derived + fixed.derivedAt[k]!,
    ]),
  )
  records(
    BRANCHES,
    counted(sources.branchRow.length, (k) => [
      x + sources.branchPlus[k]!,
      x + sources.branchMinus[k]!,
      x + sources.branchRow[k]!,
      memory.branch + k,
    ]),
  )
  devices(DIODES, diodes, 2, { at: 0, each: 1 })
  devices(TRANSISTORS, transistors, 3, { at: diodes.count, each: 2 })
  devices(AMPLIFIERS, amplifiers, 5, { at: diodes.count + 2 * transistors.count, each: AMPLIFIER_MEMORY })
  devices(REFERENCES, references, 3)
  records(
    STAMPS,
    counted(layout.stampEntry.length, (k) => [memory.matrix + layout.stampEntry[k]!, out + layout.stampFrom[k]!]),
  )
  records(
    DIAGONAL,
    counted(layout.diagonalEntry.length, (k) => [
      memory.matrix + layout.diagonalEntry[k]!,
      memory.diagonal + layout.firstUnknown + k,
    ]),
  )
  const pivots = elimination?.pivots ?? []
  const a = memory.matrix
  records(
    FACTOR,
    pivots.map(({ entry, below }) => [
      a + entry,
      below.length,
      ...below.flatMap((row) => [a + row.entry, row.updates.length / 2, ...row.updates.map((e) => a + e)]),
    ]),
  )
  records(
    FORWARD,
    pivots
      .filter(({ below }) => below.length > 0)
      .map(({ row, below }) => [f + row, below.length, ...below.flatMap((b) => [f + b.row, a + b.entry])]),
  )
  records(
    BACK,
    pivots
      .toReversed()
      .map(({ row, column, entry, right }) => [
        f + row,
        dx + column,
        a + entry,
        right.length,
        ...right.flatMap((r) => [a + r.entry, dx + r.column]),
      ]),
  )
  records(
    TERMINALS,
    counted(layout.terminalFrom.length, (k) => [
      out + layout.terminalFrom[k]!,
      x + layout.terminalNode[k]!,
      memory.power + layout.terminalPart[k]!,
    ]),
  )
  records(
    SERIES,
    counted(resistors.count - resistors.plainCount, (k) => [
      memory.conductance + resistors.plainCount + k,
      x + resistors.ends[2 * (resistors.plainCount + k)]!,
      x + resistors.ends[2 * (resistors.plainCount + k) + 1]!,
    ]),
  )
  plan[END] = plan.length
  return Int32Array.from(plan)
}
