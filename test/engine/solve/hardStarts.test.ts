/** Circuits on which plain Newton iteration is known to fail, from no guess at all; judged by the balances alone. */
import { describe, expect, test } from 'vitest'
import type { Element, Netlist } from '../../../engine/devices/elements.ts'
import { COLD, compile, FROZEN, newWorkspace, OUTCOMES, SETTLED, solvePoint } from '../../../engine/solve/index.ts'
import { OP_AMP, POWER_TRANSISTOR, REFERENCE_DIODE, SHUNT_REFERENCE } from '../devices/samples.ts'
import {
  expectSound,
  FEEDBACK,
  FEEDBACK_OPTIONS,
  FOLLOWER,
  FOLLOWER_OPTIONS,
  load,
  MIRRORED_FOLLOWER,
  netlist,
  resistor,
  supply,
} from './circuits.ts'

const chain = (count: number, model = REFERENCE_DIODE, isForward = true): Netlist =>
  netlist(
    supply(24),
    resistor('R1', 'in', 'n0', 100),
    ...Array.from({ length: count }, (_, k): Element => {
      const ends = [`n${k}`, k === count - 1 ? '0' : `n${k + 1}`] as const
      return {
        id: `D${k}`,
        kind: 'diode',
        nodes: isForward ? [ends[0], ends[1]] : [ends[1], ends[0]],
        part: `D${k}`,
        model,
      }
    }),
  )

const DARLINGTON = netlist(
  supply(24),
  resistor('Rs', 'in', 'b', 3300),
  { id: 'D1', kind: 'diode', nodes: ['0', 'b'], part: 'D1', model: REFERENCE_DIODE },
  { id: 'Q1', kind: 'npn', nodes: ['in', 'b', 'm'], part: 'Q', model: POWER_TRANSISTOR },
  { id: 'Q2', kind: 'npn', nodes: ['in', 'm', 'out'], part: 'Q', model: POWER_TRANSISTOR },
  resistor('RBE', 'm', 'out', 1000),
  load('out', 1),
)

const PAIR = netlist(
  supply(20),
  resistor('Rz', 'in', 'z', 2200),
  { id: 'D1', kind: 'diode', nodes: ['0', 'z'], part: 'D1', model: { ...REFERENCE_DIODE, BV: 5.6, tc: 1e-3 } },
  resistor('Rt', 'tail', '0', 2200),
  { id: 'Q2', kind: 'npn', nodes: ['c2', 'z', 'tail'], part: 'Q23', model: POWER_TRANSISTOR },
  { id: 'Q3', kind: 'npn', nodes: ['c3', 'fb', 'tail'], part: 'Q23', model: POWER_TRANSISTOR },
  resistor('Rc', 'in', 'c3', 2200),
  resistor('Rd', 'in', 'c2', 1),
  { id: 'Q1', kind: 'npn', nodes: ['in', 'c3', 'out'], part: 'Q1', model: POWER_TRANSISTOR },
  resistor('R1', 'out', 'fb', 6800),
  resistor('R2', 'fb', '0', 5600),
  load('out', 0.05),
)

/** Current limiter: the pass transistor's base drive is taken away by the drop over a sense resistor. */
const LIMITER = netlist(
  supply(15),
  resistor('Rb', 'in', 'b', 1000),
  { id: 'D1', kind: 'diode', nodes: ['0', 'b'], part: 'D1', model: { ...REFERENCE_DIODE, BV: 6.8, tc: 2e-3 } },
  { id: 'Q1', kind: 'npn', nodes: ['in', 'b', 's'], part: 'Q1', model: POWER_TRANSISTOR },
  { id: 'Q2', kind: 'npn', nodes: ['b', 's', 'out'], part: 'Q2', model: POWER_TRANSISTOR },
  resistor('Rsc', 's', 'out', 4.7),
  load('out', 0.05),
)

/** A reference that senses the output and steals the pass transistor's drive. */
const SHUNT_ERROR_AMPLIFIER = netlist(
  supply(15),
  resistor('R3', 'in', 'b', 2200),
  { id: 'U1', kind: 'reference', nodes: ['b', '0', 'fb'], part: 'U1', model: SHUNT_REFERENCE },
  { id: 'Q1', kind: 'npn', nodes: ['in', 'b', 'out'], part: 'Q1', model: POWER_TRANSISTOR },
  resistor('R1', 'out', 'fb', 2400),
  resistor('R2', 'fb', '0', 2400),
  load('out', 0.05),
)

const PNP_PASS = netlist(
  supply(9),
  resistor('R3', 'in', 'ref', 4700),
  {
    id: 'U2',
    kind: 'reference',
    nodes: ['ref', '0', 'ref'],
    part: 'U2',
    model: { ...SHUNT_REFERENCE, KD: 0, IREF: 0, VSAT: 0 },
  },
  { id: 'U1', kind: 'amplifier', nodes: ['fb', 'ref', 'drive', 'in', '0'], part: 'U1', model: OP_AMP },
  // the op-amp stops 1.4 V below the input: the divider leaves 0.44 V of it, too little to hold the pnp on
  resistor('R4', 'drive', 'b', 1500),
  resistor('R5', 'in', 'b', 680),
  { id: 'Q1', kind: 'pnp', nodes: ['out', 'b', 'in'], part: 'Q1', model: POWER_TRANSISTOR },
  resistor('R1', 'out', 'fb', 10000),
  resistor('R2', 'fb', '0', 10000),
  load('out', 0.05),
)

