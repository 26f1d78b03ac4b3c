/** Every plot, over the list in `column.ts`: a new chart is tested here before it has a test of its own. Data are invented. */
import { describe, expect, it } from 'vitest'
import type { Answer } from '../../../engine/compare/comparison.ts'
import { allPlots, plotSource, TICKS_AFTER } from '../../../web/charts/column.ts'
import { designColumns, valueAt } from '../../../web/charts/columns.ts'
import { voltsAfterKey, voltsAt } from '../../../web/charts/cursorStep.ts'
import { layoutOf } from '../../../web/charts/layout.ts'
import { axisTicks, frameOf } from '../../../web/charts/frame.ts'
import { columnOption, datasetIndex } from '../../../web/charts/option.ts'
import { partCountPlot } from '../../../web/charts/partCount/option.ts'
import { axisPrefix, figureText, labelText, tickText } from '../../../web/charts/plot.ts'
import { plotTable } from '../../../web/charts/plotTable.ts'
import { readoutsOf } from '../../../web/charts/readout.ts'
import { extentOf, roundAxis, spreadLabels } from '../../../web/charts/scale.ts'
import type { Theme } from '../../../web/look/theme.ts'
import { sampleAnswer } from '../../fixtures/answers/sample.ts'

const theme = new Proxy({}, { get: (_, key) => `colour-${String(key)}` }) as Theme
const scale = { min: 5, max: 16 }

function drawn(answer: Answer) {
  const source = plotSource(answer, designColumns(answer), scale, theme)
  const plots = allPlots(source)
  const layout = layoutOf(plots, TICKS_AFTER)
  return { source, plots, layout, model: columnOption(plots, layout, source) }
}

/** Every third point failed, in every design. */
function withFailures(): Answer {
  const answer = sampleAnswer()
  for (const curves of answer.curves) {
    for (const table of [curves!.byInput, curves!.byLoad]) {
      for (let i = 0; i < table.axis.length; i += 3) {
        table.outcome[i] = 2
        for (const column of Object.values(table.columns)) column[i] = Number.NaN
      }
    }
  }
  return answer
}

const ANSWERS: [string, Answer][] = [
  ['a whole answer', sampleAnswer()],
  ['failed points', withFailures()],
  ['one design missing', sampleAnswer({ verdicts: { 'series-pass': 'unbuilt' } })],
  [
    'all designs missing',
    sampleAnswer({ verdicts: { shunt: 'unbuilt', 'series-pass': 'unbuilt', feedback: 'unbuilt' } }),
  ],
]

describe.each(ANSWERS)('plots of %s', (_name, answer) => {
  const { source, plots, layout, model } = drawn(answer)
  it('have finite axes, a title with a unit and a description', () => {
    for (const { y, title, unit, description } of plots) {
      expect(Number.isFinite(y.min) && Number.isFinite(y.max) && y.max > y.min && y.step > 0).toBe(true)
      expect(Math.abs((y.max - y.min) / y.step - Math.round((y.max - y.min) / y.step))).toBeLessThan(1e-6)
      expect(`${title} ${unit} ${description}`).not.toMatch(/NaN|undefined/)
      expect(title && unit && description).toBeTruthy()
    }
  })
  it('keep one structure whatever the numbers are', () => {
    expect(model.structure).toBe(drawn(sampleAnswer()).model.structure)
  })
  it('name only columns that exist, all of the length of their axis', () => {
    for (const { lines, axis } of plots) {
      for (const line of lines) {
        const columns = source.designs[line.design]![axis]
        for (const name of [line.column, ...(line.valueColumn ? [line.valueColumn] : [])]) {
          expect(columns[name]).toBeInstanceOf(Float64Array)
          expect([0, columns['x']!.length]).toContain(columns[name]!.length)
        }
      }
    }
  })
  it('give finite readouts only', () => {
    for (const plot of plots) {
      for (const x of [4, 5, 8.6, 9.05, 11, 16, 17, 0.12]) {
        for (const r of readoutsOf(plot, source, x)) {
          expect(Number.isFinite(r.labelTop)).toBe(true)
          expect(r.text).not.toMatch(/NaN|–/)
        }
      }
    }
  })
  it('do not overlap', () => {
    for (const [i, place] of layout.places.entries()) {
      const end = layout.places[i + 1]?.titleTop ?? layout.height
      expect(place.top).toBeGreaterThan(place.titleTop)
      expect(end).toBeGreaterThan(place.top + place.height)
    }
  })
})

