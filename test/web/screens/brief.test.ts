/** What the brief says and how it is drawn, over invented answers; nothing about the engine is tested here. */
import { mount } from '@vue/test-utils'
import { describe, expect, it } from 'vitest'
import type { Answer, Design } from '../../../engine/compare/comparison.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import BriefScreen from '../../../web/screens/brief/BriefScreen.vue'
import BriefSheet from '../../../web/screens/brief/BriefSheet.vue'
import { type Brief, type BriefSetting, briefOf } from '../../../web/screens/brief/brief.ts'
import { FILE_POLICY, standalone } from '../../../web/screens/brief/standalone.ts'
import {
  type SampleChoice,
  SAMPLE_ASSUMPTIONS,
  SAMPLE_REQUIREMENTS,
  sampleAnswer,
} from '../../fixtures/answers/sample.ts'
import { mountDetail } from './detailScreens.ts'

const SETTING: BriefSetting = {
  date: new Date(2026, 10, 26, 12),
  link: 'https://example.org/wattfork/',
  isAllowed: () => true,
}
const DETAILS: Inspection = [
  {},
  {
    faults: {
      band: { low: 4.7, high: 5.3 },
      list: [],
      cautions: ['If Q1 fails shorted, the load sees 13.8 V.', 'Burns.', 'Third.'],
    },
  },
  { faults: { band: { low: 4.7, high: 5.3 }, list: [], cautions: ['Gravest of feedback.', 'Minor of feedback.'] } },
]
/** Supply, one resistor and load: what can be drawn. */
const CIRCUIT: NonNullable<Design['circuit']> = {
  ground: '0',
  elements: [
    { id: 'input', part: 'input', kind: 'voltage-source', nodes: ['in', '0'], value: 11 },
    { id: 'R1', part: 'R1', kind: 'resistor', nodes: ['in', 'out'], ohms: 47, tc1: 0, tnom: 25 },
    { id: 'load', part: 'load', kind: 'current-source', nodes: ['out', '0'], value: 0.1 },
  ],
}

function drawable(choice: SampleChoice = {}): Answer {
  const answer = sampleAnswer(choice)
  for (const design of answer.comparison.designs) if (design.circuit) design.circuit = CIRCUIT
  return answer
}

const plain = (text: string) => text.replace(/\s+/gu, ' ')
const brief = (choice: SampleChoice = {}, setting: Partial<BriefSetting> = {}): Brief =>
  briefOf(drawable(choice), DETAILS, { ...SETTING, ...setting })!
const items = ({ items: texts }: { items: readonly string[] }) => texts.map(plain)

