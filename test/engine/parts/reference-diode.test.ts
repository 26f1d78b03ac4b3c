import { describe, expect, test } from 'vitest'
import type { DiodeModel } from '../../../engine/devices/elements.ts'
import type { Effect } from '../../../engine/parts/define.ts'
import {
  DIODES,
  diodeModel,
  diodePowerAt,
  diodesFor,
  diodeTolerances,
  findDiode,
  NOMINAL_IMPEDANCE,
  placeDiode,
  type DiodeRow,
} from '../../../engine/parts/reference-diode/index.ts'

/** Terminal voltage cathode over anode at a breakdown current, from the equation stated for the diode, by bisection of the junction. */
function breakdownVoltage(m: DiodeModel, current: number, celsius: number): number {
  const vt = (1.380649e-23 / 1.602176634e-19) * (celsius + 273.15)
  const bv = m.BV + m.tc * (celsius - m.TNOM)
  const through = (reverse: number): number =>
    m.IS * (1 - Math.exp(-reverse / (m.N * vt))) +
    m.IBV * (Math.exp((reverse - bv) / (m.NBV * vt)) - Math.exp(-bv / (m.NBV * vt)))
  let low = 0
  let high = 2 * bv
  for (let k = 0; k < 200; k += 1) {
    const middle = (low + high) / 2
    if (through(middle) < current) low = middle
    else high = middle
  }
  return low + m.RS * current
}

/** Ohms at a current, by a central difference of 1 % either way. */
function impedance(m: DiodeModel, current: number): number {
  const up = breakdownVoltage(m, 1.01 * current, m.TNOM)
  return (up - breakdownVoltage(m, 0.99 * current, m.TNOM)) / (0.02 * current)
}

/** e^(-BV/(NBV·VT)) at TNOM: the share of IBV that the equation subtracts so that no voltage means no current. Only 2 to 4 V diodes show it. */
function softness(m: DiodeModel): number {
  return Math.exp(-m.BV / (m.NBV * (1.380649e-23 / 1.602176634e-19) * (m.TNOM + 273.15)))
}

/** The model with effects added at u = -1 or +1. */
function atCorner(m: DiodeModel, effects: readonly Effect[], u: -1 | 1): DiodeModel {
  const changed: Record<string, number> = { ...m }
  for (const e of effects) {
    expect(e.how).toBe('add')
    changed[e.parameter] = (changed[e.parameter] ?? NaN) + (u < 0 ? e.low : e.high)
  }
  return changed as unknown as DiodeModel
}

function effectsOf(row: DiodeRow, quantity: string): readonly Effect[] {
  return diodeTolerances(row, 'D1', 'D1').find((t) => t.id === `D1.${quantity}`)!.effects
}

const row = (partNumber: string): DiodeRow => findDiode(partNumber)!

