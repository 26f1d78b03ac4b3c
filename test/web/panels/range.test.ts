/** The input range in words, plots and tables, from invented trades. */
import { describe, expect, it } from 'vitest'
import type { MarginalCost, Trade, TradeDesign, TradePoint } from '../../../engine/explore/trade.ts'
import { designColumns, valueAt } from '../../../web/charts/columns.ts'
import { BOX, sharesAt, stackAreas, stackAxis } from '../../../web/charts/heatByInput/stack.ts'
import { tradePlot } from '../../../web/charts/trade/option.ts'
import type { Theme } from '../../../web/look/theme.ts'
import { heatNumbers, tradeNumbers } from '../../../web/panels/range/tables.ts'
import { costFinding, costSentence } from '../../../web/panels/range/words.ts'
import { rangeFinding } from '../../../web/screens/range/finding.ts'
import { sampleAnswer } from '../../fixtures/answers/sample.ts'

const theme = new Proxy({}, { get: (_, name) => `colour of ${String(name)}` }) as unknown as Theme
const plain = (text: string | undefined) => text?.replaceAll('\u202F', ' ')

const design = (topology: TradeDesign['topology'], heat: number, more: Partial<TradeDesign> = {}): TradeDesign => ({
  topology,
  variant: 'plain',
  meets: true,
  missed: 0,
  heat,
  efficiency: 0.5,
  efficiencyAtHighest: 0.4,
  partNumbers: {},
  ...more,
})
const point = (input: number, ...designs: TradeDesign[]): TradePoint => ({ input, designs })
const clip = { partNumber: 'a clip', thermalResistance: 24 }
const unbuilt: TradeDesign = { topology: 'feedback', variant: 'plain', meets: false, missed: 1, partNumbers: {} }

const points = [
  point(13, design('shunt', 1), design('series-pass', 0.5), unbuilt),
  point(14, design('shunt', 1.5), design('series-pass', 0.56), design('feedback', 0.5)),
  point(
    15,
    design('shunt', 2.1, { heatsink: clip }),
    design('series-pass', 0.62, { meets: false }),
    design('feedback', 0.55),
  ),
]
const cost = (
  topology: TradeDesign['topology'],
  heatPerVolt: number,
  more: Partial<MarginalCost> = {},
): MarginalCost => ({
  topology,
  direction: 'outward',
  from: 14,
  to: 15,
  heatPerVolt,
  efficiencyPerVolt: -0.0152,
  changesHeatsink: false,
  changesVariant: false,
  changesVerdict: false,
  changedParts: [],
  ...more,
})
const costs = [
  cost('shunt', 0.6, { changesHeatsink: true }),
  cost('series-pass', 0.061, { changesVerdict: true }),
  cost('feedback', 0.05),
]
const trade: Trade = { end: 'max', present: 14, step: 1, points, costs }

describe('what a volt costs', () => {
  it('is said per volt, with what else changes at the other end of the step', () => {
    expect(plain(costSentence(costs[2]!, 'max', points))).toBe(
      'Each volt above 14.0 V costs 50.0 mW of worst heat and 1.52 points of efficiency.',
    )
    expect(plain(costSentence(costs[0]!, 'max', points))).toBe(
      'Each volt above 14.0 V costs 600 mW of worst heat and 1.52 points of efficiency; at 15.0 V: a heatsink of 24.0 K/W.',
    )
    expect(plain(costSentence(costs[1]!, 'max', points))).toContain('; at 15.0 V: it falls short.')
    const other = cost('feedback', 0.05, { changedParts: ['Q1', 'U1'], efficiencyPerVolt: 1e-5 })
    expect(plain(costSentence(other, 'max', points))).toBe(
      'Each volt above 14.0 V costs 50.0 mW of worst heat; at 15.0 V: another Q1 and U1.',
    )
  })

  it('goes the other way at the lowest input, may save, and leaves out an efficiency that stays', () => {
    const saves = cost('shunt', -0.004, { efficiencyPerVolt: 0 })
    expect(plain(costSentence(saves, 'min', points))).toBe('Each volt below 14.0 V saves 4.00 mW of worst heat.')
    const inward = cost('shunt', 0.5, { direction: 'inward', to: 13 })
    expect(plain(costSentence(inward, 'max', points))).toBe(
      'The last volt below 14.0 V costs 500 mW of worst heat and 1.52 points of efficiency.',
    )
  })

  it('heads the screen, the cheapest first', () => {
    expect(plain(costFinding(costs, 'max'))).toBe(
      'Each volt above 14.0 V costs feedback 50.0 mW, series-pass 61.0 mW and shunt 600 mW of heat.',
    )
    expect(costFinding([], 'max')).toBeUndefined()
  })

  it('is foreshadowed by how far the heat goes until it is known', () => {
    const answer = sampleAnswer()
    expect(plain(rangeFinding(answer, undefined))).toMatch(
      /^From [\d.]+ V to [\d.]+ V at full load the heat goes in shunt from .+ to .+, series-pass from .+, feedback from .+\.$/u,
    )
    expect(plain(rangeFinding(answer, trade))).toMatch(/^Each volt above 14.0 V costs/u)
  })
})

