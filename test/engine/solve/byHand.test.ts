/** Circuits that can be solved on paper. */
import { describe, expect, test } from 'vitest'
import type { DiodeModel } from '../../../engine/devices/elements.ts'
import { thermalVoltage } from '../../../engine/devices/physics.ts'
import { COLD, compile, newWorkspace, SETTLED, solvePoint } from '../../../engine/solve/index.ts'
import { expectSound, load, netlist, resistor, supply } from './circuits.ts'

const SHARP: DiodeModel = { IS: 1e-14, N: 1, RS: 0, BV: 1e4, IBV: 1e-3, NBV: 1, EG: 1.11, XTI: 3, TNOM: 25, tc: 0 }

/** W of W·e^W = z by Halley's iteration (Corless et al., Adv. Comput. Math. 5 (1996) 329, eq. 5.9). */
function lambertW(z: number): number {
  let w = z > 3 ? Math.log(z) - Math.log(Math.log(z)) : z / (1 + z)
  for (let k = 0; k < 50; k += 1) {
    const e = Math.exp(w)
    const f = w * e - z
    w -= f / (e * (w + 1) - ((w + 2) * f) / (2 * w + 2))
  }
  return w
}

describe('linear circuits', () => {
  test('a divider of 3 kΩ and 2 kΩ halves nothing: 10 V make 4 V and 2 mA', () => {
    const circuit = compile(netlist(supply(10), resistor('R1', 'in', 'mid', 3000), resistor('R2', 'mid', '0', 2000)), {
      thermalResistance: {},
      guess: {},
    })
    const ws = newWorkspace(circuit)
    expect(solvePoint(circuit, ws, 10, 0, 25, COLD)).toBe(0)
    expect(ws.voltages[circuit.node('mid')]).toBeCloseTo(4, 12)
    expect(ws.currents[circuit.terminals[circuit.element('input')]!]).toBeCloseTo(-2e-3, 15)
    expect(ws.power[circuit.part('R1')]).toBeCloseTo(12e-3, 14)
    expectSound(circuit, ws)
  })

  test('a resistor with 1000 ppm/K settles where its own heat puts it', () => {
    // 10 V on R = 1000·(1 + 1e-3·(T - 25)), T = 25 + 100·100/R: with y = R/1000, y² - y = 0.01, y = 1.0099019514
    const circuit = compile(netlist(supply(10), resistor('R1', 'in', '0', 1000, 1e-3)), {
      thermalResistance: { R1: 100 },
      guess: {},
    })
    const ws = newWorkspace(circuit)
    expect(solvePoint(circuit, ws, 10, 0, 25, SETTLED)).toBe(0)
    const y = (1 + Math.sqrt(1.04)) / 2
    expect(ws.power[circuit.part('R1')]).toBeCloseTo(0.1 / y, 8)
    expect(ws.junction[circuit.part('R1')]).toBeCloseTo(25 + 10 / y, 4)
  })

  test('a floating source between two resistors adds its voltage and carries the one current', () => {
    const circuit = compile(
      netlist(
        supply(10),
        resistor('R1', 'in', 'a', 1000),
        { id: 'lift', kind: 'voltage-source', nodes: ['b', 'a'], part: 'lift', value: 5 },
        resistor('R2', 'b', '0', 2000),
      ),
      { thermalResistance: {}, guess: {} },
    )
    const ws = newWorkspace(circuit)
    expect(solvePoint(circuit, ws, 10, 0, 25, COLD)).toBe(0)
    expect(ws.voltages[circuit.node('a')]).toBeCloseTo(5, 12)
    expect(ws.voltages[circuit.node('b')]).toBeCloseTo(10, 12)
    const at = circuit.terminals[circuit.element('lift')]!
    expect(ws.currents[at]).toBeCloseTo(-5e-3, 14)
    expect(ws.currents[at + 1]).toBeCloseTo(5e-3, 14)
    expectSound(circuit, ws)
  })

  test('sources stacked on the supply pin their nodes, whichever way round they stand', () => {
    const circuit = compile(
      netlist(
        { id: 'up', kind: 'voltage-source', nodes: ['top', 'in'], part: 'up', value: 3 },
        { id: 'down', kind: 'voltage-source', nodes: ['top', 'low'], part: 'down', value: 8 },
        supply(10),
        resistor('R1', 'low', '0', 1000),
        resistor('R2', 'top', '0', 1000),
      ),
      { thermalResistance: {}, guess: {} },
    )
    const ws = newWorkspace(circuit)
    expect(solvePoint(circuit, ws, 10, 0, 25, COLD)).toBe(0)
    expect(ws.voltages[circuit.node('low')]).toBe(5)
    expect(ws.currents[circuit.terminals[circuit.element('down')]!]).toBeCloseTo(5e-3, 15)
    expect(ws.currents[circuit.terminals[circuit.element('up')]!]).toBeCloseTo(-18e-3, 15)
    expectSound(circuit, ws)
  })

  test('the load is constant in regulation and lets go below a tenth of a volt', () => {
    const circuit = compile(netlist(supply(10), resistor('R1', 'in', 'out', 1000), load('out', 5e-3)), {
      thermalResistance: {},
      guess: {},
    })
    const ws = newWorkspace(circuit)
    expect(solvePoint(circuit, ws, 10, 5e-3, 25, COLD)).toBe(0)
    expect(ws.voltages[circuit.node('out')]).toBeCloseTo(5, 12)
    // 10 V - 1 kΩ·20 mA·tanh(V/0.1 V) = V: V = 0.1·artanh(z), z = (10 - V)/20
    expect(solvePoint(circuit, ws, 10, 20e-3, 25, COLD)).toBe(0)
    const v = ws.voltages[circuit.node('out')]!
    expect(v).toBeCloseTo(0.1 * Math.atanh((10 - v) / 20), 12)
    expect(v).toBeGreaterThan(0)
    expectSound(circuit, ws)
  })

  test('a capacitor is open, and a node behind it stays at its guess', () => {
    const circuit = compile(
      netlist(supply(10), resistor('R1', 'in', 'a', 1000), {
        id: 'C1',
        kind: 'capacitor',
        nodes: ['a', 'behind'],
        part: 'C1',
        farads: 1e-6,
        esr: 0.1,
      }),
      { thermalResistance: {}, guess: { behind: 3 } },
    )
    const ws = newWorkspace(circuit)
    expect(solvePoint(circuit, ws, 10, 0, 25, COLD)).toBe(0)
    expect(ws.voltages[circuit.node('a')]).toBeCloseTo(10, 9)
    expect(ws.voltages[circuit.node('behind')]).toBe(3)
  })
})

