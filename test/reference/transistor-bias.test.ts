/** Placed transistors, solved by a general-purpose circuit solver: bias points, gain corners and leakage are what we say they are. */
import { describe, expect, test } from 'vitest'
import type { Netlist } from '../../engine/devices/elements.ts'
import {
  type Effect,
  driveAt,
  findTransistor,
  gainCorners,
  placeTransistor,
  transistorTolerances,
  TRANSISTORS,
  type TransistorRow,
  vbeAt,
  withGain,
} from '../../engine/parts/index.ts'
import { solveIndependently } from './independent/solver.ts'

/** The transistor between a collector source (`input`) and a base source, emitter at 0 V. */
function fixture(row: TransistorRow, vbe: number): Netlist {
  return {
    ground: '0',
    elements: [
      { id: 'input', kind: 'voltage-source', nodes: ['c', '0'], value: 0, part: 'input' },
      { id: 'Vb', kind: 'voltage-source', nodes: ['b', '0'], value: vbe, part: 'Vb' },
      ...placeTransistor(row, 'Q1', ['c', 'b', '0']).elements,
    ],
  }
}

/** Parameters by element with one tolerance at its low (-1) or high (+1) end, from the nominal netlist. */
function overridesAt(
  netlist: Netlist,
  effects: readonly Effect[],
  end: -1 | 1,
): Record<string, Record<string, number>> {
  const changed: Record<string, Record<string, number>> = {}
  for (const { element, parameter, how, low, high } of effects) {
    const found = netlist.elements.find((e) => e.id === element)!
    const nominal = ('model' in found ? found.model : found)[parameter as never] as number
    const by = end < 0 ? low : high
    changed[element] = { ...changed[element], [parameter]: how === 'scale' ? nominal * by : nominal + by }
  }
  return changed
}

/** Collector and base current of the part in amperes, by the independent solver. */
async function currents(row: TransistorRow, vbe: number, vce: number, Tj: number, tolerance?: string, end: -1 | 1 = 1) {
  const netlist = fixture(row, vbe)
  const effects = transistorTolerances(row, 'Q1').find((t) => t.id === `Q1.${tolerance}`)?.effects ?? []
  const { currents: found } = await solveIndependently(netlist, {
    condition: { input: vce, load: 0, ambient: Tj },
    overrides: overridesAt(netlist, effects, end),
  })
  return { ic: -found['input']![0]!, ib: -found['Vb']![0]! }
}

describe.each(TRANSISTORS.map((row) => [row.partNumber, row] as const))('%s', (_, row) => {
  test('base drive and VBE at a collector current are those of the independent solver, cold and hot', async () => {
    for (const share of [0.002, 0.05, 0.3]) {
      for (const Tj of [-40, 25, 110]) {
        const ic = row.Ic_max * share
        const drive = driveAt(row.model, ic, 5, Tj)
        const found = await currents(row, drive.vbe, 5, Tj)
        // a millionth of a volt on VBE is 4e-5 of current
        expect(Math.abs(found.ic / ic - 1)).toBeLessThan(1e-4)
        expect(Math.abs(found.ib / drive.ib - 1)).toBeLessThan(1e-4)
      }
    }
  })

  test('the gain corners just meet the limits of the sheet at its own test points', async () => {
    const { low, high, atMin, atMax } = gainCorners(row)
    const gainAt = async (p: typeof atMin, k: number, end: -1 | 1): Promise<number> => {
      const { ic, ib } = await currents(row, vbeAt(withGain(row.model, k), p.Ic, p.Vce, p.Tj), p.Vce, p.Tj, 'hFE', end)
      expect(Math.abs(ic / p.Ic - 1)).toBeLessThan(1e-4)
      return ic / ib
    }
    expect(Math.abs((await gainAt(atMin, low, -1)) / atMin.min! - 1)).toBeLessThan(1e-4)
    // without a maximum the high corner is an assumption and there is nothing to meet
    const most = atMax ? (await gainAt(atMax, high, 1)) / atMax.max! : 1
    expect(Math.abs(most - 1)).toBeLessThan(1e-4)
  })
})

const openBase = TRANSISTORS.filter((row) => row.leakage.kind === 'ICEO').map((row) => [row.partNumber, row] as const)
describe.each(openBase)('%s', (_, row) => {
  test('base open, a sample of least gain and most leakage takes the ICEO of the sheet', async () => {
    const { max, voltage, temperature } = row.leakage
    const netlist: Netlist = {
      ground: '0',
      elements: fixture(row, 0).elements.filter((e) => e.id !== 'Vb'),
    }
    const tolerances = transistorTolerances(row, 'Q1')
    const effects = tolerances
      .filter((t) => t.id !== 'Q1.VBE')
      .map((t) => overridesAt(netlist, t.effects, t.id === 'Q1.hFE' ? -1 : 1))
    const { currents: found } = await solveIndependently(netlist, {
      condition: { input: voltage, load: 0, ambient: temperature },
      overrides: Object.assign({}, ...effects),
    })
    expect(Math.abs(-found['input']![0]! / max - 1)).toBeLessThan(0.01)
  })
})

test('a VBE corner moves VBE by 30 mV and leaves the gain alone', async () => {
  const row = findTransistor('BD139-16')!
  const nominal = driveAt(row.model, 0.1, 5, 25)
  for (const end of [-1, 1] as const) {
    const found = await currents(row, nominal.vbe + 0.03 * end, 5, 25, 'VBE', end)
    // the reverse Early voltage of 7.5 V feels 30 mV of VBE as 0.4 % of current
    expect(Math.abs(found.ic / 0.1 - 1)).toBeLessThan(0.008)
    expect(Math.abs(found.ib / nominal.ib - 1)).toBeLessThan(0.008)
  }
})
