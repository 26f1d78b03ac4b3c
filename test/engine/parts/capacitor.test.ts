import { describe, expect, test } from 'vitest'
import { DERATING } from '../../../engine/parts/derating/index.ts'
import {
  capacitanceAt,
  CAPACITORS,
  capacitorShare,
  pickCapacitor,
  placeCapacitor,
  type CapacitorNeed,
  type CapacitorRow,
} from '../../../engine/parts/capacitor/index.ts'

const derating = DERATING.standard
const like = (text: string): CapacitorRow => CAPACITORS.find((c) => c.partNumber.includes(text))!

function picked(need: Partial<CapacitorNeed>): CapacitorRow {
  const choice = pickCapacitor({ farads: 10e-6, voltage: 12, mounting: 'through-hole', derating, ...need })
  if (!choice.found) throw new Error(choice.because)
  return choice.row
}

describe('the catalogue', () => {
  test('names every part once', () => {
    expect(new Set(CAPACITORS.map((c) => c.partNumber)).size).toBe(CAPACITORS.length)
  })

  test.each(CAPACITORS.map((c) => [c.partNumber, c] as const))('%s is consistent in itself', (_, c) => {
    expect(c.farads).toBeGreaterThan(0)
    expect(c.esr).toBeLessThan(c.esrMax)
    expect(c.esrCold?.ohms ?? Infinity).toBeGreaterThan(c.esrMax)
    expect(c.biasLoss?.full ?? 1).toBeGreaterThan(c.biasLoss?.half ?? 0)
    expect(c.source.length).toBeGreaterThan(10)
  })

  test('of low impedance lets more ripple through larger cases of one voltage', () => {
    const ofCase = CAPACITORS.filter((c) => c.partNumber.startsWith('Nichicon PW') && c.voltage === 35)
    const byEsr = ofCase.toSorted((a, b) => b.esrMax - a.esrMax)
    expect(byEsr.every((c, k) => k === 0 || (c.rippleCurrent ?? 0) >= (byEsr[k - 1]!.rippleCurrent ?? 0))).toBe(true)
  })

  test('holds no case thinner than 4 mm', () => {
    // The thinnest radial case of the series; half a millimetre stood where the source text had lost a digit.
    const thin = CAPACITORS.filter((c) => Number(/radial ([\d.]+) x/u.exec(c.package)?.[1] ?? 4) < 4)
    expect(thin).toEqual([])
  })
})

test('ESR follows from the loss tangent', () => {
  // Nichicon URZ, 25 V: tan(delta) 0.16 at 120 Hz, so 100 uF has 0.16/(2 pi 120 Hz 100 uF) = 2.12 ohm.
  const c = CAPACITORS.find((x) => x.partNumber.startsWith('Nichicon URZ') && x.farads === 1e-4 && x.voltage === 25)!
  expect(c.esrMax).toBeCloseTo(2.122, 3)
  expect(c.esr).toBeCloseTo(1.061, 3)
  // 4700 uF, 6.3 V: tangent 0.28 + 0.08.
  const large = CAPACITORS.find(
    (x) => x.partNumber.startsWith('Nichicon URZ') && x.farads === 4700e-6 && x.voltage === 6.3,
  )!
  expect(large.esrMax * 2 * Math.PI * 120 * 4700e-6).toBeCloseTo(0.36, 9)
})

test('class 2 ceramics lose capacitance with voltage, in straight lines', () => {
  const c = like('X7R 1206 10.0')
  expect(c.voltage).toBe(25)
  expect(capacitanceAt(c, 0)).toBeCloseTo(10e-6, 12)
  expect(capacitanceAt(c, 12.5)).toBeCloseTo(4.5e-6, 12)
  expect(capacitanceAt(c, 6.25)).toBeCloseTo(7.25e-6, 12)
  expect(capacitanceAt(c, 25)).toBeCloseTo(1.5e-6, 12)
  expect(capacitanceAt(c, 40)).toBeCloseTo(1.5e-6, 12)
  expect(capacitanceAt(like('C0G 0603 1.00'), 50)).toBe(1e-9)
})

describe('the pick', () => {
  test('is the smallest whose derated voltage bears it', () => {
    expect(picked({})).toMatchObject({ farads: 10e-6, voltage: 16, kind: 'electrolytic' })
    // 14 V is above 80 % of 16 V.
    expect(picked({ voltage: 14 })).toMatchObject({ farads: 10e-6, voltage: 25 })
    expect(picked({ voltage: 14, derating: DERATING.none })).toMatchObject({ farads: 10e-6, voltage: 16 })
    expect(picked({ farads: 100e-12 })).toMatchObject({ kind: 'class-1-ceramic', mounting: 'through-hole' })
  })

  test('counts what is left of a class 2 ceramic', () => {
    // At 5 V (25 V rated: a fifth) the 10 uF 1206 has 22 % less, not enough for 10 uF; the 22 uF 1210 has 16.7 uF.
    const c = picked({ farads: 10e-6, voltage: 5, mounting: 'surface-mount', kind: 'class-2-ceramic' })
    expect(c.farads).toBe(22e-6)
  })

  test('says what is missing', () => {
    const high = pickCapacitor({ farads: 1e-3, voltage: 90, mounting: 'through-hole', kind: 'electrolytic', derating })
    expect(high).toMatchObject({ found: false, shortage: 'voltage', available: 80 })
    const large = pickCapacitor({ farads: 1e-3, voltage: 5, mounting: 'surface-mount', derating })
    expect(large).toMatchObject({ found: false, shortage: 'capacitance', available: 100e-6 })
  })
})

test('the usable share depends on the kind', () => {
  // Common practice, no source: electrolytics 80 %, class 2 ceramics 60 %.
  expect(capacitorShare('electrolytic', derating)).toBe(0.8)
  expect(capacitorShare('class-2-ceramic', derating)).toBe(0.6)
  expect(capacitorShare('tantalum', derating)).toBe(0.5)
  expect(capacitorShare('film', DERATING.none)).toBe(1)
})

test('a placed capacitor strays in value and ESR', () => {
  const placed = placeCapacitor(picked({}), 'C1', ['out', '0'])
  expect(placed.elements[0]).toMatchObject({ kind: 'capacitor', part: 'C1', farads: 10e-6 })
  expect(placed.tolerances[0]!.effects[0]).toMatchObject({ parameter: 'farads', low: 0.8, high: 1.2 })
  expect(placed.tolerances[1]!.effects[0]).toMatchObject({ parameter: 'esr', low: 0.5, high: 2 })
})