describe('the catalogue', () => {
  test('lists nine families with their part numbers once each', () => {
    expect(new Set(DIODES.map((d) => d.family)).size).toBe(9)
    expect(new Set(DIODES.map((d) => d.partNumber)).size).toBe(DIODES.length)
    expect(DIODES).toHaveLength(356)
  })

  // Invariants of the registered types: the trade's own rules of rating, checked over all rows (common practice, no source).
  test.each(DIODES.map((d) => [d.partNumber, d] as const))('%s is consistent in itself', (_, d) => {
    expect(d.vz.min).toBeLessThan(d.vz.nominal)
    expect(d.vz.max).toBeGreaterThan(d.vz.nominal)
    expect(d.leakage.voltage).toBeLessThan(d.vz.min)
    const tightness = (d.vz.max - d.vz.min) / 2 / d.vz.nominal
    expect(tightness).toBeLessThan(d.family.startsWith('BZX') ? 0.085 : 0.0525)
    expect(d.knee.current).toBeLessThan(d.test.current)
    expect(d.knee.impedance).toBeGreaterThan(d.test.impedance)
    const fullPower = (d.currentMax * d.vz.nominal) / d.power
    expect(fullPower).toBeGreaterThan(0.8)
    expect(fullPower).toBeLessThan(1.06)
    const testPower = (d.test.current * d.vz.nominal) / d.power
    const [least, most] = TEST_POWER[d.family]!
    expect(testPower).toBeGreaterThanOrEqual(least)
    expect(testPower).toBeLessThanOrEqual(most)
    expect(d.tempco.min).toBeLessThan(d.tempco.typ)
    expect(d.tempco.typ).toBeLessThan(d.tempco.max)
    expect(d.source.length).toBeGreaterThan(10)
    expect(d.note.length).toBeGreaterThan(10)
  })

  // A quarter of the rating where the registration says so; 59xx currents are a quarter of 1.5 W; BZX has fixed 5 and 2 mA.
  const TEST_POWER: Readonly<Record<string, readonly [number, number]>> = {
    '1N52xxB': [0.096, 0.48],
    MMSZ52xxB: [0.096, 0.48],
    BZX55C: [0.024, 0.375],
    BZX79C: [0.024, 0.3],
    '1N47xxA': [0.246, 0.259],
    '1N59xxB': [0.123, 0.127],
    '1N53xxB': [0.2, 0.3],
    '1SMA59xxB': [0.248, 0.251],
    '1SMB59xxB': [0.123, 0.127],
  }

  test.each([...new Set(DIODES.map((d) => d.family))])('%s rises in voltage while its test current falls', (family) => {
    const rows = DIODES.filter((d) => d.family === family)
    const before = rows.slice(0, -1)
    expect(before.every((d, k) => d.vz.nominal < rows[k + 1]!.vz.nominal)).toBe(true)
    expect(before.every((d, k) => d.test.current >= rows[k + 1]!.test.current)).toBe(true)
  })

  test('flags what is doubtful', () => {
    // The contradictions of the published sheets, each visible where the row is shown.
    expect(row('1N4742A').note).toMatch(/zero at 200 degC while Tj max is 175/u)
    expect(row('1N5242B').note).toMatch(/zero power at 175 degC, not 200/u)
    expect(row('1N5918B').note).toMatch(/ZZK differs between makers/u)
    expect(row('1N5933B').note).toMatch(/17\.5 ohm/u)
    expect(row('1N5936B').note).toMatch(/28 ohm/u)
    expect(row('1N5927B').note).toMatch(/doubled here for 3 W/u)
    expect(row('1SMA5925B').note).toMatch(/IR 50 uA/u)
    expect(row('MMSZ5242B').note).toMatch(/taken as uA/u)
    expect(row('BZX79C39').memoryFields).toContain('tempco.max')
    expect(row('1N4762A').note).toMatch(/sibling/u)
    expect(row('1N5349B').note).toMatch(/tempco not published/u)
    expect(row('BZX55C12').note).not.toMatch(/tempco/u)
    for (const d of DIODES) expect(d.memoryFields).toContain('referenceTemperature')
  })
})

describe('the model', () => {
  test.each(DIODES.map((d) => [d.partNumber, d] as const))('of %s gives its sheet back', (_, d) => {
    const m = diodeModel(d)
    expect(m.RS).toBeGreaterThanOrEqual(0)
    expect(Math.abs(breakdownVoltage(m, d.test.current, m.TNOM) - d.vz.nominal)).toBeLessThan(1e-3)
    const zzt = impedance(m, d.test.current)
    expect(Math.abs(zzt / (NOMINAL_IMPEDANCE * d.test.impedance) - 1)).toBeLessThan(1e-4 + 1.1 * softness(m))
    const zzk = impedance(m, d.knee.current) / (NOMINAL_IMPEDANCE * d.knee.impedance)
    // Where RS is held at 0 the knee is softer than the sheet's limit, never harder.
    // That share matters more at the knee, whose current is the smaller by IZT/IZK.
    const error = 1e-4 + 1.1 * softness(m) * (d.test.current / d.knee.current)
    expect(zzk).toBeLessThan(1 + error)
    expect(m.RS > 0 ? zzk : 1).toBeGreaterThan(1 - error)
    expect(zzk).toBeGreaterThan(0)
  })

  test('counts the heat of an equilibrium measurement once', () => {
    // 1N4743A: leads at 30 degC and 13 V at 19 mA through 100 K/W make 54.7 degC.
    expect(diodeModel(row('1N4743A')).TNOM).toBeCloseTo(30 + 13 * 0.019 * 100, 9)
    expect(diodeModel(row('BZX55C12')).TNOM).toBe(25)
    // Run at the test point with its leads at 30 degC the diode must show its nominal voltage.
    const d = row('1N5927B')
    const m = diodeModel(d)
    expect(breakdownVoltage(m, d.test.current, 30 + 41.7 * 12 * 0.0312)).toBeCloseTo(12, 4)
  })

  test('turns tempco into volts per kelvin at the nominal voltage', () => {
    // BZX55C12: 0.03 to 0.11 %/K, middle 0.07: 8.4 mV/K (Vishay 85604).
    expect(diodeModel(row('BZX55C12')).tc).toBeCloseTo(8.4e-3, 9)
    const m = diodeModel(row('BZX55C12'))
    expect(breakdownVoltage(m, 5e-3, 35) - breakdownVoltage(m, 5e-3, 25)).toBeCloseTo(0.084, 3)
  })
})

