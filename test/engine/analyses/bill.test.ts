/** Cost and area of invented part lists whose sums are done by hand, and of real designs. */
import { describe, expect, it } from 'vitest'
import { billOf } from '../../../engine/analyses/bill/index.ts'
import type { Assumptions } from '../../../engine/requirements/study.ts'
import type { DesignPart } from '../../../engine/topologies/define.ts'

const NONE: Assumptions = { environment: 'ground-fixed', quality: 'commercial', prices: {}, areas: {} }
const part = (id: string, partNumber?: string): DesignPart => ({
  id,
  role: '',
  limits: [],
  ...(partNumber === undefined ? {} : { partNumber }),
})
const small = { parts: [part('R1', 'MF 0.25 W'), part('R2', 'MF 0.25 W'), part('Q1', 'BC547B')] }

describe('the bill', () => {
  it('adds up the prices and areas of the catalogue', () => {
    const { cost, area } = billOf(small, NONE)
    // 2 x 0.01 + 0.05 EUR; 2 x 12.26 x 3.00 + 5.46 x 4.74 mm²
    expect(cost).toEqual({ total: expect.closeTo(0.07, 12), known: expect.closeTo(0.07, 12), counted: 3, of: 3 })
    expect(area.total! * 1e6).toBeCloseTo(2 * 36.78 + 25.88, 2)
  })

  it('marks every number of the catalogue with its source, and prices as assumptions', () => {
    for (const { price, area } of billOf(small, NONE).lines) {
      expect(price).toMatchObject({ isOwn: false, confidence: 'assumption', quantity: 100 })
      expect(area).toMatchObject({ isOwn: false, confidence: 'read', source: expect.stringContaining('IPC-7351') })
    }
  })

  it("puts the study's own number in the place of the catalogue's, for every part of the kind, and says so", () => {
    const own = { ...NONE, prices: { 'resistor-small': 0.2 } }
    const { lines, cost } = billOf(small, own)
    expect(cost.total).toBeCloseTo(0.45, 12)
    expect(lines[0]!.price).toEqual({
      name: 'resistor-small',
      value: 0.2,
      catalogue: 0.01,
      isOwn: true,
      source: 'entered in the study',
      confidence: 'assumption',
    })
    expect(lines[1]!.price).toMatchObject({ value: 0.2, isOwn: true })
    expect(lines[2]!.price).toMatchObject({ value: 0.05, isOwn: false })
  })

  it('has no total where a price is missing, and takes it for nothing only where the study says so', () => {
    const parts = { parts: [...small.parts, part('C1', 'Nichicon XK 100\u202fnF 250\u202fV')] }
    const without = billOf(parts, NONE).cost
    expect(without).toEqual({ known: expect.closeTo(0.07, 12), counted: 3, of: 4 })
    expect('total' in without).toBe(false)
    expect(billOf(parts, { ...NONE, prices: { 'film-other': 0 } }).cost).toMatchObject({
      total: expect.closeTo(0.07, 12),
      counted: 4,
    })
  })

  it('counts a part that is not in the catalogue as missing', () => {
    const { lines, cost, area } = billOf({ parts: [part('X1', 'NOT-A-PART'), part('X2')] }, NONE)
    expect(lines).toEqual([{ part: 'X1' }, { part: 'X2' }])
    expect([cost, area]).toEqual([
      { known: 0, counted: 0, of: 2 },
      { known: 0, counted: 0, of: 2 },
    ])
  })

  it('gives a heatsink the footprint of its own row', () => {
    const parts = { parts: [part('HS1', 'TO-220 class 8 K/W, extruded 35x13x63.5 mm')] }
    const [line] = billOf(parts, NONE).lines
    expect(line!.area!.value! * 1e6).toBeCloseTo(35 * 13, 6)
    expect(line!.price).toMatchObject({ name: 'heatsink-5k', value: 1.5 })
    expect(billOf(parts, { ...NONE, areas: { 'heatsink-5k': 0 } }).area.total).toBe(0)
  })
})
