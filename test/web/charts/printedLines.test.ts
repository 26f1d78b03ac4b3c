/** The curves on paper stand where the axes say. Numbers are invented. */
import { describe, expect, it } from 'vitest'
import type { Plot, PlotLine, PlotSource } from '../../../web/charts/plot.ts'
import { printedLines } from '../../../web/charts/printedLines.ts'

const line: PlotLine = { design: 0, column: 'heat', topology: 'shunt', colour: '#000', width: 2, dash: 'solid' }
const plot = (own: Partial<PlotLine> = {}) =>
  ({ axis: 'input', y: { min: 0, max: 4, step: 1 }, lines: [{ ...line, ...own }] }) as unknown as Plot
const source = (heat: readonly number[]) =>
  ({
    designs: [{ input: { x: Float64Array.from([10, 11, 12, 13, 14]), heat: Float64Array.from(heat) } }],
    inputDomain: { min: 10, max: 20 },
  }) as unknown as PlotSource

describe('a printed curve', () => {
  it('maps both axes onto its box', () => {
    const [printed] = printedLines(plot(), source([0, 1, 2, 3, 4]))
    expect(printed!.path).toBe('M0.0 1000.0L100.0 750.0L200.0 500.0L300.0 250.0L400.0 0.0')
  })
  it('breaks at a point without a solution', () => {
    const [printed] = printedLines(plot(), source([0, 1, Number.NaN, 3, 4]))
    expect(printed!.path).toBe('M0.0 1000.0L100.0 750.0M300.0 250.0L400.0 0.0')
  })
  it('is filled down to zero where it is an area', () => {
    const [printed] = printedLines(plot({ filled: true }), source([1, 1, 1, 1, 1]))
    expect(printed!.path).toMatch(/^M0\.0 750\.0.*L400\.0 750\.0L400\.0 1000\.0L0\.0 1000\.0Z$/u)
  })
  it('is empty for a design without a circuit', () => {
    expect(printedLines(plot(), source([]))[0]!.path).toBe('')
  })
})