describe('the recommendation', () => {
  it('waits until every corner is proven', () => {
    expect(briefOf(sampleAnswer({ stage: 'first' }), DETAILS, SETTING)).toBeUndefined()
  })

  it('names the leader, the figures that decide with their points, and what is given away', () => {
    const answer = sampleAnswer()
    const [first, second] = answer.comparison.ranking
    // 36.4 - 20.2 and 4.9 - 9.1, made up to be told apart
    first!.contributions = { partCount: 36.4, efficiency: 27.3, heat: 27.3, loadRegulation: 4.9 }
    second!.contributions = { partCount: 20.2, efficiency: 26.7, heat: 26.9, loadRegulation: 9.1 }
    const { finding, why } = briefOf(answer, DETAILS, SETTING)!
    expect(plain(finding)).toBe('Use series-pass for the 5 V rail')
    const [parts, efficiency, given, weakest] = items(why)
    expect(parts).toMatch(/^Part count: \d+ against \d+ of feedback, worth 16\.2 points\.$/u)
    expect(efficiency).toMatch(/^Efficiency: .* worth 0\.6 points\.$/u)
    expect(given).toMatch(/^It gives away 4\.2 points on load regulation: /u)
    expect(weakest).toMatch(/^Weakest point: /u)
  })

  it('says which weight, moved alone, puts another first, nearest first', () => {
    expect(items(brief().change)[0]).toBe(
      'By points feedback is 3.0 behind; with load regulation weighed above 3.5 instead of 2, feedback comes first.',
    )
  })

  it('says so where no single weight turns the order', () => {
    const answer = sampleAnswer()
    answer.comparison.weightLimits.limits = []
    expect(items(briefOf(answer, DETAILS, SETTING)!.change)[0]).toBe(
      'By points feedback is 3.0 behind; no single weight, moved alone, puts another first.',
    )
  })

  it('chooses none of two that are level', () => {
    const { finding, why, lanes } = brief({ scores: { 'series-pass': 74.2, feedback: 74 } })
    expect(plain(finding)).toBe('Series-pass and feedback are level for the 5 V rail')
    expect(why.title).toBe('What tells them apart')
    expect(lanes.map(({ isChosen }) => isChosen)).toEqual([false, true, true])
  })

  it('says of one that alone meets what the others miss, and what would let them through', () => {
    const { finding, why, change } = brief({ verdicts: { 'series-pass': 'falls-short' } })
    expect(plain(finding)).toBe('Use feedback for the 5 V rail')
    expect(items(why)[0]).toMatch(/^It alone keeps all \d+ requirements and ratings that were judged/u)
    expect(items(why)).toContain('Shunt misses output band and load regulation.')
    expect(items(change)[1]).toMatch(
      /^Series-pass would do too if you allow an output band of ±.* and allow load regulation of/u,
    )
  })

  it('names the closest with its shortfalls where none meets', () => {
    const { finding, why, change, lanes, scores } = brief({
      verdicts: { 'series-pass': 'falls-short', feedback: 'unbuilt' },
    })
    expect(finding).toBe('None of the three meets the requirements; shunt comes closest')
    expect(why.title).toBe('What shunt lacks')
    expect(items(why)).toContain('Lowest output is 4.55 V; 4.70 V is required.')
    expect(items(change)[0]).toContain('together that is enough as sized')
    expect(lanes.every(({ points }) => points === undefined)).toBe(true)
    expect(scores).toBeUndefined()
  })

  it('claims less where the requirements may not hold what would be enough', () => {
    const { change } = brief(
      { verdicts: { 'series-pass': 'falls-short', feedback: 'falls-short' } },
      { isAllowed: () => false },
    )
    expect(items(change)[0]).toMatch(/^It misses .* which no single number eases\.$/u)
  })

  it('says why where nothing can be built', () => {
    const { finding, why } = brief({ verdicts: { shunt: 'unbuilt', 'series-pass': 'unbuilt', feedback: 'unbuilt' } })
    expect(plain(finding)).toBe('None of the three can be built for the 5 V rail')
    expect(items(why)).toHaveLength(3)
    expect(items(why)[0]).toContain('Series resistor needs 8.8 W')
  })
})

describe('the figures', () => {
  it('stand in the order of their weight, with points that add up to the score', () => {
    const { rows, scores } = brief()
    expect(rows.slice(0, 4).map(({ name }) => name)).toEqual(['efficiency', 'heat', 'partCount', 'loadRegulation'])
    const earned = rows.map(({ cells }) => Number(cells[1]!.points ?? 0)).reduce((a, b) => a + b, 0)
    expect(earned).toBeCloseTo(74, 0)
    expect(scores).toEqual(['not ranked', '74.0', '71.0'])
  })

  it('have no scores where nothing is weighed', () => {
    const answer = sampleAnswer()
    answer.comparison.weights = {}
    expect(briefOf(answer, DETAILS, SETTING)!.scores).toBeUndefined()
  })
})

describe('cautions', () => {
  it('begin with the two gravest of the design chosen; the others follow on the second page, none twice', () => {
    const { cautions, moreCautions } = brief()
    const [first, further] = [cautions, moreCautions].map((list) => list.map(({ text }) => text))
    expect(first).toEqual(expect.arrayContaining(['If Q1 fails shorted, the load sees 13.8 V.', 'Burns.']))
    expect(further).toEqual(expect.arrayContaining(['Third.', 'Gravest of feedback.']))
    expect(further).not.toContain('Minor of feedback.')
    expect(first!.filter((text) => further!.includes(text))).toEqual([])
  })

  it('name what was not evaluated on the first page, and always defer to codes and practice', () => {
    const { cautions } = brief()
    expect(cautions.find(({ title }) => title === 'Not evaluated:')?.text).toContain('loop stability')
    expect(cautions.at(-1)?.text).toContain('local codes and licensed practice decide')
  })
})

