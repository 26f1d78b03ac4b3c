/** A first look at a built design, cheap enough for every candidate: nominal parts at the four corners of input and load. */
import type { Prepared } from '../analyses/prepare.ts'
import { allowedAt, useOf } from '../analyses/observation.ts'
import type { Requirements } from '../requirements/study.ts'
import { SETTLED, newWorkspace, solvePoint } from '../solve/index.ts'

/** What a candidate that does not even solve ranks as. */
const HOPELESS = 1000

/**
 * How unpromising a design looks, 0 being best: how far its output, with the reference's own tolerance added, leaves the
 * band, how far any rating is overdrawn, and a little for every part, every element inside it, and for lying off centre.
 * What is certain to rank worse than `enough` is not looked at to the end: some number above `enough` then.
 */
export function glance(prepared: Prepared, requirements: Requirements, enough = Infinity): number {
  const { input, output, load, ambient } = requirements
  const { design } = prepared
  const ws = newWorkspace(prepared.circuit)
  const allowed = new Map<number, Float64Array>()
  const half = output.voltage * output.tolerance
  let lowest = Infinity
  let highest = -Infinity
  let overdrawn = 0
  const light = load.permanent ? load.min : 0
  const spread = design.referenceSpread * output.voltage
  // neither can become less with more points
  const over = (): number =>
    Math.max(0, highest + spread - (output.voltage + half), output.voltage - half - (lowest - spread))
  const leastRank = (): number =>
    5 * Math.min(overdrawn, 20) +
    (4 * over()) / half +
    0.02 * design.parts.length +
    0.01 * design.netlist.elements.length
  for (const [v, i, t] of [
    [input.nominal, load.nominal, ambient.nominal],
    [input.min, load.max, ambient.min],
    [input.min, load.max, ambient.max],
    [input.max, load.max, ambient.max],
    [input.max, load.min, ambient.max],
    [input.max, light, ambient.max],
  ] as const) {
    if (solvePoint(prepared.circuit, ws, v, i, t, SETTLED) !== 0) return HOPELESS
    const volts = ws.voltages[prepared.output]!
    if (i >= load.min) {
      lowest = Math.min(lowest, volts)
      highest = Math.max(highest, volts)
    }
    const condition = { ambient: t, fault: false }
    const may = allowed.get(t) ?? allowedAt(prepared, condition)
    allowed.set(t, may)
    for (let k = 0; k < prepared.limits.length; k++)
      overdrawn = Math.max(overdrawn, useOf(prepared, k, ws, condition, may) - 1)
    const least = leastRank()
    if (least > enough) return least
  }
  const offCentre = Math.abs((lowest + highest) / 2 - output.voltage)
  return leastRank() + offCentre / half
}
