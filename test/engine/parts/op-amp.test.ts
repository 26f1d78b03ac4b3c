import { describe, expect, test } from 'vitest'
import type { AmplifierModel } from '../../../engine/devices/elements.ts'
import {
  amplifierModel,
  AMPLIFIERS,
  amplifiersFor,
  amplifierTolerances,
  commonModeRange,
  findAmplifier,
  placeAmplifier,
  type AmplifierRow,
} from '../../../engine/parts/op-amp/index.ts'

/** Volts between the positive rail and the output, driven fully up and sourcing a current: e stands at VH there. */
function dropWhileSourcing(m: AmplifierModel, current: number): number {
  return m.DH + m.RO * m.ISRC * Math.atanh(current / m.ISRC)
}

const row = (partNumber: string): AmplifierRow => findAmplifier(partNumber)!
const ALL = AMPLIFIERS.map((r) => [r.partNumber, r] as const)

describe('the catalogue', () => {
  test('names every part once', () => {
    expect(new Set(AMPLIFIERS.map((r) => r.partNumber)).size).toBe(AMPLIFIERS.length)
  })

  test.each(ALL)('%s is consistent in itself', (_, r) => {
    expect(r.offset.max).toBeGreaterThan(r.offset.max25)
    // Drift over the range, typical, explains no more than the full-range limit allows.
    expect(r.offset.drift * (r.ambient.max - 25)).toBeLessThan(r.offset.max)
    for (const { typ, min } of [r.gain, r.supplyRejection, r.commonModeRejection, r.output.source, r.output.sink]) {
      expect(min).toBeLessThan(typ)
    }
    expect(r.bias.typ).toBeLessThan(r.bias.max)
    expect(r.quiescent.typ).toBeLessThan(r.quiescent.max)
    expect(r.supply.min).toBeLessThan(r.supply.max)
    const currents = r.swingHigh.points.map((p) => p.current)
    expect(currents).toEqual(currents.toSorted((a, b) => a - b))
    expect(Math.max(...currents)).toBeLessThan(r.output.source.min)
    expect(r.junctionMax).toBeGreaterThan(r.ambient.max)
    // Rejections were read for no row: read rows say so.
    const known = r.confidence === 'memory' || r.memoryFields.includes('supplyRejection')
    expect(known).toBe(true)
  })
})

describe('the model', () => {
  test.each(ALL)('of %s swings as its sheet says', (_, r) => {
    const m = amplifierModel(r)
    expect(m.RO).toBeGreaterThan(0)
    const outer = [r.swingHigh.points[0]!, r.swingHigh.points.at(-1)!]
    // DH is never negative: a rail-to-rail part whose one point is all resistance keeps a volt-free start.
    for (const p of outer) expect(Math.abs(dropWhileSourcing(m, p.current) - p.drop)).toBeLessThan(1e-3)
  })

  test('of the LM358B meets the published point between its two as well', () => {
    // TI SLOS068AA: 1.35 V at 50 uA, 1.4 V at 1 mA, 1.5 V at 5 mA below the positive rail. The middle one was not used.
    const m = amplifierModel(row('LM358BID'))
    expect(m.RO).toBeCloseTo(0.15 / 0.00499, 0)
    expect(m.DH).toBeCloseTo(1.3485, 3)
    expect(Math.abs(dropWhileSourcing(m, 0.001) - 1.4)).toBeLessThan(0.03)
  })

  test('counts the supply current of idle amplifiers', () => {
    expect(amplifierModel(row('LM358BID')).IQ).toBeCloseTo(0.6e-3, 12)
    expect(amplifierModel(row('LM324N')).IQ).toBeCloseTo(0.7e-3, 12)
    expect(amplifierModel(row('MC33171P')).IQ).toBeCloseTo(0.18e-3, 12)
  })

  test('turns rejection into volts per volt', () => {
    // 65 dB is 562 uV/V; the B grade prints 15 uV/V.
    expect(1 / row('LM358P').supplyRejection.min).toBeCloseTo(562e-6, 6)
    expect(1 / row('LM358BID').supplyRejection.min).toBeCloseTo(15e-6, 12)
  })
})

describe('the tolerances', () => {
  test.each(ALL)('of %s run from low to high', (_, r) => {
    const tolerances = amplifierTolerances(r, 'U1', 'U1')
    expect(tolerances.map((t) => t.id)).toEqual(['U1.VOS', 'U1.A0', 'U1.IB', 'U1.swing', 'U1.IQ'])
    for (const { effects } of tolerances) {
      // Scales below one are the bad side of gain, rejection and drive; what is added lies about zero.
      for (const { how, low, high } of effects.filter((e) => e.how === 'add')) {
        expect(how).toBe('add')
        expect(low).toBeLessThanOrEqual(0)
        expect(high).toBeGreaterThanOrEqual(0)
        expect(high).toBeGreaterThan(low)
      }
      for (const { low, high } of effects.filter((e) => e.how === 'scale')) {
        expect(low).toBe(1)
        expect(high).toBeLessThan(1)
        expect(high).toBeGreaterThan(0)
      }
    }
  })

  test('carry the sheet’s limits and both signs of the bias', () => {
    // LM358B: 4 mV over the range, 10 nA typical and 35 nA at most, 70 V/mV at least (TI SLOS068AA).
    const r = row('LM358BID')
    const [vos, a0, ib] = amplifierTolerances(r, 'U1', 'U1')
    expect(vos!.effects).toEqual([{ element: 'U1', parameter: 'VOS', how: 'add', low: -0.004, high: 0.004 }])
    expect(amplifierModel(r).A0 * a0!.effects[0]!.high).toBeCloseTo(70e3, 6)
    expect(amplifierModel(r).IB + ib!.effects[0]!.low).toBeCloseTo(-35e-9, 15)
    expect(amplifierModel(r).IB + ib!.effects[0]!.high).toBeCloseTo(35e-9, 15)
  })
})

test('a placed amplifier is one element named as its part', () => {
  const placed = placeAmplifier(row('LM358BID'), 'U1', ['ref', 'fb', 'base', 'in', '0'])
  expect(placed.elements).toHaveLength(1)
  expect(placed.elements[0]).toMatchObject({ kind: 'amplifier', part: 'U1', nodes: ['ref', 'fb', 'base', 'in', '0'] })
})

test('a query minds supply, inputs, mounting and temperature range', () => {
  const ask = { supplyMin: 9.5, supplyMax: 15 / 0.9, inputs: 2.5, mounting: 'any' } as const
  expect(amplifiersFor(ask)[0]!.partNumber).toBe('LM358P')
  expect(amplifiersFor({ ...ask, ambient: { min: -10, max: 50 } })[0]!.partNumber).toBe('LM358BP')
  expect(
    amplifiersFor({ ...ask, mounting: 'through-hole', ambient: { min: -10, max: 50 } }).map((r) => r.partNumber),
  ).toEqual(['LM358BP', 'LM2904P', 'MC33171P', 'MC33172P', 'OPA277PA'])
  // 3.3 V of supply leave no room over 2.5 V for an input stage that stops 2 V below its rail.
  expect(amplifiersFor({ ...ask, supplyMin: 3.3, supplyMax: 5 }).map((r) => r.package)).toEqual(
    expect.arrayContaining(['SOT-23-5']),
  )
  expect(amplifiersFor({ ...ask, supplyMax: 60 })).toEqual([])
})

test('the common-mode range ends below the positive rail', () => {
  expect(commonModeRange(row('LM358BID'), 9.5)).toEqual({ low: 0, high: 7.5 })
})