describe('the option', () => {
  const answer = sampleAnswer()
  const { model, plots } = drawn(answer)
  const full = model.full as unknown as Record<string, { source: unknown; min: number; max: number }[]> & {
    series: { datasetIndex: number; encode: { y: string } }[]
  }
  it('hands every drawn column on, unchanged, point by point', () => {
    const { source: packed, dimensions } = full['dataset']![datasetIndex(0, 'input')]! as unknown as {
      source: Float64Array
      dimensions: string[]
    }
    const { axis, columns } = answer.curves[0]!.byInput
    const heat = dimensions.indexOf('heat')
    expect(packed).toHaveLength(axis.length * dimensions.length)
    for (const i of [0, 50, 100]) {
      expect(packed[i * dimensions.length]).toBe(axis[i])
      expect(packed[i * dimensions.length + heat]).toBe(columns['heat']![i])
    }
    // the shunt has two parts that dissipate: the third share has no number anywhere
    expect(packed[dimensions.indexOf('stack2')]).toBeNaN()
  })
  it('has one grid and one pair of axes a plot, one series a line', () => {
    for (const part of ['grid', 'xAxis', 'yAxis']) expect(full[part]).toHaveLength(plots.length)
    expect(full.series).toHaveLength(plots.reduce((sum, { lines }) => sum + lines.length, 0))
  })
  it('shares the input axis among all plots against the input', () => {
    const axes = full['xAxis']!.filter((_, i) => plots[i]!.axis === 'input')
    expect(axes).toHaveLength(7)
    for (const axis of axes) expect(axis).toMatchObject({ min: 5, max: 16 })
  })
  it('draws heat by part of all designs on one scale', () => {
    const scales = plots.filter(({ id }) => id.startsWith('heatByPart')).map(({ y }) => y)
    expect(scales).toHaveLength(3)
    expect(new Set(scales.map((y) => JSON.stringify(y))).size).toBe(1)
  })
  it('changes its structure with the theme', () => {
    const other = plotSource(answer, designColumns(answer), scale, { ...theme, shunt: 'other' })
    const changed = columnOption(allPlots(other), layoutOf(plots, TICKS_AFTER), other)
    expect(changed.structure).not.toBe(model.structure)
  })
  it('marks the load regulation limit, in volts of the nominal output', () => {
    const plot = plots.find(({ id }) => id === 'loadRegulation')!
    expect(plot.limits[0]!.value).toBeCloseTo(-0.03 * 5, 12)
    expect(plot.unit).toBe('mV')
  })
})

describe('the frame', () => {
  const { source, plots, layout } = drawn(sampleAnswer())
  const frames = frameOf(plots, layout, source)
  it('gives the unit to the last tick alone', () => {
    expect(axisTicks(source, 'input').map(({ text }) => text)).toEqual(['6', '8', '10', '12', '14', '16\u202FV'])
    expect(axisTicks(source, 'load').at(-1)!.text).toBe('150\u202FmA')
  })
  it('has at most five grid lines a plot, from the bottom to the top', () => {
    for (const [i, { lines }] of frames.entries()) {
      expect(lines.length).toBeGreaterThanOrEqual(2)
      expect(lines.length).toBeLessThanOrEqual(5)
      expect(lines[0]!.top).toBeCloseTo(plots[i]!.height, 9)
      expect(lines.at(-1)!.top).toBeCloseTo(0, 9)
    }
  })
  it('shades the required range and dots the limits where the curves have them', () => {
    const output = frames[plots.findIndex(({ id }) => id === 'output')]!
    expect(output.from).toBeCloseTo((8.6 - 5) / 11, 12)
    expect(output.to).toBeCloseTo((13.8 - 5) / 11, 12)
    // 4.7 V and 5.3 V on a scale from 4.5 V to 5.5 V, 78 pixels high
    expect(output.limits.map(({ top }) => top)).toEqual([expect.closeTo(0.8 * 78, 9), expect.closeTo(0.2 * 78, 9)])
  })
  it('puts ticks under the last plot of each run only', () => {
    const under = plots.filter((_, i) => frames[i]!.ticks.length > 0).map(({ id }) => id)
    expect(under).toEqual(['hottest', 'heatByPart.feedback', 'loadEfficiency'])
  })
})

describe('columns', () => {
  it('measure the load change from the least load', () => {
    const answer = sampleAnswer()
    const { load } = designColumns(answer)[0]!
    const { axis, columns } = answer.curves[0]!.byLoad
    const base = valueAt(axis, columns['output'], 0.01)
    expect(valueAt(load['x']!, load['change'], 0.01)).toBeCloseTo(0, 12)
    expect(load['change']![100]).toBeCloseTo(columns['output']![100]! - base, 12)
  })
  it('interpolate linearly between points and give a swept point exactly', () => {
    const axis = Float64Array.of(1, 2, 4)
    const column = Float64Array.of(10, 20, 0)
    expect(valueAt(axis, column, 1.5)).toBe(15)
    expect(valueAt(axis, column, 3)).toBe(10)
    expect(valueAt(axis, column, 4)).toBe(0)
    expect(valueAt(axis, column, 4.1)).toBeNaN()
    expect(valueAt(axis, Float64Array.of(10, Number.NaN, 0), 1)).toBe(10)
    expect(valueAt(axis, Float64Array.of(10, Number.NaN, 0), 1.01)).toBeNaN()
    expect(valueAt(new Float64Array(0), new Float64Array(0), 1)).toBeNaN()
  })
})

