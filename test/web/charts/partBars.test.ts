import { mount } from '@vue/test-utils'
import { describe, expect, it } from 'vitest'
import PartBars from '../../../web/charts/partBars/PartBars.vue'
import { partBarsPlot } from '../../../web/charts/partBars/option.ts'
import type { PartBarSource } from '../../../web/charts/partBars/option.ts'

const sources: PartBarSource[] = [
  {
    topology: 'shunt',
    parts: [
      { part: 'D1', amount: 2 },
      { part: 'R1', amount: 6.5 },
      { part: 'R2', amount: 0.1 },
    ],
  },
  {
    topology: 'series-pass',
    parts: [
      { part: 'Q1', amount: 3 },
      { part: 'C1', amount: undefined },
    ],
  },
  { topology: 'feedback', parts: [] },
]

describe('bars by part', () => {
  const plot = partBarsPlot(sources)

  it('share one axis with round ends, whatever the longest bar', () => {
    expect(plot.axis).toEqual({ min: 0, max: 10, step: 2 })
    expect(plot.ticks).toEqual([0, 2, 4, 6, 8, 10])
  })

  it('stack the largest part first, and name those that hold a name', () => {
    const [shunt] = plot.bars
    expect(shunt!.segments.map(({ part, isNamed }) => [part, isNamed])).toEqual([
      ['R1', true],
      ['D1', true],
      ['R2', false],
    ])
    const ends = shunt!.segments.map(({ from, width }) => from + width)
    expect(shunt!.segments.slice(1).map(({ from }) => from)).toEqual(ends.slice(0, -1))
    expect(ends.at(-1)! * plot.axis.max).toBeCloseTo(shunt!.total, 12)
  })

  it('name a part whose amount is not known beside the bar, and give that bar no bold total', () => {
    expect(plot.bars[1]!.missing).toEqual(['C1'])
    const wrapper = mount(PartBars, {
      props: { title: 'Cost', unit: 'EUR', factor: 1, sources, text: (value: number) => `${value.toFixed(1)} EUR` },
    })
    const totals = wrapper.findAll('.total')
    expect(totals.map((total) => total.text().replace(/\s+/gu, ' '))).toEqual([
      '8.6 EUR',
      '3.0 EUR without C1',
      'no circuit',
    ])
    expect(totals.map((total) => total.find('b').exists())).toEqual([true, false, false])
    const label = wrapper.get('[role="img"]').attributes('aria-label')
    expect(label).toContain('Shunt: 8.6 EUR; R1 6.5 EUR, D1 2.0 EUR, R2 0.1 EUR')
    expect(label).toContain('Series-pass: 3.0 EUR; without C1; Q1 3.0 EUR')
  })

  it('scale amounts to the unit of the axis', () => {
    const area: PartBarSource[] = [{ topology: 'shunt', parts: [{ part: 'R1', amount: 3.5e-4 }] }]
    const wrapper = mount(PartBars, {
      props: { title: 'Area', unit: 'mm²', factor: 1e6, sources: area, text: (value: number) => `${value} m²` },
    })
    expect(wrapper.findAll('.ticks i').map((tick) => tick.text())).toEqual(['0', '100', '200', '300', '400'])
    expect(wrapper.get('.total').text()).toBe('0.00035 m²')
  })
})
