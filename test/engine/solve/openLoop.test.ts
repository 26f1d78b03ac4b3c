/**
 * Feedback at the edge of its headroom, where a strong amplifier between two flat saturations sent every other way of solving
 * round in circles. Judged by the balances and by what any such loop must do; no source.
 */
import { describe, expect, test } from 'vitest'
import {
  AMPLIFIER_DERIVED,
  closeAmplifier,
  evaluateAmplifier,
  openAmplifier,
  shiftAmplifier,
} from '../../../engine/devices/amplifier.ts'
import type { AmplifierModel, Element, Netlist } from '../../../engine/devices/elements.ts'
import { COLD, compile, newWorkspace, OUTCOMES, SETTLED, solvePoint } from '../../../engine/solve/index.ts'
import { deviceAt, OP_AMP, POWER_TRANSISTOR, TWO_TERMINAL_REFERENCE } from '../devices/samples.ts'
import { expectSound, FEEDBACK_OPTIONS, imbalance, load, netlist, resistor, supply } from './circuits.ts'

/** The less its output resistance, the narrower the range in which its output is neither flat at one current nor at the other. */
const STRONG: AmplifierModel = { ...OP_AMP, RO: 30, ISNK: 0.01, DH: 1.25 }

const npn = (id: string, c: string, b: string, e: string, part = id): Element => ({
  id,
  kind: 'npn',
  nodes: [c, b, e],
  part,
  model: POWER_TRANSISTOR,
})

function feedback(isDarlington: boolean, isLimited: boolean, ...more: Element[]): Netlist {
  const emitter = isLimited ? 'sense' : 'out'
  return netlist(
    supply(12),
    resistor('R3', 'in', 'ref', 3300),
    { id: 'U2', kind: 'reference', nodes: ['ref', '0', 'ref'], part: 'U2', model: TWO_TERMINAL_REFERENCE },
    { id: 'U1', kind: 'amplifier', nodes: ['ref', 'fb', 'base', 'in', '0'], part: 'U1', model: STRONG },
    ...(isDarlington
      ? [
          npn('Q1.output', 'in', 'inner', emitter, 'Q1'),
          npn('Q1.driver', 'in', 'base', 'inner', 'Q1'),
          resistor('RBE', 'inner', emitter, 1000),
        ]
      : [npn('Q1', 'in', 'base', emitter)]),
    ...(isLimited ? [npn('Q2', 'base', 'sense', 'out'), resistor('R4', 'sense', 'out', 2.2)] : []),
    resistor('R1', 'out', 'fb', 14000),
    resistor('R2', 'fb', '0', 10000),
    load('out', 0.1),
    ...more,
  )
}

/** Amperes that the solver promises no node is out of balance by. So strong an amplifier makes 2e-10 A of its input's last digits. */
const PROMISED = 1e-9

/** Of the regulating loop; the node between the transistors of a Darlington is left out, as a topology leaves it. */
const GUESS = { in: 12, ref: 2.5, fb: 2.5, base: 6.8, out: 6, sense: 6.3 }
const FREE = { thermalResistance: {}, guess: GUESS }

