/**
 * The independent solver is only a witness if its netlists say what the elements say. Each circuit's solution is put back
 * into the published equations: the current of every element must be the one that its voltages ask for.
 */
import { describe, expect, test } from 'vitest'
import { CIRCUITS, FOLLOWER, REFERENCE_DIODE, REGULATOR, ZENER } from './independent/circuits.ts'
import { disagreements, PUBLISHED, SAME_MODEL } from './independent/agreement.ts'
import { toNetlist } from './independent/netlist.ts'
import { solveIndependently } from './independent/solver.ts'
import { diode, textbookCurrents } from './independent/textbook.ts'
import type { Overrides } from '../../engine/compare/comparison.ts'
import type { Netlist } from '../../engine/devices/elements.ts'

describe.each(CIRCUITS)('$name, solved independently', ({ netlist, situation }) => {
  test('every element carries the current that the published equations give at its voltages', async () => {
    const solution = await solveIndependently(netlist, situation)
    let checked = 0
    for (const element of netlist.elements) {
      const amperes = solution.currents[element.id]!
      const volts = element.nodes.map((node) => solution.nodeVoltages[node]!)
      const celsius = situation.junction?.[element.part] ?? situation.condition.ambient
      const expected = textbookCurrents({ element, volts, amperes, celsius })
      // an amplifier multiplies the solver's own 0.1 nV of tolerance by its gain
      const relative = element.kind === 'amplifier' ? 1e-3 : 2e-6
      expected?.forEach((current, terminal) => {
        expect(Math.abs(amperes[terminal]! - current), `${element.id}, terminal ${terminal}`).toBeLessThan(
          relative * Math.abs(current) + 3e-12,
        )
        checked++
      })
    }
    expect(checked).toBeGreaterThanOrEqual(4)
  })

  test('currents balance at every node', async () => {
    const solution = await solveIndependently(netlist, situation)
    const sums = new Map<string, { sum: number; largest: number }>()
    for (const element of netlist.elements) {
      element.nodes.forEach((node, k) => {
        const { sum, largest } = sums.get(node) ?? { sum: 0, largest: 0 }
        const current = solution.currents[element.id]![k]!
        sums.set(node, { sum: sum + current, largest: Math.max(largest, Math.abs(current)) })
      })
    }
    // what elimination rounds away goes with the largest current at the node: a hundredth of the library's own 1e-7
    for (const [node, { sum, largest }] of sums) expect(Math.abs(sum), node).toBeLessThan(1e-12 + 1e-9 * largest)
  })

  test('the supply and the load obey the condition', async () => {
    const { nodeVoltages, currents } = await solveIndependently(netlist, situation)
    expect(nodeVoltages['in']).toBe(situation.condition.input)
    expect(currents['load']![0]).toBeCloseTo(situation.condition.load * Math.tanh(nodeVoltages['out']! / 0.1), 12)
  })

  test('a hint where to begin does not move the answer', async () => {
    const first = await solveIndependently(netlist, situation)
    const again = await solveIndependently(netlist, { ...situation, near: first.nodeVoltages })
    expect(disagreements(first, again, SAME_MODEL)).toEqual([])
  })
})

/** A diode across a voltage source, so that every voltage can be asked for. */
const diodeAt = (volts: number, celsius: number) => {
  const netlist: Netlist = {
    ground: 'gnd',
    elements: [
      { id: 'input', kind: 'voltage-source', nodes: ['k', 'gnd'], value: volts, part: 'input' },
      { id: 'D1', kind: 'diode', nodes: ['gnd', 'k'], model: { ...REFERENCE_DIODE, RS: 0 }, part: 'D1' },
    ],
  }
  return solveIndependently(netlist, { condition: { input: volts, load: 0, ambient: celsius } })
}

/** What the reverse current saturates at, in amperes: two volts are far from breakdown and from zero. */
const leakage = (celsius: number): number => -diode({ ...REFERENCE_DIODE, RS: 0 }, -2, celsius)

/** What the library's own breakdown branch leaves out, where that branch is used: up to 0.1 nA of saturation current. */
const leftOut = (celsius: number): number => (leakage(celsius) > 1e-10 ? 0 : 1.02 * leakage(celsius))