describe('the tolerances', () => {
  test.each(DIODES.map((d) => [d.partNumber, d] as const))('of %s run from low to high and meet the sheet', (_, d) => {
    const m = diodeModel(d)
    const I = d.test.current
    for (const tolerance of diodeTolerances(d, 'D1', 'D1')) {
      expect(tolerance.part).toBe('D1')
      for (const e of tolerance.effects) expect(e.low * e.high).toBeLessThan(0)
    }
    const vz = effectsOf(d, 'Vz')
    expect(breakdownVoltage(atCorner(m, vz, -1), I, m.TNOM)).toBeCloseTo(d.vz.min, 3)
    expect(breakdownVoltage(atCorner(m, vz, 1), I, m.TNOM)).toBeCloseTo(d.vz.max, 3)
    const zz = effectsOf(d, 'Zz')
    for (const [u, share] of [
      [-1, 0.25],
      [1, 1],
    ] as const) {
      const corner = atCorner(m, zz, u)
      const error = softness(corner)
      expect(Math.abs(impedance(corner, I) / (share * d.test.impedance) - 1)).toBeLessThan(1e-4 + 1.1 * error)
      const shift = Math.abs(breakdownVoltage(corner, I, m.TNOM) - d.vz.nominal)
      expect(shift).toBeLessThan(1e-4 + share * d.test.impedance * I * 1.1 * error)
      expect(corner.RS).toBeGreaterThanOrEqual(0)
    }
    const tc = effectsOf(d, 'TC')
    expect(atCorner(m, tc, 1).tc).toBeCloseTo(d.tempco.max * d.vz.nominal, 12)
    expect(atCorner(m, tc, -1).tc).toBeCloseTo(d.tempco.min * d.vz.nominal, 12)
  })

  test('of impedance keep Vz at the test current between the corners too', () => {
    const d = row('1N5242B')
    const m = diodeModel(d)
    const half = effectsOf(d, 'Zz').map((e) => Object.assign({}, e, { low: e.low / 2, high: e.high / 2 }))
    expect(breakdownVoltage(atCorner(m, half, 1), d.test.current, m.TNOM)).toBeCloseTo(12, 6)
  })
})

test('a placed diode is one element named as its part', () => {
  const placed = placeDiode(row('1N4743A'), 'D2', ['0', 'base'])
  expect(placed.elements).toHaveLength(1)
  expect(placed.elements[0]).toMatchObject({ id: 'D2', part: 'D2', kind: 'diode', nodes: ['0', 'base'] })
  expect(placed.tolerances.map((t) => t.id)).toEqual(['D2.Vz', 'D2.Zz', 'D2.TC'])
})

test('in still air the headline power is not there', () => {
  // 1N47xxA: (175 - 25)/175 K/W; 1N5349B: (150 - 25)/85 K/W, not 5 W.
  expect(diodePowerAt(row('1N4742A'), 25)).toBeCloseTo(0.857, 3)
  expect(diodePowerAt(row('1N5349B'), 25)).toBeCloseTo(1.47, 2)
  expect(diodePowerAt(row('BZX55C12'), 25)).toBeCloseTo(0.5, 6)
  expect(diodePowerAt(row('BZX55C12'), 180)).toBe(0)
  expect(diodePowerAt(row('BZX55C12'), 50, 125)).toBeCloseTo(0.25, 6)
})

test('a query gives the fitting diodes in rising voltage, the smaller first', () => {
  const found = diodesFor({ vzMin: 11.5, vzMax: 13, mounting: 'through-hole' })
  expect(found.map((d) => d.vz.nominal)).toEqual(found.map((d) => d.vz.nominal).toSorted((a, b) => a - b))
  expect(found.every((d) => d.mounting === 'through-hole')).toBe(true)
  expect(found.slice(0, 6).map((d) => d.partNumber)).toEqual([
    'BZX55C12',
    'BZX79C12',
    '1N5242B',
    '1N4742A',
    '1N5927B',
    '1N5349B',
  ])
  expect(diodesFor({ vzMin: 12, vzMax: 12, mounting: 'any', current: 0.1 }).map((d) => d.partNumber)).toEqual([
    '1SMA5927B',
    '1N5927B',
    '1SMB5927B',
    '1N5349B',
  ])
  expect(findDiode('1N9999')).toBeUndefined()
})