describe('the sheet', () => {
  const open = (one: Brief) => mount(BriefSheet, { props: { brief: one }, attachTo: document.body })

  it('says everything that was asked for, with date and link', () => {
    const wrapper = open(brief())
    const text = plain(wrapper.text())
    expect(wrapper.findAll('.leaf')).toHaveLength(2)
    for (const words of [
      'Use series-pass for the 5 V rail',
      '26 November 2026',
      'Why series-pass',
      'What would change it',
    ])
      expect(text).toContain(words)
    expect(text).not.toMatch(/NaN|undefined|Infinity|\[object/u)
    expect(wrapper.get('.back a').attributes('href')).toBe(SETTING.link)
    expect(wrapper.findAll('figure.plot svg.picture')).toHaveLength(4)
    wrapper.unmount()
  })

  it('tells the lines apart without colour', () => {
    const wrapper = open(brief())
    const dashes = wrapper
      .get('figure.plot')
      .findAll('.lines path')
      .map((line) => line.attributes('stroke-dasharray'))
    expect(dashes).toHaveLength(3)
    expect(new Set(dashes).size).toBe(3)
    wrapper.unmount()
  })

  it('survives designs that cannot be built', () => {
    const wrapper = open(brief({ verdicts: { shunt: 'unbuilt', 'series-pass': 'unbuilt', feedback: 'unbuilt' } }))
    expect(wrapper.findAll('.lane .none')).toHaveLength(3)
    expect(wrapper.text()).not.toMatch(/NaN|undefined|Infinity/u)
    wrapper.unmount()
  })
})

describe('the file', () => {
  const EVIL = '</title><script>alert(1)</script><img src="https://example.org/x.png" onerror="alert(2)">'

  it('holds words of the study as words, a policy that lets nothing in, and no script', async () => {
    const answer = drawable()
    answer.comparison.title = EVIL
    const one = briefOf(answer, DETAILS, { ...SETTING, notes: `Noted: ${EVIL}` })!
    const wrapper = mount(BriefSheet, { props: { brief: one }, attachTo: document.body })
    const text = await standalone(wrapper.element, EVIL)
    wrapper.unmount()
    const read = new DOMParser().parseFromString(text, 'text/html')
    expect(read.querySelectorAll('script, img, iframe, object, link')).toHaveLength(0)
    expect(
      [...read.querySelectorAll('*')].filter((e) => e.getAttributeNames().some((name) => name.startsWith('on'))),
    ).toEqual([])
    expect(read.querySelector('meta[http-equiv="Content-Security-Policy"]')?.getAttribute('content')).toBe(FILE_POLICY)
    expect(read.title).toBe(EVIL)
    expect(read.querySelector('.study')?.textContent).toBe(EVIL)
    expect(read.querySelector('.notes')?.textContent).toBe(`Noted: ${EVIL}`)
  })

  it('shortens long notes at a word and says where the rest is', () => {
    const { notes } = brief({}, { notes: 'word '.repeat(400) })
    expect(notes!.length).toBeLessThan(750)
    expect(notes).toMatch(/word … \(the rest is in the study\)$/u)
  })
})

describe('the screen', () => {
  const study = { title: 'Sample', requirements: SAMPLE_REQUIREMENTS, assumptions: SAMPLE_ASSUMPTIONS, weights: {} }

  it('shows the sheet under one title, with ways to print and to save', async () => {
    const { wrapper } = await mountDetail(BriefScreen, study, drawable(), () =>
      DETAILS.map((one) => ({ ...one, thermal: { parts: [], runaway: [], safeAreas: [], resistors: [] } })),
    )
    expect(wrapper.findAll('h1').map((title) => plain(title.text()))).toEqual(['Use series-pass for the 5 V rail'])
    expect(wrapper.findAll('.tools button').every((button) => button.attributes('disabled') === undefined)).toBe(true)
    wrapper.unmount()
  })

  it('recommends nothing before the corners are proven', async () => {
    const { wrapper } = await mountDetail(BriefScreen, study, sampleAnswer({ stage: 'first' }), () => DETAILS)
    expect(wrapper.find('.leaf').exists()).toBe(false)
    expect(wrapper.get('h1').text()).toBe('What goes to whoever decides?')
    wrapper.unmount()
  })
})