describe('the breakdown branch', () => {
  test.each([-40, 25, 125])('is our equation at %d °C, from 10 nA to 50 mA', async (celsius) => {
    const slope = (0.97 * 1.38064852e-23 * (celsius + 273.15)) / 1.6021766208e-19
    for (const current of [1e-8, 1e-6, 1e-4, 5e-3, 50e-3]) {
      const volts = 6.2 + 3e-3 * (celsius - 25) + slope * Math.log(current / 5e-3)
      const { currents } = await diodeAt(volts, celsius)
      const ours = diode({ ...REFERENCE_DIODE, RS: 0 }, -volts, celsius)
      const allowed = leftOut(celsius) + 1e-6 * Math.abs(ours) + 1.1e-15 * volts
      expect(Math.abs(currents['D1']![0]! - ours), `${current} A`).toBeLessThan(allowed)
    }
  })

  test('differs from our equation nowhere in reverse by more than 0.1 nA or 6 % of the saturation current', async () => {
    // the library blends -IS·(1 + (3·N·VT/(e·v))³) where our equation has -IS·(1 - exp(v/(N·VT)))
    for (const celsius of [25, 125]) {
      for (let volts = 0.05; volts < 6.7; volts += 0.05) {
        const { currents } = await diodeAt(volts, celsius)
        const ours = diode({ ...REFERENCE_DIODE, RS: 0 }, -volts, celsius)
        const blend = Math.max(leftOut(celsius), 0.06 * leakage(celsius))
        const allowed = blend + 1.1e-15 * volts + 1e-6 * Math.abs(ours)
        expect(Math.abs(currents['D1']![0]! - ours), `${volts} V, ${celsius} °C`).toBeLessThan(allowed)
      }
    }
  })
})

describe('the comparison of two solutions', () => {
  test('notices a current that is 1 % off and a node that is 2 mV off', async () => {
    const truth = await solveIndependently(ZENER.netlist, ZENER.situation)
    const voltages = { ...truth.nodeVoltages, out: truth.nodeVoltages['out']! + 7e-3 }
    const currents = { ...truth.currents, D1: truth.currents['D1']!.map((i) => i * 1.01) }
    expect(disagreements(truth, truth)).toEqual([])
    expect(disagreements({ ...truth, nodeVoltages: voltages }, truth, PUBLISHED)).toHaveLength(1)
    expect(disagreements({ ...truth, currents }, truth, PUBLISHED)).toHaveLength(2)
  })

  test('notices what is missing on either side', async () => {
    const truth = await solveIndependently(ZENER.netlist, ZENER.situation)
    const { D1: _, ...fewer } = truth.currents
    expect(disagreements(truth, { ...truth, currents: fewer })).toHaveLength(2)
    expect(disagreements({ ...truth, currents: fewer }, truth)).toEqual(['I(D1) is missing'])
  })

  test('a device model, a temperature or an override that differs shows', async () => {
    const truth = await solveIndependently(FOLLOWER.netlist, FOLLOWER.situation)
    const differ = async (change: Partial<typeof FOLLOWER.situation>) =>
      disagreements(truth, await solveIndependently(FOLLOWER.netlist, { ...FOLLOWER.situation, ...change })).length
    expect(await differ({ junction: { D1: 37, Q1: 60 } })).toBeGreaterThan(0)
    expect(await differ({ overrides: { Q1: { BF: 120 } } })).toBeGreaterThan(0)
    expect(await differ({ overrides: { Rs: { ohms: 690 } } })).toBeGreaterThan(0)
    expect(await differ({ overrides: { D1: { BV: 6.21 } } })).toBeGreaterThan(0)
  })
})

const withOverrides = (overrides: Overrides) => toNetlist(ZENER.netlist, { ...ZENER.situation, overrides })

describe('what the harness refuses', () => {
  test('an override of an element or a parameter that does not exist', () => {
    expect(() => withOverrides({ R9: { ohms: 1 } })).toThrow(/R9/)
    expect(() => withOverrides({ Rs: { farads: 1 } })).toThrow(/Rs\.farads/)
  })

  test('a circuit without a solution, instead of repeating the previous answer', async () => {
    const contradiction: Netlist = {
      ground: 'gnd',
      elements: [
        { id: 'input', kind: 'voltage-source', nodes: ['a', 'gnd'], value: 5, part: 'input' },
        { id: 'V2', kind: 'voltage-source', nodes: ['a', 'gnd'], value: 6, part: 'V2' },
      ],
    }
    await solveIndependently(ZENER.netlist, ZENER.situation)
    await expect(solveIndependently(contradiction, { condition: { input: 5, load: 0, ambient: 25 } })).rejects.toThrow(
      /no operating point/,
    )
    await expect(solveIndependently(REGULATOR.netlist, REGULATOR.situation)).resolves.toBeDefined()
  })
})
