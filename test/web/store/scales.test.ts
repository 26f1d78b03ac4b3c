import { describe, expect, it } from 'vitest'
import { decadeScale, inputScale, linearTicks, logTicks, roomyScale } from '../../../web/store/scales.ts'

describe('scales', () => {
  it('leave room on both sides of the input range and start at 0 V at the least', () => {
    for (const [min, max] of [
      [8.6, 13.8],
      [21.5, 26.5],
      [1, 100],
      [5, 5],
      [3, 30],
    ] as const) {
      const scale = inputScale(min, max)
      expect(scale.min).toBeLessThan(min)
      expect(scale.max).toBeGreaterThan(max)
      expect(scale.min).toBeGreaterThanOrEqual(0)
      expect(linearTicks(scale).length).toBeGreaterThanOrEqual(3)
      expect(linearTicks(scale).length).toBeLessThanOrEqual(9)
    }
  })

  it('hold a band that has no width', () => {
    const scale = roomyScale(25, 25, 0.2)
    expect(scale.min).toBeLessThan(25)
    expect(scale.max).toBeGreaterThan(25)
  })

  it('put ticks on multiples of 1, 2 or 5', () => {
    expect(linearTicks({ min: 5, max: 16 })).toEqual([6, 8, 10, 12, 14, 16])
    expect(linearTicks({ min: -20, max: 60 }, 4)).toEqual([-20, 0, 20, 40, 60])
    expect(linearTicks({ min: 4.7, max: 5.3 }, 3)).toEqual([4.8, 5, 5.2])
  })

  it('run over whole decades of current, 0 included', () => {
    expect(decadeScale(0.004, 0.18)).toEqual({ min: 0.001, max: 1 })
    expect(decadeScale(0.01, 0.1)).toEqual({ min: 0.001, max: 1 })
    const fromZero = decadeScale(0, 0.05)
    expect(fromZero.min).toBeGreaterThan(0)
    expect(logTicks({ min: 0.001, max: 1 })).toEqual([0.001, 0.01, 0.1, 1])
  })
})
