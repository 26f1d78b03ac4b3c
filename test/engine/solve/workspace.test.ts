/** Determinism, copies, parameters, and outcomes that are data. */
import { describe, expect, test } from 'vitest'
import { COLD, compile, copyState, newWorkspace, OUTCOMES, SETTLED, solvePoint } from '../../../engine/solve/index.ts'
import {
  expectSound,
  FEEDBACK,
  FEEDBACK_OPTIONS,
  FOLLOWER,
  FOLLOWER_OPTIONS,
  netlist,
  resistor,
  supply,
} from './circuits.ts'

describe('determinism', () => {
  test('a point solved from a copied state is the same to the last bit, whatever its workspace solved before', () => {
    for (const [circuit, options, vin, il] of [
      [compile(FOLLOWER, FOLLOWER_OPTIONS), FOLLOWER_OPTIONS, 24, 0.04],
      [compile(FEEDBACK, FEEDBACK_OPTIONS), FEEDBACK_OPTIONS, 12, 0.1],
    ] as const) {
      const nominal = newWorkspace(circuit)
      expect(solvePoint(circuit, nominal, vin, il, 25, SETTLED)).toBe(0)
      const corner = (ws: ReturnType<typeof newWorkspace>): unknown[] => {
        copyState(nominal, ws)
        expect(solvePoint(circuit, ws, 1.2 * vin, 1.5 * il, 60, SETTLED)).toBe(0)
        return [...ws.voltages, ...ws.currents, ...ws.power, ...ws.junction, ws.residual, ws.iterations]
      }
      const fresh = corner(newWorkspace(circuit))
      const used = newWorkspace(circuit)
      for (const input of [0.1 * vin, 0.9 * vin, 3 * vin]) solvePoint(circuit, used, input, 5 * il, -30, COLD)
      expect(corner(used)).toEqual(fresh)
      expect(Object.keys(options)).toContain('guess')
    }
  })

  test('two compilations of one netlist are one circuit', () => {
    const results = [0, 1].map(() => {
      const circuit = compile(FEEDBACK, FEEDBACK_OPTIONS)
      const ws = newWorkspace(circuit)
      solvePoint(circuit, ws, 11, 0.07, 40, SETTLED)
      return [...ws.voltages]
    })
    expect(results[0]).toEqual(results[1])
  })
})

describe('parameters', () => {
  test('changed in one workspace change that one alone, and as the netlist would', () => {
    const circuit = compile(FOLLOWER, FOLLOWER_OPTIONS)
    const nominal = newWorkspace(circuit)
    const varied = newWorkspace(circuit)
    const changes: [string, string, number][] = [
      ['Rs', 'ohms', 1500],
      ['D1', 'BV', 12.3],
      ['D1', 'RS', 9],
      ['Q1', 'BF', 60],
      ['Q1', 'RE', 0.5],
    ]
    for (const [id, parameter, value] of changes) varied.parameters[circuit.slot(id, parameter)] = value
    varied.stale = true
    expect(solvePoint(circuit, varied, 24, 0.04, 25, SETTLED)).toBe(0)
    expect(solvePoint(circuit, nominal, 24, 0.04, 25, SETTLED)).toBe(0)
    const rebuilt = {
      ...FOLLOWER,
      elements: FOLLOWER.elements.map((element) => {
        const own = changes
          .filter(([id]) => id === element.id)
          .map(([, parameter, value]) => [parameter, value] as const)
        return 'model' in element
          ? { ...element, model: { ...element.model, ...Object.fromEntries(own) } }
          : { ...element, ...Object.fromEntries(own) }
      }),
    } as typeof FOLLOWER
    const other = compile(rebuilt, FOLLOWER_OPTIONS)
    const direct = newWorkspace(other)
    expect(solvePoint(other, direct, 24, 0.04, 25, SETTLED)).toBe(0)
    for (const node of circuit.nodes) {
      expect(varied.voltages[circuit.node(node)]).toBeCloseTo(direct.voltages[other.node(node)]!, 6)
    }
    expect(Math.abs(varied.voltages[circuit.node('out')]! - nominal.voltages[circuit.node('out')]!)).toBeGreaterThan(
      0.3,
    )
  })

  test('an absent model parameter has a slot too, holding its published default', () => {
    const circuit = compile(
      netlist(supply(5), {
        id: 'Q1',
        kind: 'npn',
        nodes: ['in', 'in', '0'],
        part: 'Q1',
        model: { IS: 1e-14, BF: 100 },
      }),
      { thermalResistance: {}, guess: {} },
    )
    expect(circuit.parameters[circuit.slot('Q1', 'NF')]).toBe(1)
    expect(circuit.parameters[circuit.slot('Q1', 'TNOM')]).toBe(27)
    expect(circuit.parameters[circuit.slot('Q1', 'VAF')]).toBe(Infinity)
  })
})

describe('wrong netlists and names', () => {
  test('are refused with the name that is wrong', () => {
    expect(() => compile(netlist(supply(5), supply(6)), { thermalResistance: {}, guess: {} })).toThrow('input')
    expect(() =>
      compile(netlist(supply(5), { ...supply(6), id: 'second' }), { thermalResistance: {}, guess: {} }),
    ).toThrow('second closes a loop')
    const circuit = compile(FOLLOWER, FOLLOWER_OPTIONS)
    expect(() => circuit.node('nowhere')).toThrow('nowhere')
    expect(() => circuit.slot('Rs', 'weight')).toThrow('Rs.weight')
  })
})

describe('a circuit without a solution', () => {
  // 1 mA into a node that nothing leads out of
  const circuit = compile(
    netlist(
      supply(5),
      resistor('R1', 'in', '0', 1000),
      { id: 'I1', kind: 'current-source', nodes: ['0', 'n'], part: 'I1', value: 1e-3 },
      { id: 'C1', kind: 'capacitor', nodes: ['n', '0'], part: 'C1', farads: 1e-6, esr: 0 },
    ),
    { thermalResistance: { R1: 100 }, guess: { n: 1 } },
  )

  test('gives an outcome, throws nothing, and leaves the workspace at the guess', () => {
    const ws = newWorkspace(circuit)
    for (const mode of [SETTLED, COLD] as const) {
      ws.junction.fill(33)
      const outcome = OUTCOMES[solvePoint(circuit, ws, 5, 0, 25, mode)]
      expect(outcome).not.toBe('converged')
      expect(OUTCOMES).toContain(outcome)
      expect(ws.voltages[circuit.node('n')]).toBe(1)
    }
  })

  test('numbers that are none give an outcome too', () => {
    const follower = compile(FOLLOWER, FOLLOWER_OPTIONS)
    const ws = newWorkspace(follower)
    expect(OUTCOMES[solvePoint(follower, ws, Number.NaN, 0.04, 25, COLD)]).toBe('nonFinite')
    expect(OUTCOMES[solvePoint(follower, ws, 24, Number.NaN, 25, COLD)]).not.toBe('converged')
    expect(OUTCOMES[solvePoint(follower, ws, 24, 0.04, 25, COLD)]).toBe('converged')
    expectSound(follower, ws)
  })
})
