import { describe, expect, test } from 'vitest'
import {
  heatsinkResistanceAt,
  HEATSINKS,
  interfaceOf,
  interfaceResistance,
  INTERFACES,
  pickHeatsink,
} from '../../../engine/parts/heatsink/index.ts'

function picked(housing: string, required: number): string {
  const choice = pickHeatsink({ package: housing, required })
  return choice.found ? choice.row.partNumber : `no ${choice.shortage}`
}

function volume(h: { readonly footprint: number; readonly height: number }): number {
  return h.footprint * h.height
}

test('the catalogue holds still air alone, each sink once', () => {
  expect(new Set(HEATSINKS.map((h) => h.partNumber)).size).toBe(HEATSINKS.length)
  expect(HEATSINKS.filter((h) => /forced/u.test(h.condition))).toEqual([])
  for (const h of HEATSINKS) {
    expect(h.packages).toContain(h.package)
    expect(h.thermalResistance).toBeGreaterThan(0)
    expect(h.footprint * h.height).toBeGreaterThan(0)
  }
})

describe('the pick', () => {
  test('is the smallest that is cool enough', () => {
    expect(picked('TO-126', 30)).toMatch(/28 K\/W/u)
    expect(picked('TO-126', 28)).toMatch(/28 K\/W/u)
    expect(picked('TO-126', 27)).toMatch(/24 K\/W/u)
    expect(picked('TO-220', 5)).toMatch(/SK 499|5 K\/W/u)
    const choice = pickHeatsink({ package: 'TO-220', required: 7 })
    if (!choice.found) throw new Error(choice.because)
    const others = HEATSINKS.filter((h) => h.packages.includes('TO-220') && h.thermalResistance <= 7)
    expect(volume(choice.row)).toBe(Math.min(...others.map(volume)))
  })

  test('says what is missing', () => {
    expect(picked('TO-92', 50)).toBe('no package')
    const none = pickHeatsink({ package: 'TO-220', required: 0.1 })
    expect(none).toMatchObject({ found: false, shortage: 'thermalResistance', available: 0.65 })
    expect(pickHeatsink({ package: 'TO-220', required: -3 })).toMatchObject({
      because: expect.stringMatching(/alone already exceed/u),
    })
  })
})

test('a sink with a curve gets better with heat', () => {
  // Boyd 5750 data sheet, read from the plot within 10 %: 18, 14.3 and 12.5 K/W at 2, 4 and 6 W.
  const boyd = HEATSINKS.find((h) => h.partNumber === 'Boyd 5750')!
  expect(heatsinkResistanceAt(boyd, 1)).toBe(18)
  expect(heatsinkResistanceAt(boyd, 2)).toBe(18)
  expect(heatsinkResistanceAt(boyd, 3)).toBeCloseTo(16.15, 9)
  expect(heatsinkResistanceAt(boyd, 6)).toBe(12.5)
  expect(heatsinkResistanceAt(boyd, 20)).toBe(12.5)
  expect(
    heatsinkResistanceAt(
      HEATSINKS.find((h) => h.partNumber.includes('28 K/W'))!,
      3,
    ),
  ).toBe(28)
})

describe('between case and sink', () => {
  test('grease beats dry metal and isolation costs', () => {
    // Motorola AN1040 table 1, from memory.
    expect(interfaceResistance('TO-126')).toBe(1.3)
    expect(interfaceResistance('TO-126', true)).toBe(3.3)
    expect(interfaceResistance('TO-220')).toBe(1)
    expect(interfaceResistance('TO-3')).toBe(0.1)
    for (const housing of ['TO-220', 'TO-3', 'TO-126']) {
      const metal = INTERFACES.filter((r) => r.package === housing && !r.isolated && r.material.includes('dry'))
      expect(metal[0]!.thermalResistance).toBeGreaterThan(interfaceResistance(housing))
      expect(interfaceResistance(housing, true)).toBeGreaterThan(interfaceResistance(housing))
    }
  })

  test('a package without a tab takes no heatsink', () => {
    expect(interfaceResistance('TO-92')).toBe(Infinity)
    expect(interfaceOf('TO-92')).toBeUndefined()
  })

  test('a pad is its specific resistance over the contact area', () => {
    // Laird Tgard 5000: 0.4 K in2/W under a clip; 0.24 in2 of a TO-220 (assumption) make 1.67 K/W.
    const pad = INTERFACES.find((r) => r.package === 'TO-220' && r.material.includes('clip'))!
    expect(pad.thermalResistance).toBe(1.67)
    expect(pad.confidence).toBe('derived')
  })
})
