/** A lane shows what the answer says. Data are invented. */
import { mount } from '@vue/test-utils'
import { describe, expect, it } from 'vitest'
import type { Answer, TopologyName } from '../../../engine/compare/comparison.ts'
import { designColumns } from '../../../web/charts/columns.ts'
import Lane from '../../../web/panels/lane/Lane.vue'
import { checkWords, judgedCount, margins, missedChecks } from '../../../web/panels/lane/checks.ts'
import { sampleAnswer } from '../../fixtures/answers/sample.ts'

/** Spaces before units are typeset. */
const plain = (text: string) => text.replaceAll('\u202F', ' ')

function lane(answer: Answer, topology: TopologyName, input = 11) {
  const { comparison } = answer
  const i = comparison.designs.findIndex((design) => design.topology === topology)
  return mount(Lane, {
    props: {
      design: comparison.designs[i]!,
      comparison,
      columns: designColumns(answer)[i]!,
      scale: 12,
      input,
      revision: 7,
    },
  })
}

describe('Lane', () => {
  it('shows a design that meets: verdict, points, variant and its tightest margin', () => {
    const wrapper = lane(sampleAnswer(), 'series-pass')
    const text = wrapper.text()
    expect(wrapper.get('.badge').text()).toBe('Meets all 10')
    expect(text).toContain('74')
    expect(text).toContain('Reference diode and emitter follower')
    expect(text).toContain('One transistor has enough gain')
    expect(text).toContain('Tightest: R1 power')
    expect(wrapper.attributes('data-revision')).toBe('7')
  })
  it("shows a design that falls short: how many, and every shortfall in the engine's words", () => {
    const answer = sampleAnswer()
    const wrapper = lane(answer, 'shunt')
    expect(wrapper.get('.badge').text()).toBe('Falls short 2 of 7')
    expect(wrapper.text()).toContain('not ranked')
    for (const { because } of answer.comparison.designs[0]!.shortfalls) {
      expect(plain(wrapper.text())).toContain(plain(because))
    }
  })
  it('shows a design that cannot be built without figures or flow', () => {
    const wrapper = lane(sampleAnswer({ verdicts: { feedback: 'unbuilt' } }), 'feedback')
    expect(wrapper.get('.badge').text()).toBe('Cannot be built')
    expect(wrapper.text()).toContain('Lower the highest input.')
    expect(wrapper.find('.flow').exists()).toBe(false)
    expect(wrapper.text()).not.toContain('undefined')
  })
  it('gives the flow picture a text with every watt, at the cursor', () => {
    const answer = sampleAnswer()
    const at = (volts: number) => lane(answer, 'shunt', volts).get('.flow').attributes('aria-label')
    expect(at(11)).toMatch(/^Shunt: 3\.28.W in, 581.mW to the load, heat R1 1\.80.W, D1 900.mW$/)
    expect(at(13)).not.toBe(at(11))
    expect(at(99)).toMatch(/no solution/)
  })
})

describe('checks', () => {
  const [shunt, seriesPass] = sampleAnswer().comparison.designs
  const { requirements } = sampleAnswer().comparison
  it('count each requirement once, and leave out limits that were not asked for', () => {
    expect(missedChecks(shunt!)).toEqual(['output', 'limits.loadRegulation'])
    // output, load and line regulation, then the ratings under stress: R1 1, D1 2, C1 1
    expect(judgedCount(shunt!, requirements)).toBe(7)
    const asked = { ...requirements, limits: { ...requirements.limits, survivesShort: true } }
    expect(judgedCount(shunt!, asked)).toBe(8)
  })
  it('say a path in words', () => {
    expect(checkWords('limits.survivesShort')).toBe('surviving a shorted output')
    expect(checkWords('D1.power')).toBe('power in D1')
    expect(checkWords('loop stability')).toBe('loop stability')
    expect(checkWords('limits.phaseMargin')).toBe('phase margin')
  })
  it('put the tightest margin first', () => {
    const all = margins(seriesPass!, requirements)
    expect(all[0]!.left).toBeCloseTo(0.06, 12)
    expect(all.map(({ left }) => left)).toEqual(all.map(({ left }) => left).toSorted((a, b) => a - b))
    // lowest output 4.72 V of 4.70 V allowed, half-width 0.3 V
    expect(all[1]!.left).toBeCloseTo(0.02 / 0.3, 9)
  })
})
