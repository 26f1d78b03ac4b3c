/** The independent solver: one instance of a general-purpose circuit simulation library, started once and reused. */
import { Simulation } from 'eecircuit-engine'
import type { Netlist } from '../../../engine/devices/elements.ts'
import { SETTINGS, toNetlist, type Deck, type Situation } from './netlist.ts'

/** Volts by node and amperes into each terminal by element, as in a comparison's Point. */
export interface Solution {
  readonly nodeVoltages: Readonly<Record<string, number>>
  readonly currents: Readonly<Record<string, readonly number[]>>
}

let started: Promise<Simulation> | undefined

async function start(): Promise<Simulation> {
  const simulation = new Simulation()
  await simulation.start()
  // a failing run is only answered once some run has succeeded
  simulation.setNetList('first answer\nv1 a 0 1\nr1 a 0 1\n.op\n.end')
  await simulation.runSim()
  return simulation
}

/** The library writes to the console how it got there; what matters of it is read from `getError` all the same. */
async function quietly<T>(work: () => Promise<T>): Promise<T> {
  const { error, warn } = console
  console.error = console.warn = () => undefined
  try {
    return await work()
  } finally {
    Object.assign(console, { error, warn })
  }
}

/** Runs one netlist text; reports every voltage and branch current by the solver's own names. */
async function run(deck: Deck): Promise<ReadonlyMap<string, number>> {
  started ??= start()
  const simulation = await started
  simulation.setNetList(deck.text)
  const result = await quietly(() => simulation.runSim())
  const errors = simulation.getError().filter((line) => line.trim() !== '')
  // after a failure the library hands out the previous result again: the title tells whose it is
  const isStale = !result.header.startsWith(`Title: ${deck.title}\n`)
  if (isStale || errors.some((line) => /aborted|interrupted|error/i.test(line))) {
    throw new Error(`no operating point: ${errors.join('; ') || 'no message'}\n${deck.text}`)
  }
  if (result.dataType !== 'real') throw new Error('an operating point must be real')
  return new Map(result.data.map((column) => [column.name, column.values[0] ?? NaN]))
}

/** Solves one circuit in one situation. Rejects, with the netlist in its message, where the solver finds no solution. */
export async function solveIndependently(netlist: Netlist, situation: Situation): Promise<Solution> {
  let problem: unknown
  for (const settings of SETTINGS) {
    try {
      const deck = toNetlist(netlist, situation, settings)
      const values = await run(deck)
      refuseOpenMeters(values, deck)
      const solution = readSolution(deck, values)
      refuseUnbalanced(netlist, solution, deck)
      return solution
    } catch (error) {
      problem = error
    }
  }
  throw problem
}

function readSolution(deck: Deck, values: ReadonlyMap<string, number>): Solution {
  const read = (name: string): number => {
    const value = values.get(name)
    if (value === undefined || !Number.isFinite(value)) throw new Error(`no value of ${name}\n${deck.text}`)
    return value
  }
  const nodeVoltages: Record<string, number> = {}
  for (const [node, name] of Object.entries(deck.nodeNames)) {
    if (name === '0') nodeVoltages[node] = 0
    else if (values.has(`v(${name})`)) nodeVoltages[node] = read(`v(${name})`)
  }
  const currents: Record<string, number[]> = {}
  for (const [id, readings] of Object.entries(deck.currents)) {
    currents[id] = readings.map((one) => (one === undefined ? 0 : one.sign * read(`i(${one.source})`)))
  }
  return { nodeVoltages, currents }
}

/** Volts across a meter beyond which a solution is refused: less than the tolerance of the comparison. */
const METER_OPEN = 1e-4

/**
 * A meter is a source of 0 V. Where a node hangs on a milliohm, or on nothing but saturated currents, the library's elimination
 * may round its voltage away and report success all the same: then some meter bears volts.
 */
function refuseOpenMeters(values: ReadonlyMap<string, number>, deck: Deck): void {
  for (const ends of deck.meters) {
    const [outer, behind] = ends.map((name) => (name === '0' ? 0 : values.get(`v(${name})`)))
    if (outer === undefined || behind === undefined) throw new Error(`no voltage at ${ends.join(', ')}\n${deck.text}`)
    if (Math.abs(outer - behind) > METER_OPEN)
      throw new Error(
        `no operating point: ${outer - behind} V are left over across a meter at ${ends[0]}\n${deck.text}`,
      )
  }
}

/** After a stepped search the library may leave a helping conductance at a node and report success all the same. */
function refuseUnbalanced(netlist: Netlist, { currents }: Solution, deck: Deck): void {
  const sums = new Map<string, { sum: number; size: number }>()
  for (const { id, nodes } of netlist.elements) {
    nodes.forEach((node, k) => {
      const at = sums.get(node) ?? { sum: 0, size: 0 }
      const current = currents[id]?.[k] ?? 0
      sums.set(node, { sum: at.sum + current, size: Math.max(at.size, Math.abs(current)) })
    })
  }
  for (const [node, { sum, size }] of sums) {
    if (Math.abs(sum) > 1e-10 + 1e-6 * size) {
      throw new Error(`no operating point: ${sum} A are left over at ${node}\n${deck.text}`)
    }
  }
}
