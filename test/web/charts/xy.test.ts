/** Plots over two quantities: axes, lines and points, from invented details. */
import { describe, expect, it } from 'vitest'
import type { SafeArea } from '../../../engine/analyses/heat/index.ts'
import type { Theme } from '../../../web/look/theme.ts'
import { resistorAxes, resistorPlot } from '../../../web/charts/resistorPower/option.ts'
import { safeAreaAxes, safeAreaPlot } from '../../../web/charts/safeArea/option.ts'
import { xyOption } from '../../../web/charts/xy/option.ts'
import { along, logTicks, roundUp125 } from '../../../web/charts/xy/plot.ts'

const theme = new Proxy({}, { get: (_, name) => `colour of ${String(name)}` }) as unknown as Theme

const point = { volts: 12, amperes: 0.08, caseTemperature: 90, allowed: 0.3, thermal: 'settled' } as const
const condition = { input: 30, load: 0.08, ambient: 50 }
const edge = {
  volts: [1, 10, 80],
  amperes: [1.5, 0.8, 0.03],
  bounds: ['current', 'power', 'second-breakdown'] as const,
}
const area: SafeArea = {
  part: 'Q1',
  partNumber: 'BD139',
  source: 'a sheet',
  envelopes: (['maker', 'hot', 'policy'] as const).map((of, k) => ({
    of,
    caseTemperature: k === 0 ? 25 : 90,
    volts: [...edge.volts],
    amperes: edge.amperes.map((i) => i / (k + 1)),
    bounds: [...edge.bounds],
  })),
  points: [
    { of: 'corner', ...point, condition },
    { of: 'worst', ...point, amperes: 0.09, condition },
    { of: 'corner', ...point, amperes: 2e-6, condition },
    { of: 'short', ...point, volts: 30, amperes: 1.6, thermal: 'cold', condition },
  ],
}

describe('log axes', () => {
  it('have ticks at 1, 2 and 5, and decades alone where these are too many', () => {
    expect(logTicks(1, 50)).toEqual([1, 2, 5, 10, 20, 50])
    expect(logTicks(1e-3, 10)).toEqual([1e-3, 1e-2, 0.1, 1, 10])
    expect([0.3, 1, 11, 60].map(roundUp125)).toEqual([0.5, 1, 20, 100])
    expect(along({ isLog: true, min: 1, max: 100, ticks: [] }, 10)).toBeCloseTo(0.5, 12)
  })
})

describe('the safe area', () => {
  const axes = safeAreaAxes([area])
  const plot = safeAreaPlot('series-pass', area, axes, theme)

  it('holds every edge and every point that is drawn, and leaves out currents too small for it', () => {
    expect(plot.points).toHaveLength(3)
    for (const { x, y } of plot.points) {
      expect(along(axes.x, x)).toBeGreaterThanOrEqual(0)
      expect(along(axes.x, x)).toBeLessThanOrEqual(1)
      expect(along(axes.y, y)).toBeGreaterThanOrEqual(0)
      expect(along(axes.y, y)).toBeLessThanOrEqual(1)
    }
    for (const { points } of plot.lines)
      for (const [x, y] of points) expect(along(axes.x, x) <= 1 && along(axes.y, y) <= 1).toBe(true)
  })

  it('marks points as its topology, the worst filled, the short by a cross', () => {
    expect(plot.points.map(({ shape, isFilled }) => [shape, isFilled])).toEqual([
      ['triangle', false],
      ['triangle', true],
      ['cross', false],
    ])
    expect(plot.points[2]!.label).toMatch(/first moment/u)
  })

  it('redraws numbers alone where only numbers differ', () => {
    const moved = safeAreaPlot(
      'series-pass',
      { ...area, points: area.points.map((p) => ({ ...p, volts: 13 })) },
      axes,
      theme,
    )
    const [one, other] = [plot, moved].map((each) => xyOption(each, 'white'))
    expect(other!.structure).toBe(one!.structure)
    expect(other!.ends).toBe(one!.ends)
    expect(other!.numbers).not.toEqual(one!.numbers)
  })
})

describe('resistors', () => {
  const curve = {
    part: 'R1',
    partNumber: 'MF 0.5 W',
    ohms: 1300,
    source: 'a sheet',
    power: 0.5,
    derateFrom: 70,
    zeroPowerAt: 155,
    share: 0.5,
    points: [
      { of: 'nominal', ambient: 0, power: 0.1, allowed: 0.25 },
      { of: 'worst', ambient: 50, power: 0.15, allowed: 0.25 },
    ],
  } as const

  it('stand on one pair of lines for each kind, as a share of their rating', () => {
    const curves = [curve, { ...curve, part: 'R2', power: 1 }].map((c) => ({ ...c, points: [...c.points] }))
    const axes = resistorAxes(curves)
    const plot = resistorPlot('shunt', curves, axes, theme)
    expect(plot.lines).toHaveLength(2)
    expect(plot.lines[1]!.points).toEqual([
      [axes.x.min, 50],
      [70, 50],
      [155, 0],
    ])
    expect(plot.points.map(({ y }) => y)).toEqual([20, 30, 10, 15])
    expect(axes.x.max).toBeGreaterThanOrEqual(155)
    expect(axes.y.max).toBe(100)
  })
})
