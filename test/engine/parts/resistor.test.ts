import { describe, expect, test } from 'vitest'
import { DERATING } from '../../../engine/parts/derating/index.ts'
import {
  pickResistor,
  placeResistor,
  resistorPowerAt,
  RESISTORS,
  resistorTcr,
  type ResistorNeed,
  type ResistorRow,
} from '../../../engine/parts/resistor/index.ts'

const row = (partNumber: string): ResistorRow => RESISTORS.find((r) => r.partNumber === partNumber)!

function numberOf(need: ResistorNeed): string {
  const choice = pickResistor(need)
  return choice.found ? choice.row.partNumber : `no ${choice.shortage}`
}

test.each(RESISTORS.map((r) => [r.partNumber, r] as const))('%s is consistent in itself', (_, r) => {
  expect(r.zeroPowerAt).toBeGreaterThan(r.derateFrom)
  expect(r.min).toBeLessThan(r.max)
  for (const step of r.tcr) expect(step.min).toBeLessThan(step.max)
  expect(resistorTcr(r, r.max).min).toBeLessThan(0)
  expect(r.length).toBeGreaterThan(0)
})

test('at rated power no body is hotter than where its rating ends, the RR types apart', () => {
  // The published thermal resistance of the RR types (TE 3-1773449-2) and their curve disagree: the rows say so.
  const off = RESISTORS.filter((r) => Math.abs(r.derateFrom + r.power * r.thermalResistance - r.zeroPowerAt) > 0.5)
  expect(new Set(off.map((r) => r.partNumber.slice(0, 2)))).toEqual(new Set(['RR']))
  expect(off.every((r) => r.note.includes('would be'))).toBe(true)
})

test('part numbers are unique', () => {
  expect(new Set(RESISTORS.map((r) => r.partNumber)).size).toBe(RESISTORS.length)
})

test('power falls in a straight line to the zero-power temperature', () => {
  // P(T) = P70·(Tz - T)/(Tz - T70), common practice of the makers' curves; MF 0.25 W: 70 and 155 degC.
  const mf = row('MF 0.25 W')
  expect(resistorPowerAt(mf, 25)).toBe(0.25)
  expect(resistorPowerAt(mf, 70)).toBe(0.25)
  expect(resistorPowerAt(mf, 112.5)).toBeCloseTo(0.125, 12)
  expect(resistorPowerAt(mf, 155)).toBe(0)
  expect(resistorPowerAt(mf, 200)).toBe(0)
})

test('the temperature coefficient depends on the value where the sheet says so', () => {
  // Yageo RC_L: 200 ppm/K up to 10 ohm, 100 above; Stackpole CF: 0 to -400 ppm/K to 10k, 0 to -850 from 100k.
  expect(resistorTcr(row('RC0805 1 %'), 4.7)).toEqual({ min: -2e-4, max: 2e-4 })
  expect(resistorTcr(row('RC0805 1 %'), 4700)).toEqual({ min: -1e-4, max: 1e-4 })
  expect(resistorTcr(row('CF14'), 4700)).toEqual({ min: -4e-4, max: 0 })
  expect(resistorTcr(row('CF14'), 470e3)).toEqual({ min: -8.5e-4, max: 0 })
})

describe('a placed resistor', () => {
  test('has the tolerance asked for and the sheet’s temperature coefficient', () => {
    const placed = placeResistor(row('MF 0.25 W'), 'R1', ['in', 'out'], 2000, 0.02)
    expect(placed.elements).toEqual([
      { id: 'R1', kind: 'resistor', nodes: ['in', 'out'], part: 'R1', ohms: 2000, tc1: 0, tnom: 25 },
    ])
    const [resistance, tcr] = placed.tolerances
    expect(resistance).toMatchObject({ id: 'R1.resistance', part: 'R1' })
    expect(resistance!.effects).toEqual([{ element: 'R1', parameter: 'ohms', how: 'scale', low: 0.98, high: 1.02 }])
    expect(tcr!.effects).toEqual([{ element: 'R1', parameter: 'tc1', how: 'add', low: -5e-5, high: 5e-5 }])
  })

  test('of carbon film sits in the middle of its one-sided coefficient', () => {
    const placed = placeResistor(row('CF14'), 'R1', ['a', 'b'], 1000)
    expect(placed.elements[0]).toMatchObject({ tc1: -2e-4 })
    expect(placed.tolerances[1]!.effects[0]).toMatchObject({ low: -2e-4, high: 2e-4 })
  })

  test('that tracks a partner is given half of the difference', () => {
    const placed = placeResistor(row('RC0805 1 %'), 'R1', ['a', 'b'], 1000, 0.01, { tracking: 25e-6 })
    expect(placed.tolerances[1]!.effects[0]).toMatchObject({ low: -12.5e-6, high: 12.5e-6 })
  })
})

describe('the pick', () => {
  const need: ResistorNeed = {
    ohms: 2000,
    tolerance: 0.01,
    power: 0.1,
    voltage: 15,
    mounting: 'through-hole',
    ambient: 50,
    derating: DERATING.standard,
  }

  test('is the smallest that holds the derated power', () => {
    expect(numberOf(need)).toBe('MF 0.25 W')
    expect(numberOf({ ...need, power: 0.2 })).toBe('MF 0.5 W')
    expect(numberOf({ ...need, power: 0.2, derating: DERATING.none })).toBe('MF 0.25 W')
    expect(numberOf({ ...need, tolerance: 0.05, power: 0.05 })).toBe('CF18')
    expect(numberOf({ ...need, mounting: 'surface-mount' })).toBe('RC1206 1 %')
    expect(numberOf({ ...need, mounting: 'any' })).toBe('RC1206 1 %')
  })

  test('gives way to heat: the same watts in a hotter place need a larger part', () => {
    // At 112.5 degC half of the rating is left: 0.125 W derated by half is 62 mW.
    expect(numberOf({ ...need, ambient: 112.5 })).toBe('MF 0.5 W')
  })

  test('holds a fault at full ratings', () => {
    expect(numberOf({ ...need, fault: { power: 0.32, voltage: 25 } })).toBe('MF 0.5 W')
  })

  test('says what is missing', () => {
    const power = pickResistor({ ...need, power: 2 })
    expect(power).toMatchObject({ found: false, shortage: 'power', needed: 4, available: 3 })
    expect(power).toMatchObject({ closest: { partNumber: 'RR03 1 %' } })
    if (power.found) throw new Error('unreachable')
    expect(power.because).toMatch(/4\.00.W at 50 °C.*RR03 1 %.*3\.00.W/su)
    expect(pickResistor({ ...need, tolerance: 0.001 })).toMatchObject({ shortage: 'tolerance', available: 0.01 })
    expect(pickResistor({ ...need, ohms: 5e7 })).toMatchObject({ shortage: 'range', needed: 5e7 })
    expect(pickResistor({ ...need, voltage: 700 })).toMatchObject({ shortage: 'voltage', needed: 875, available: 750 })
  })
})
