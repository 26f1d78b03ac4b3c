import { describe, expect, test } from 'vitest'
import type { ReferenceModel } from '../../../engine/devices/elements.ts'
import {
  findReference,
  placeReference,
  referenceModel,
  REFERENCES,
  referencesFor,
  referenceTolerances,
  type ReferenceRow,
} from '../../../engine/parts/shunt-reference/index.ts'

const W = 0.2e-3

/** Cathode current of the stated macro-model at 25 degC. */
function cathodeCurrent(m: ReferenceModel, vka: number, vra: number): number {
  const Vr = m.VREF + m.KD * (vka - m.VREF) - W * Math.log(Math.expm1((m.ZD * (m.ITEST - m.IKMIN)) / W))
  const u = (vra - Vr) / W
  const y = W * (u > 30 ? u : Math.log1p(Math.exp(u)))
  const over = vka - m.VSAT
  const sp = (over + Math.sqrt(over * over + 0.01)) / 2
  return m.IKMIN * Math.tanh(vka / 0.5) + (y / m.ZD) * Math.tanh(sp / 0.2)
}

/** Volts that hold a cathode current: ref tied to the cathode, or the cathode held at `vka`. */
function referenceVoltage(m: ReferenceModel, current: number, vka?: number): number {
  let low = 0.9 * m.VREF
  let high = 1.1 * m.VREF
  for (let k = 0; k < 100; k += 1) {
    const middle = (low + high) / 2
    if (cathodeCurrent(m, vka ?? middle, middle) < current) low = middle
    else high = middle
  }
  return low
}

const row = (partNumber: string): ReferenceRow => findReference(partNumber)!

const ALL = REFERENCES.map((r) => [r.partNumber, r] as const)

describe('the catalogue', () => {
  test('names every part once', () => {
    expect(new Set(REFERENCES.map((r) => r.partNumber)).size).toBe(REFERENCES.length)
    expect(REFERENCES.filter((r) => r.adjustable)).toHaveLength(10)
  })

  test.each(ALL)('%s is consistent in itself', (_, r) => {
    expect(r.vref.min).toBeLessThan(r.vref.nominal)
    expect(r.vref.max).toBeGreaterThan(r.vref.nominal)
    expect(r.tempco.max).toBeGreaterThan(r.tempco.typ)
    expect(r.impedance.max).toBeGreaterThan(r.impedance.typ)
    expect(r.cathodeCurrentMin.typ).toBeLessThan(r.cathodeCurrentMin.max)
    // The test current must lie where the part regulates, or its reference voltage means nothing.
    expect(r.testCurrent).toBeGreaterThan(r.cathodeCurrentMin.max)
    expect(r.cathodeCurrentMax).toBeGreaterThan(r.testCurrent)
    expect(r.ambient.min).toBeLessThan(r.ambient.max)
    expect(r.junctionMax).toBeGreaterThan(r.ambient.max)
  })

  test('says what is from memory', () => {
    expect(row('LM4040A25ILP').memoryFields).toEqual(expect.arrayContaining(['package', 'thermalResistance']))
    expect(row('LM4040A25IDBZ').memoryFields).not.toContain('thermalResistance')
    expect(row('TL431CLP').memoryFields).toContain('tempco.max')
    expect(row('LM336BZ-2.5').note).toMatch(/trim pin is open/u)
  })
})

describe('the model', () => {
  test.each(ALL)('of %s carries its test current at its reference voltage', (_, r) => {
    const m = referenceModel(r)
    const voltage = referenceVoltage(m, r.testCurrent)
    expect(Math.abs(voltage - r.vref.nominal)).toBeLessThan(1e-4)
    // Well above the knee the slope is the typical impedance (plus, for three terminals, what the tied cathode does through KD).
    const top = referenceVoltage(m, r.cathodeCurrentMax)
    const slope = (top - referenceVoltage(m, 0.9 * r.cathodeCurrentMax)) / (0.1 * r.cathodeCurrentMax)
    expect(slope / r.impedance.typ).toBeCloseTo(1 - r.cathodeEffect.typ, 2)
    // Below the minimum current it lets go: half of that current stands well below the reference voltage.
    expect(cathodeCurrent(m, 0.8 * r.vref.nominal, 0.8 * r.vref.nominal)).toBeLessThan(r.cathodeCurrentMin.max)
  })

  test('lets the reference voltage fall as the cathode rises', () => {
    // Motorola TL431/D: -1.4 mV/V typical, 10 V more at the cathode are 14 mV.
    const m = referenceModel(row('TL431BCLP'))
    const fall = referenceVoltage(m, 0.01, 2.495) - referenceVoltage(m, 0.01, 12.495)
    expect(fall).toBeCloseTo(0.014, 4)
  })

  test('of two terminals has none of what a third would bring', () => {
    expect(referenceModel(row('LM4040C50IDBZ'))).toMatchObject({ KD: 0, IREF: 0, VSAT: 0, tc: 0 })
  })
})

describe('the tolerances', () => {
  test.each(ALL)('of %s run from low to high', (_, r) => {
    const tolerances = referenceTolerances(r, 'U2', 'U2')
    expect(tolerances.map((t) => t.id)).toEqual(
      ['Vref', 'TC', 'ZD', ...(r.adjustable ? ['IREF', 'KD'] : [])].map((q) => `U2.${q}`),
    )
    for (const { effects } of tolerances) {
      for (const { how, low, high } of effects) {
        const neutral = how === 'add' ? 0 : 1
        expect(low).toBeLessThan(neutral)
        expect(high).toBeGreaterThan(neutral)
      }
    }
  })

  test('carry the sheet’s limits', () => {
    // LM4040C-5: 4.975 to 5.025 V at 25 degC and 100 ppm/K (TI SLOS456P).
    const [vref, tc] = referenceTolerances(row('LM4040C50IDBZ'), 'U2', 'U2')
    expect(vref!.effects[0]!.low).toBeCloseTo(-0.025, 12)
    expect(vref!.effects[0]!.high).toBeCloseTo(0.025, 12)
    expect(tc!.effects[0]!.high).toBeCloseTo(5e-4, 12)
  })
})

test('a two-terminal reference ties its third node to the cathode', () => {
  expect(placeReference(row('LM4040A25ILP'), 'U2', ['ref', '0']).elements[0]).toMatchObject({
    kind: 'reference',
    part: 'U2',
    nodes: ['ref', '0', 'ref'],
  })
  expect(placeReference(row('TL431BCLP'), 'U2', ['k', '0', 'fb']).elements[0]!.nodes).toEqual(['k', '0', 'fb'])
})

test('a query minds voltage, mounting and temperature range, the tightest first', () => {
  const cold = referencesFor({ vMin: 2.4, vMax: 2.6, mounting: 'through-hole', ambient: { min: -10, max: 50 } })
  expect(cold.map((r) => r.partNumber)).toEqual(['LM4040A25ILP', 'LM4040B25ILP', 'LM4040C25ILP', 'LM4040D25ILP'])
  const twelve = referencesFor({ vMin: 12, vMax: 12, mounting: 'surface-mount' })
  expect(twelve.every((r) => r.adjustable)).toBe(true)
  expect(twelve[0]!.partNumber).toBe('TL431BCD')
  expect(referencesFor({ vMin: 40, vMax: 45, mounting: 'any' })).toEqual([])
})
