/** A transistor as the circuit sees it: elements and the ways in which a sample strays from nominal. */
import type { Bjt, BjtModel, CurrentSource, Element } from '../../devices/elements.ts'
import { thermalVoltage } from '../../devices/physics.ts'
import type { Effect, PlacedPart, Tolerance } from '../define.ts'
import { gainCorners, leakageCorner } from './corners.ts'
import { isDarlington, type TransistorRow } from './row.ts'

/** Spread of VBE between samples at one current, ±volts: common practice, no source. */
export const VBE_SPREAD = 0.03

export type TransistorNodes = readonly [collector: string, base: string, emitter: string]

/**
 * Elements: the transistor named as its part, or `<id>.driver`, `<id>.output`, `<id>.Rbe1`, `<id>.Rbe2` of a Darlington with
 * the inner node `<id>.inner`; and `<id>.leakage`, the collector-base leakage, nominally 0 A.
 */
export function placeTransistor(row: TransistorRow, id: string, nodes: TransistorNodes): PlacedPart {
  const [collector, base, emitter] = nodes
  const bjt = (name: string, at: TransistorNodes, model: BjtModel): Bjt => ({
    id: name,
    kind: row.polarity,
    nodes: at,
    part: id,
    model,
  })
  const { model } = row
  const inner = `${id}.inner`
  const conducting: Element[] = isDarlington(model)
    ? [
        // first, since it carries the part's collector current
        bjt(`${id}.output`, [collector, inner, emitter], model.output),
        bjt(`${id}.driver`, [collector, base, inner], model.driver),
        { id: `${id}.Rbe1`, kind: 'resistor', nodes: [base, inner], part: id, ohms: model.Rbe1 },
        { id: `${id}.Rbe2`, kind: 'resistor', nodes: [inner, emitter], part: id, ohms: model.Rbe2 },
      ]
    : [bjt(id, nodes, model)]
  const corner = leakageCorner(row)
  const leakage: CurrentSource = {
    id: `${id}.leakage`,
    kind: 'current-source',
    nodes: row.polarity === 'npn' ? [collector, base] : [base, collector],
    part: id,
    value: 0,
    doublesEvery: corner.doublesEvery,
    tnom: corner.tnom,
  }
  return { elements: [...conducting, leakage], tolerances: transistorTolerances(row, id) }
}

/**
 * `hFE`: BF by k and ISE by 1/k, which leaves IC over VBE alone, k reaching the sheet's limits (`gainCorners`).
 * `VBE`: IS·e^(-d/(NF·VT)) and ISE·e^(-d/(NE·VT)) shift VBE by d at every current and leave the gain alone.
 * `leakage`: from nothing to the sheet's maximum. A Darlington's junctions share what moves the pair.
 */
export function transistorTolerances(row: TransistorRow, part: string): Tolerance[] {
  const { model } = row
  const junctions: [string, BjtModel][] = isDarlington(model)
    ? [
        [`${part}.driver`, model.driver],
        [`${part}.output`, model.output],
      ]
    : [[part, model]]
  const gain = gainCorners(row)
  return [
    {
      id: `${part}.hFE`,
      part,
      label: 'DC current gain',
      effects: junctions.flatMap(([element]) => [
        scale(element, 'BF', gain.low, gain.high),
        scale(element, 'ISE', 1 / gain.low, 1 / gain.high),
      ]),
    },
    {
      id: `${part}.VBE`,
      part,
      label: 'base-emitter voltage',
      effects: junctions.flatMap(([element, m]) => vbeEffects(element, m, VBE_SPREAD / junctions.length)),
    },
    {
      id: `${part}.leakage`,
      part,
      label: 'collector-base leakage',
      effects: [{ element: `${part}.leakage`, parameter: 'value', how: 'add', low: 0, high: leakageCorner(row).max }],
    },
  ]
}

function vbeEffects(element: string, model: BjtModel, d: number): Effect[] {
  const VT = thermalVoltage(model.TNOM ?? 27)
  const is = Math.exp(-d / ((model.NF ?? 1) * VT))
  const ise = Math.exp(-d / ((model.NE ?? 1.5) * VT))
  return [scale(element, 'IS', 1 / is, is), scale(element, 'ISE', 1 / ise, ise)]
}

function scale(element: string, parameter: string, low: number, high: number): Effect {
  return { element, parameter, how: 'scale', low, high }
}
