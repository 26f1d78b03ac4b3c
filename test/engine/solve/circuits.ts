/** Circuits that the solver's tests share, and the checks that every solved point must pass. */
import { expect } from 'vitest'
import type { Element, Netlist } from '../../../engine/devices/elements.ts'
import type { Circuit, Workspace } from '../../../engine/solve/index.ts'
import { OP_AMP, POWER_TRANSISTOR, REFERENCE_DIODE, TWO_TERMINAL_REFERENCE } from '../devices/samples.ts'

export const supply = (value: number): Element => ({
  id: 'input',
  kind: 'voltage-source',
  nodes: ['in', '0'],
  part: 'input',
  value,
})
export const load = (node: string, value: number): Element => ({
  id: 'load',
  kind: 'current-source',
  nodes: [node, '0'],
  part: 'load',
  value,
})
export const resistor = (id: string, a: string, b: string, ohms: number, tc1?: number): Element => ({
  id,
  kind: 'resistor',
  nodes: [a, b],
  part: id,
  ohms,
  ...(tc1 === undefined ? {} : { tc1 }),
})
export const netlist = (...elements: Element[]): Netlist => ({ ground: '0', elements })

/** 24 V in, a breakdown diode fed through 1.3 kΩ, an emitter follower. */
export const FOLLOWER = netlist(
  supply(24),
  resistor('Rs', 'in', 'b', 1300, 1e-4),
  { id: 'D1', kind: 'diode', nodes: ['0', 'b'], part: 'D1', model: REFERENCE_DIODE },
  { id: 'Q1', kind: 'npn', nodes: ['in', 'b', 'out'], part: 'Q1', model: POWER_TRANSISTOR },
  load('out', 0.04),
)
export const FOLLOWER_OPTIONS = {
  thermalResistance: { Rs: 140, D1: 110, Q1: 28 },
  guess: { in: 24, b: 11.7, out: 11 },
}

/** The same upside down: a negative supply, a pnp, the diode turned round. */
export const MIRRORED_FOLLOWER = netlist(
  { ...supply(-24), nodes: ['in', '0'] } as Element,
  resistor('Rs', 'in', 'b', 1300, 1e-4),
  { id: 'D1', kind: 'diode', nodes: ['b', '0'], part: 'D1', model: REFERENCE_DIODE },
  { id: 'Q1', kind: 'pnp', nodes: ['in', 'b', 'out'], part: 'Q1', model: POWER_TRANSISTOR },
  { id: 'load', kind: 'current-source', nodes: ['0', 'out'], part: 'load', value: 0.04 },
)

/** 12 V in, 6 V out: op-amp, 2.5 V reference fed from the input, pass transistor, divider. */
export const FEEDBACK = netlist(
  supply(12),
  resistor('R3', 'in', 'ref', 3300),
  { id: 'U2', kind: 'reference', nodes: ['ref', '0', 'ref'], part: 'U2', model: TWO_TERMINAL_REFERENCE },
  { id: 'U1', kind: 'amplifier', nodes: ['ref', 'fb', 'drive', 'in', '0'], part: 'U1', model: OP_AMP },
  { id: 'Q1', kind: 'npn', nodes: ['in', 'drive', 'out'], part: 'Q1', model: POWER_TRANSISTOR },
  resistor('R1', 'out', 'fb', 14000),
  resistor('R2', 'fb', '0', 10000),
  load('out', 0.1),
)
export const FEEDBACK_OPTIONS = {
  thermalResistance: { R3: 140, U1: 125, U2: 180, Q1: 28, R1: 140, R2: 140 },
  guess: { in: 12, ref: 2.5, fb: 2.5, drive: 6.8, out: 6 },
}

/** The largest imbalance of any node, summed anew from the terminal currents, in amperes. */
export function imbalance(circuit: Circuit, ws: Workspace): number {
  const sums = new Float64Array(circuit.nodes.length)
  circuit.netlist.elements.forEach((element, k) => {
    element.nodes.forEach((node, t) => {
      sums[circuit.node(node)]! += ws.currents[circuit.terminals[k]! + t]!
    })
  })
  return Math.max(...sums.map(Math.abs))
}

/** Current balance at every node, no power from nowhere, and temperatures that fit the power. */
export function expectSound(
  circuit: Circuit,
  ws: Workspace,
  settled?: { ambient: number; thermalResistance: Readonly<Record<string, number>> },
): void {
  // promised are 1e-9 A and 1e-6 of the current; the solver aims a decade and three lower
  const largest = Math.max(...ws.currents.map(Math.abs))
  expect(imbalance(circuit, ws)).toBeLessThanOrEqual(1e-10 + 1e-9 * largest)
  const delivered = -ws.power[circuit.part('input')]!
  const used = ws.power.reduce((sum, p) => sum + p, 0) + delivered
  expect(Math.abs(used - delivered)).toBeLessThanOrEqual(1e-9 * Math.abs(delivered) + 1e-9)
  if (settled === undefined) return
  circuit.parts.forEach((part, p) => {
    const asked = settled.ambient + (settled.thermalResistance[part] ?? 0) * ws.power[p]!
    expect(Math.abs(ws.junction[p]! - asked), part).toBeLessThanOrEqual(1e-5)
  })
}
