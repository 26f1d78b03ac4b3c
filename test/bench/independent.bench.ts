/**
 * Our solver against the independent one: one sweep of the same 10,000 points through the same diode and follower, same run.
 *
 * The library takes text and gives a result in one call, so its time includes reading eight lines and handing out one column.
 * A run of a single operating point costs the same reading and starting: it is timed too and taken off in the second ratio.
 * The terminal meters of the test netlist are taken out, resistances are the library's own resistors again, and the sources that
 * mend its blocked junctions are left out: all that would only make the other side's matrix larger. Tolerances are
 * those of the agreement tests; ours has none to set. Conductance across junctions is lowered on the other side alike.
 */
import { describe } from 'vitest'
import { Simulation } from 'eecircuit-engine'
import { FOLLOWER } from '../reference/independent/circuits.ts'
import { toNetlist } from '../reference/independent/netlist.ts'
import { subject } from './bundled.ts'
import { timed } from './timed.ts'

const { compile, FROZEN, newWorkspace, OUTCOMES, solvePoint } = subject

const POINTS = 10_000
const [FROM, STEP] = [8, 6e-4]
/** Relative, of volts: the allowance between two solvers of the same model. */
const AGREEMENT = 1e-6

const { netlist, situation } = FOLLOWER
const { condition, junction = {} } = situation

const circuit = compile(netlist, { thermalResistance: {}, guess: {} })
const ws = newWorkspace(circuit)
ws.junction.fill(condition.ambient)
for (const [part, celsius] of Object.entries(junction)) ws.junction[circuit.part(part)] = celsius
const out = circuit.node('out')
const ours = new Float64Array(POINTS)

function sweepOurs(): void {
  for (let k = 0; k < POINTS; k += 1) {
    const outcome = solvePoint(circuit, ws, FROM + k * STEP, condition.load, condition.ambient, FROZEN)
    if (outcome !== 0) throw new Error(`point ${k}: ${OUTCOMES[outcome]}`)
    ours[k] = ws.voltages[out]!
  }
}

const deck = toNetlist(netlist, situation)
const outer = new Map(
  deck.text
    .split('\n')
    .flatMap((l) => (l.startsWith('vm') ? [l.split(' ').slice(1, 3).toReversed() as [string, string]] : [])),
)
const bare = deck.text
  .split('\n')
  .filter((line) => !/^(vm|bc|bb|\.op$|\.end$)/u.test(line))
  .map((line) => line.replace(/^h(\S+) (\S+) (\S+) vm\S+ (\S+)$/u, 'r$1 $2 $3 $4'))
  .join('\n')
  .replace(/\bt\d+_\d+\b/gu, (inner) => outer.get(inner)!)
const column = `v(${deck.nodeNames['out']!})`
// the supply is the first element; half a step more, so that rounding cannot drop the last point
const sweepText = `${bare}\n.save ${column}\n.dc v0 ${FROM} ${FROM + (POINTS - 0.5) * STEP} ${STEP}\n.end`
const pointText = `${bare}\n.save ${column}\n.op\n.end`

const simulation = new Simulation()
await simulation.start()

async function run(text: string, points: number): Promise<readonly number[]> {
  simulation.setNetList(text)
  const result = await simulation.runSim()
  const values = result.data.find(({ name }) => name === column)?.values
  if (result.dataType !== 'real' || values?.length !== points)
    throw new Error(`no result of ${points} points: ${simulation.getError().join('; ')}`)
  return values as number[]
}

sweepOurs()
const theirs = await run(sweepText, POINTS)
const apart = theirs.reduce((most, volts, k) => Math.max(most, Math.abs(volts - ours[k]!) / Math.abs(volts)), 0)
if (!(apart <= AGREEMENT)) throw new Error(`the solvers are ${apart} apart`)
console.log(`${POINTS} points agree to ${apart.toExponential(1)}\n${bare}`)

describe('10,000 points of a diode and a follower', () => {
  const medians = { ours: Number.NaN, point: Number.NaN }
  const keep = (name: keyof typeof medians) => (ms: number) => {
    medians[name] = ms
    return `${((1000 * ms) / POINTS).toFixed(3)} µs a point of the sweep`
  }
  timed('ours', sweepOurs, { iterations: 30, says: keep('ours') })
  timed('independent, one point: reading and starting', () => run(pointText, 1), {
    iterations: 30,
    says: (ms) => {
      medians.point = ms
      return 'taken off below'
    },
  })
  timed('independent', () => run(sweepText, POINTS), {
    time: 3000,
    says: (ms) =>
      `${(ms / medians.ours).toFixed(1)} times ours, ${((ms - medians.point) / medians.ours).toFixed(1)} times without reading and starting`,
  })
})