describe('one junction', () => {
  test('a diode behind a resistor carries what the Lambert W function says', () => {
    const nvt = thermalVoltage(25)
    for (const [volts, ohms] of [
      [0.5, 100],
      [5, 1000],
      [12, 10],
    ] as const) {
      const circuit = compile(
        netlist(supply(volts), resistor('R1', 'in', 'a', ohms), {
          id: 'D1',
          kind: 'diode',
          nodes: ['a', '0'],
          part: 'D1',
          model: SHARP,
        }),
        { thermalResistance: {}, guess: {} },
      )
      const ws = newWorkspace(circuit)
      expect(solvePoint(circuit, ws, volts, 0, 25, COLD)).toBe(0)
      const c = (1e-14 * ohms) / nvt
      const exact = (nvt / ohms) * lambertW(c * Math.exp(volts / nvt + c)) - 1e-14
      expect(ws.currents[circuit.terminals[circuit.element('D1')]!]! / exact).toBeCloseTo(1, 9)
      expectSound(circuit, ws)
    }
  })

  test('5 V, 1 kΩ and a diode of 1 mA at 0.7 V and 0.1 V a decade: 4.237 mA, 0.763 V', () => {
    // Sedra and Smith, example 3.4, as read in a transcription; converged 4.2373 mA and 0.7627 V
    const N = 0.1 / (thermalVoltage(25) * Math.LN10)
    const model = { ...SHARP, N, IS: 1e-3 / (Math.exp(0.7 / (0.1 / Math.LN10)) - 1) }
    const circuit = compile(
      netlist(supply(5), resistor('R1', 'in', 'a', 1000), {
        id: 'D1',
        kind: 'diode',
        nodes: ['a', '0'],
        part: 'D1',
        model,
      }),
      { thermalResistance: {}, guess: {} },
    )
    const ws = newWorkspace(circuit)
    expect(solvePoint(circuit, ws, 5, 0, 25, COLD)).toBe(0)
    expect(ws.currents[circuit.terminals[circuit.element('D1')]!]).toBeCloseTo(4.2373e-3, 7)
    expect(ws.voltages[circuit.node('a')]).toBeCloseTo(0.7627, 4)
  })

  test('a breakdown diode with RS stands at BV + RS·I + NBV·VT·ln(I/IBV)', () => {
    const model = { ...SHARP, RS: 7, BV: 6.2, IBV: 5e-3, NBV: 1.4, TNOM: 25, tc: 2e-3 }
    const circuit = compile(
      netlist(supply(20), resistor('R1', 'in', 'a', 1000), {
        id: 'D1',
        kind: 'diode',
        nodes: ['0', 'a'],
        part: 'D1',
        model,
      }),
      { thermalResistance: {}, guess: {} },
    )
    const ws = newWorkspace(circuit)
    expect(solvePoint(circuit, ws, 20, 0, 75, COLD)).toBe(0)
    const v = ws.voltages[circuit.node('a')]!
    const i = (20 - v) / 1000
    expect(v).toBeCloseTo(6.2 + 0.1 + 7 * i + 1.4 * thermalVoltage(75) * Math.log(i / 5e-3), 10)
    expectSound(circuit, ws)
  })
})