describe('scale', () => {
  it('rounds an axis outwards in at most so many steps', () => {
    expect(roundAxis(0, 8.2)).toEqual({ min: 0, max: 10, step: 5 })
    expect(roundAxis(4.55, 5.45)).toEqual({ min: 4.5, max: 5.5, step: 0.5 })
    expect(roundAxis(Number.NaN, 3)).toEqual({ min: 0, max: 1, step: 0.5 })
    const flat = roundAxis(5, 5)
    expect(flat.max).toBeGreaterThan(flat.min)
  })
  it('takes the extent of finite values inside the domain only', () => {
    const axis = Float64Array.of(0, 1, 2, 3)
    expect(extentOf(axis, Float64Array.of(-9, 1, Number.NaN, 3), { min: 1, max: 3 })).toEqual([1, 3])
    expect(extentOf(axis, Float64Array.of(1, 1, 1, 1), { min: 7, max: 9 })).toBeUndefined()
  })
  it('spreads labels to their least distance, in order and inside', () => {
    const placed = spreadLabels([50, 51, 52, 10], 15, 0, 60)
    const ordered = placed.toSorted((a, b) => a - b)
    for (let i = 1; i < ordered.length; i++) expect(ordered[i]! - ordered[i - 1]!).toBeGreaterThanOrEqual(15 - 1e-9)
    expect(Math.max(...placed)).toBeLessThanOrEqual(60)
    expect(placed[0]!).toBeLessThan(placed[1]!)
    expect(placed[3]).toBeLessThan(placed[0]!)
    expect(spreadLabels([20, 50], 15, 0, 60)).toEqual([20, 50])
  })
})

describe('texts', () => {
  it('have a true minus, three figures and no exponent', () => {
    expect(figureText(-0.01234)).toBe('\u22120.0123')
    expect(figureText(1234)).toBe('1234')
    expect(figureText(Number.NaN)).toBe('–')
    expect(figureText(0.9999)).toBe('1.00')
    expect(labelText(0.0072, 5)).toBe('0.007')
    expect(labelText(2.7, 5)).toBe('2.70')
    expect(tickText(-0.5, 0.5)).toBe('\u22120.5')
    expect(tickText(0, 0.5)).toBe('0')
  })
  it('carry one prefix an axis', () => {
    expect(axisPrefix(0.3, 'W')).toEqual({ factor: 1e3, unit: 'mW' })
    expect(axisPrefix(3, 'W')).toEqual({ factor: 1, unit: 'W' })
  })
})

describe('cursor', () => {
  const range = { min: 8.6, max: 13.8 }
  it('moves by 0.1 V, by 1 V, and to the ends of the required range', () => {
    expect(voltsAfterKey('ArrowRight', 11, range)).toBe(11.1)
    expect(voltsAfterKey('ArrowLeft', 11.04, range)).toBe(10.9)
    expect(voltsAfterKey('PageUp', 11, range)).toBe(12)
    expect(voltsAfterKey('PageDown', 11, range)).toBe(10)
    expect(voltsAfterKey('Home', 11, range)).toBe(8.6)
    expect(voltsAfterKey('End', 11, range)).toBe(13.8)
    expect(voltsAfterKey('a', 11, range)).toBeUndefined()
  })
  it('lands on round volts under a pointer', () => {
    expect(voltsAt(0, scale)).toBe(5)
    expect(voltsAt(2, scale)).toBe(16)
    expect(voltsAt(0.5, scale)).toBe(10.5)
  })
})

describe('the table behind the plots', () => {
  it('equals the curves, every point of every column', () => {
    const answer = sampleAnswer()
    const table = plotTable(answer, 'input')
    const { axis } = answer.curves[0]!.byInput
    expect(table.rows).toHaveLength(axis.length)
    const heat = table.columns.findIndex(({ label }) => label === 'Series-pass heat, W')
    const column = answer.curves[1]!.byInput.columns['heat']!
    for (const [i, row] of table.rows.entries()) {
      expect(row).toHaveLength(table.columns.length + 1)
      expect(row[0]).toBe(figureText(axis[i]!, 4))
      expect(row[heat + 1]).toBe(figureText(column[i]!, 4))
    }
    expect(table.columns.map(({ label }) => label)).toContain('Feedback heat in U1, mW')
  })
  it('has a dash where a point has no solution, and no column for a missing design', () => {
    const failed = plotTable(withFailures(), 'load')
    expect(failed.rows[0]!.slice(1).every((text) => text === '–')).toBe(true)
    expect(failed.rows[1]!.some((text) => text !== '–')).toBe(true)
    const missing = plotTable(sampleAnswer({ verdicts: { shunt: 'unbuilt' } }), 'input')
    expect(missing.columns.some(({ topology }) => topology === 'shunt')).toBe(false)
  })
})

describe('part count', () => {
  it('draws every design on one scale, nothing for one without a circuit', () => {
    const { comparison } = sampleAnswer({ verdicts: { shunt: 'unbuilt' } })
    expect(partCountPlot(comparison).rows.map(({ count }) => count)).toEqual([0, 5, 11])
    expect(partCountPlot(comparison).across).toBe(12)
  })
})