describe.each([
  ['one transistor', false, false],
  ['one transistor and a limiter', false, true],
  ['a Darlington', true, false],
  ['a Darlington and a limiter', true, true],
])('%s at the edge of its headroom', (_name, isDarlington, isLimited) => {
  const circuit = compile(feedback(isDarlington, isLimited), FREE)

  test.each([-40, 25, 85])('is solved from the guess at every input and load, at %d degC', (ambient) => {
    for (const current of [0, 0.1, 0.3]) {
      let before = -Infinity
      for (let k = 0; k <= 50; k += 1) {
        const input = 7 + 0.04 * k
        const ws = newWorkspace(circuit)
        const outcome = solvePoint(circuit, ws, input, current, ambient, COLD)
        expect(OUTCOMES[outcome], `at ${input} V, ${current} A`).toBe('converged')
        expect(imbalance(circuit, ws)).toBeLessThan(PROMISED)
        // more to draw on never lowers the output but by what the amplifier rejects of it, and it never rises past the set value
        const out = ws.voltages[circuit.node('out')]!
        expect(out).toBeGreaterThan(before - 1e-5)
        expect(out).toBeLessThan(6.02)
        before = out
      }
    }
  })

  test('is solved with its output held anywhere below', () => {
    const elements = circuit.netlist.elements.map((e): Element =>
      e.id === 'load' ? { id: 'load', kind: 'voltage-source', nodes: ['out', '0'], part: 'load', value: 0 } : e,
    )
    for (const volts of [0, 0.2, 2, 5.4, 5.9]) {
      const held = compile(
        {
          ...circuit.netlist,
          elements: elements.map((e) => (e.kind === 'voltage-source' && e.id === 'load' ? { ...e, value: volts } : e)),
        },
        {
          thermalResistance: {},
          guess: { ...GUESS, out: volts, base: volts + 0.8, sense: volts + 0.3, fb: volts / 2.4 },
        },
      )
      for (const input of [8, 10, 14]) {
        const ws = newWorkspace(held)
        const outcome = solvePoint(held, ws, input, 0, 25, COLD)
        expect(OUTCOMES[outcome], `at ${volts} V held, ${input} V`).toBe('converged')
        expect(imbalance(held, ws)).toBeLessThan(PROMISED)
        // what is short of its set value is pushed up
        expect(ws.currents[held.terminals[held.element('load')]!]).toBeGreaterThan(0)
      }
    }
  })
})

describe('a loop whose transistor leaks more than the amplifier can sink', () => {
  const leakage: Element = {
    id: 'Q1.leakage',
    kind: 'current-source',
    nodes: ['in', 'base'],
    part: 'Q1',
    value: 1e-4,
    doublesEvery: 10,
  }
  const thermalResistance = { ...FEEDBACK_OPTIONS.thermalResistance, Q1: 60 }
  const circuit = compile(feedback(false, false, leakage), { thermalResistance, guess: GUESS })

  test('settles where the output is as much too high as keeps the transistor from heating further', () => {
    const hottest = 25 + 10 * Math.log2(STRONG.ISNK / leakage.value)
    for (const ambient of [60, 70, 80, 85]) {
      const ws = newWorkspace(circuit)
      const outcome = solvePoint(circuit, ws, 14, 0.1, ambient, SETTLED)
      expect(OUTCOMES[outcome], `at ${ambient} degC`).toBe('converged')
      expectSound(circuit, ws, { ambient, thermalResistance })
      const junction = ws.junction[circuit.part('Q1')]!
      // the transistor's base current comes out of the leakage too, before the amplifier must sink the rest
      expect(Math.abs(junction - hottest)).toBeLessThan(2)
      expect(ws.voltages[circuit.node('out')]).toBeGreaterThan(6.1)
    }
  })
})

describe('an amplifier with its loop open', () => {
  const { derived } = deviceAt('amplifier', STRONG, 25)
  const before = derived.slice()
  const closed = new Float64Array(AMPLIFIER_DERIVED)
  const currents = (...volts: number[]): Float64Array => {
    const out = new Float64Array(30)
    evaluateAmplifier(derived, 0, Float64Array.from(volts), 0, out, 0)
    return out
  }

  test('is a source behind its output resistance that no input moves', () => {
    openAmplifier(derived, 0, closed)
    shiftAmplifier(derived, 0, closed, 1.5)
    // the middle of the swing between 0.02 V and 10.75 V, by hand 5.385 V, and 1.5 V more
    for (const [p, m] of [
      [2.5, 2.5],
      [2.6, 2.4],
      [0, 5],
    ] as const) {
      const out = currents(p, m, 6.8, 12, 0)
      expect(-out[2]! * STRONG.RO).toBeCloseTo(6.885 - 6.8, 6)
      expect([...out.subarray(15, 17)].map(Math.abs)).toEqual([0, 0])
      expect(out.subarray(0, 5).reduce((sum, i) => sum + i, 0)).toBeCloseTo(0, 12)
    }
  })

  test('is what it was once it is closed', () => {
    closeAmplifier(derived, 0, closed)
    expect(derived).toEqual(before)
  })
})