describe('the plots of the trade', () => {
  it('mark what is required now, fill the designs as they are, and cross what falls short', () => {
    const { plot } = tradePlot('heat', 'max', points, 14, theme)!
    expect(plot.lines.at(-1)!.points.map(([x]) => x)).toEqual([14, 14])
    expect(plot.points.filter(({ isFilled }) => isFilled).map(({ x }) => x)).toEqual([14, 14, 14])
    expect(plot.points.filter(({ shape }) => shape === 'cross').map(({ x, y }) => [x, y])).toEqual([[15, 0.62]])
    // what cannot be built is not drawn
    expect(plot.lines[2]!.points.map(([x]) => x)).toEqual([14, 15])
    expect(plain(plot.description)).toContain('required now: 14.0 V')
  })

  it('put designs without a heatsink on a line of their own, and leave the plot out where none has one', () => {
    const { plot } = tradePlot('heatsink', 'max', points, 14, theme)!
    const none = plot.y.ticks.at(-1)!
    expect(none.text).toBe('none')
    expect(plot.lines[0]!.points).toEqual([
      [13, none.value],
      [14, none.value],
      [15, 24],
    ])
    expect(none.value).toBeGreaterThan(24)
    expect(tradePlot('heatsink', 'max', points.slice(0, 2), 14, theme)).toBeUndefined()
  })

  it('have a table with every point', () => {
    const { head, rows } = tradeNumbers(points, 14)
    expect(head).toHaveLength(16)
    expect(rows.map((row) => plain(row[0]))).toEqual(['13.0 V', '14.0 V, now', '15.0 V'])
    expect(rows[0]!.slice(11)).toEqual(['cannot be built', '–', '–', '–', '–'])
    expect(rows[2]!.slice(1, 6)).toEqual(['meets', '2.10', '40.0', '50.0', '24.0'])
    expect(rows[2]![6]).toBe('falls short')
    expect(rows[1]![5]).toBe('none')
  })
})

describe('heat by part', () => {
  const columns = designColumns(sampleAnswer())
  const volts = { min: 10, max: 15 }

  it('has one axis for all designs, and areas that add up to the heat', () => {
    const axis = stackAxis(columns, volts)
    for (const one of columns) {
      const areas = stackAreas(one, volts, axis)
      expect(areas.map(({ label }) => label)).toEqual(one.shares.map(({ label }) => label))
      // the first point of the last area lies on the whole heat
      const [, x, y] = /^M([\d.]+) ([\d.]+)/u.exec(areas.at(-1)!.path)!
      const at = volts.min + (Number(x) / BOX.width) * (volts.max - volts.min)
      const heat = valueAt(one.input['x']!, one.input['heat'], at)
      expect((1 - Number(y) / BOX.height) * axis.max).toBeCloseTo(heat, 2)
      const parts = sharesAt(one, 12)
      expect(parts.reduce((sum, { watts }) => sum + watts, 0)).toBeCloseTo(
        valueAt(one.input['x']!, one.input['heat'], 12),
        9,
      )
    }
  })

  it('leaves a gap where a point has no solution', () => {
    const [first] = columns
    const middle = first!.input['x']!.findIndex((x) => x > 12)
    const holed = {
      ...first!,
      input: { ...first!.input, stack0: first!.input['stack0']!.map((v, k) => (k === middle ? NaN : v)) },
    }
    const [area] = stackAreas(holed, volts, stackAxis(columns, volts))
    expect(area!.path.match(/M/gu)).toHaveLength(2)
  })

  it('is a table of every fourth voltage', () => {
    const { head, rows } = heatNumbers(columns[0]!)
    expect(head[0]).toBe('Input, V')
    expect(head.at(-1)).toBe('Together, W')
    expect(rows).toHaveLength(Math.ceil(columns[0]!.input['x']!.length / 4))
    expect(rows[0]).toHaveLength(head.length)
  })
})