const CIRCUITS: readonly [string, Netlist, string, number][] = [
  // n·(N·VT·ln(I/IS) + RS·I) against (24 V - V)/100 Ω, by hand: 112 mA and 44 mA
  ['ten diodes in series', chain(10), 'n0', 12.8],
  ['twenty diodes in series', chain(20), 'n0', 19.6],
  ['two breakdown diodes in series', chain(2, { ...REFERENCE_DIODE, BV: 6.2, tc: 2e-3 }, false), 'n0', 12.8],
  ['a follower', FOLLOWER, 'out', 11],
  ['a Darlington follower', DARLINGTON, 'out', 10],
  ['a differential pair', PAIR, 'out', 12.4],
  ['a limiter out of action', LIMITER, 'out', 5.8],
  ['a shunt reference as error amplifier', SHUNT_ERROR_AMPLIFIER, 'out', 5],
  ['an op-amp and an npn', FEEDBACK, 'out', 6],
  ['an op-amp and a pnp', PNP_PASS, 'out', 5],
]

describe.each(CIRCUITS)('%s', (_name, circuit, node, volts) => {
  const vin = (circuit.elements.find((e) => e.id === 'input') as { value: number }).value
  const il = (circuit.elements.find((e) => e.id === 'load') as { value: number } | undefined)?.value ?? 0

  test.each([-40, 25, 125])('is solved from zero volts everywhere at %d degC', (ambient) => {
    const compiled = compile(circuit, { thermalResistance: {}, guess: {} })
    const ws = newWorkspace(compiled)
    expect(OUTCOMES[solvePoint(compiled, ws, vin, il, ambient, COLD)]).toBe('converged')
    expectSound(compiled, ws)
    // the wanted branch, to the 15 % by which temperature and VBE move it
    expect(Math.abs(ws.voltages[compiled.node(node)]! / volts - 1)).toBeLessThan(0.15)
  })

  test('is solved from the other end of the supply, with every node at the input', () => {
    const guess = Object.fromEntries(circuit.elements.flatMap((e) => e.nodes).map((name) => [name, vin]))
    const compiled = compile(circuit, { thermalResistance: {}, guess })
    const ws = newWorkspace(compiled)
    expect(OUTCOMES[solvePoint(compiled, ws, vin, il, 25, COLD)]).toBe('converged')
    expectSound(compiled, ws)
    expect(Math.abs(ws.voltages[compiled.node(node)]! / volts - 1)).toBeLessThan(0.15)
  })

  test('is solved at every input from nothing to half again, up and down', () => {
    const compiled = compile(circuit, { thermalResistance: {}, guess: { in: vin } })
    const ws = newWorkspace(compiled)
    for (let k = -60; k <= 60; k += 1) {
      const input = (1.5 * vin * (60 - Math.abs(k))) / 60
      expect(OUTCOMES[solvePoint(compiled, ws, input, il, 25, COLD)], `at ${input} V`).toBe('converged')
      expectSound(compiled, ws)
    }
  })

  test('is solved with its load shorted to nothing and thrown on again', () => {
    if (il === 0) return
    const compiled = compile(circuit, { thermalResistance: {}, guess: {} })
    const ws = newWorkspace(compiled)
    for (const current of [0, il, 10 * il, 1e-6, 50 * il, il]) {
      expect(OUTCOMES[solvePoint(compiled, ws, vin, current, 25, COLD)], `at ${current} A`).toBe('converged')
      expectSound(compiled, ws)
    }
  })
})

describe('mirrored circuits', () => {
  test('a pnp follower on a negative supply is the npn one in a mirror', () => {
    const up = compile(FOLLOWER, FOLLOWER_OPTIONS)
    const down = compile(MIRRORED_FOLLOWER, {
      thermalResistance: FOLLOWER_OPTIONS.thermalResistance,
      guess: { in: -24, b: -11.7, out: -11 },
    })
    const above = newWorkspace(up)
    const below = newWorkspace(down)
    expect(solvePoint(up, above, 24, 0.04, 25, SETTLED)).toBe(0)
    expect(solvePoint(down, below, -24, 0.04, 25, SETTLED)).toBe(0)
    expect(below.voltages[down.node('out')]).toBeCloseTo(-above.voltages[up.node('out')]!, 9)
    expectSound(down, below, { ambient: 25, thermalResistance: FOLLOWER_OPTIONS.thermalResistance })
  })
})

describe('the op-amp loop', () => {
  test('comes back from a latched start with its input a volt off, either way', () => {
    for (const off of [-1, 1]) {
      const guess = { ...FEEDBACK_OPTIONS.guess, fb: 2.5 + off }
      const circuit = compile(FEEDBACK, { ...FEEDBACK_OPTIONS, guess })
      const ws = newWorkspace(circuit)
      expect(solvePoint(circuit, ws, 12, 0.1, 25, FROZEN)).toBe(0)
      expect(ws.voltages[circuit.node('out')]).toBeCloseTo(6, 1)
    }
  })

  test('saturates where the input is too low, and regulates again when it is back', () => {
    const circuit = compile(FEEDBACK, FEEDBACK_OPTIONS)
    const ws = newWorkspace(circuit)
    expect(solvePoint(circuit, ws, 7, 0.1, 25, SETTLED)).toBe(0)
    const low = ws.voltages[circuit.node('out')]!
    expect(low).toBeLessThan(5)
    expect(ws.voltages[circuit.node('fb')]).toBeLessThan(2.2)
    expect(solvePoint(circuit, ws, 12, 0.1, 25, SETTLED)).toBe(0)
    expect(ws.voltages[circuit.node('out')]).toBeCloseTo(6, 1)
  })
})