/** How far the output of a follower lies above its base without load: from the guess, and after it was loaded. */
function floating(celsius: number, beta: number, is: number, ohms: number): number[] {
  const model = { IS: is, BF: beta, BR: 5, RB: 20, RE: 0.9, RC: 0.4, EG: 1.15, TNOM: 25 }
  const circuit = compile(
    netlist(
      supply(24),
      resistor('R1', 'in', 'base', 1000),
      resistor('R2', 'base', '0', 1000),
      { id: 'Q1', kind: 'npn', nodes: ['in', 'base', 'emitter'], part: 'Q1', model },
      resistor('R3', 'emitter', 'out', ohms),
      load('out', 0.05),
    ),
    { thermalResistance: {}, guess: { in: 24, base: 12, emitter: 11.3, out: 11.3 } },
  )
  const ws = newWorkspace(circuit)
  const [first, , again] = [0, 0.05, 0].map((amperes) => {
    expect(solvePoint(circuit, ws, 24, amperes, celsius, COLD)).toBe(0)
    expectSound(circuit, ws)
    return ws.voltages[circuit.node('out')]! - ws.voltages[circuit.node('base')]!
  })
  return [first!, again!]
}

describe('a follower without load', () => {
  // IE = 0 with the collector junction blocked leaves IS·e^(VBE/VT)·(1 + 1/BF) = IS/BF in the equations of Ebers and Moll
  // (Proc. IRE 42 (1954) 1761; from memory): the emitter floats above the base by VT·ln(1 + BF)
  test.each([-55, -40, -20, 25, 70, 125])('floats above its base by VT·ln(1 + BF) at %d °C', (celsius) => {
    for (const beta of [50, 190, 700]) {
      for (const is of [1.7e-15, 6.6e-14]) {
        for (const ohms of [0.617, 3.738, 10.25]) {
          const expected = thermalVoltage(celsius) * Math.log(1 + beta)
          for (const above of floating(celsius, beta, is, ohms)) expect(above).toBeCloseTo(expected, 5)
        }
      }
    }
  })
})

describe('energy at 45 V, 1 kΩ and a 12.6 V diode without load', () => {
  // Kuphaldt, Lessons In Electric Circuits, vol. III, chapter 3 (read as text): an ideal diode makes 32.4 mA,
  // 1.04976 W in the resistor and 0.40824 W in the diode; a knee of a few millivolts stands in for the ideal one
  test('comes out as in the book to a tenth of a per cent', () => {
    const model = { ...SHARP, BV: 12.6, IBV: 32.4e-3, NBV: 0.1 }
    const circuit = compile(
      netlist(supply(45), resistor('Rs', 'in', 'a', 1000), {
        id: 'D1',
        kind: 'diode',
        nodes: ['0', 'a'],
        part: 'D1',
        model,
      }),
      { thermalResistance: {}, guess: {} },
    )
    const ws = newWorkspace(circuit)
    expect(solvePoint(circuit, ws, 45, 0, 25, COLD)).toBe(0)
    expect(ws.power[circuit.part('Rs')]! / 1.04976).toBeCloseTo(1, 3)
    expect(ws.power[circuit.part('D1')]! / 0.40824).toBeCloseTo(1, 3)
    expectSound(circuit, ws)
  })
})
