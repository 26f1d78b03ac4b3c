/** The parts screen over invented designs of real parts: one list a design, pins that can be set and taken off, a table to save. */
import { flushPromises, mount } from '@vue/test-utils'
import { describe, expect, it } from 'vitest'
import type { RatingUse } from '../../../engine/analyses/ratings.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import type { PinCost } from '../../../engine/compare/pinCost.ts'
import type { Study } from '../../../engine/requirements/study.ts'
import { csvText } from '../../../web/handOut/csv.ts'
import PartList from '../../../web/panels/parts/PartList.vue'
import PartsScreen from '../../../web/screens/parts/PartsScreen.vue'
import { changeText, partsDesigns, partsFinding, toleranceText } from '../../../web/screens/parts/rows.ts'
import { partsSheet } from '../../../web/screens/parts/sheet.ts'
import { SAMPLE_ASSUMPTIONS, SAMPLE_REQUIREMENTS } from '../../fixtures/answers/sample.ts'
import { answerOfBought, inspectionOfBought } from '../../fixtures/answers/sampleDetails.ts'
import { mountDetail } from './detailScreens.ts'

const STUDY: Study = {
  title: '=Sample',
  requirements: SAMPLE_REQUIREMENTS,
  assumptions: SAMPLE_ASSUMPTIONS,
  weights: {},
}
const plain = (text: string) => text.replace(/\s+/gu, ' ').trim()

const rating = (part: string, quantity: string, stress: number, allowed: number): RatingUse => ({
  part,
  quantity,
  unit: 'W',
  sense: 'max',
  rating: 2 * allowed,
  allowed,
  stress,
  margin: 1 - stress / allowed,
  condition: { input: 14, load: 0.01, ambient: 40 },
  thermal: 'settled',
})

const cost = (part: string, pin: string | number): PinCost => ({
  part,
  pin,
  sentence: `Pinning ${part} costs 210 mW of heat; without it ${part} would be 680 Ω.`,
  with: { verdict: 'meets' },
  without: { verdict: 'meets' },
  figures: [{ figure: 'heat', unit: 'W', with: 0.5, without: 0.29, change: 0.21 }],
})

/** Of the shunt alone: R1 with a tight rating, D1 with an alternative; costs for whatever is pinned. */
function inspectionOf({ pins, assumptions }: Study): Inspection {
  return inspectionOfBought(assumptions).map((details, k) => ({
    ...details,
    pinCost: k === 0 ? Object.entries(pins?.shunt ?? {}).map(([part, pin]) => cost(part, pin)) : [],
    ...(k === 0 && {
      ratings: [rating('R1', 'power', 0.1, 0.125), rating('R1', 'voltage', 0.01, 1), rating('D1', 'power', 0.3, 0.25)],
      alternatives: [
        {
          part: 'R1',
          basis: 'ratings at the present stresses',
          rows: [],
          of: 0,
          tolerance: { of: 'resistance', low: -0.01, high: 0.01 },
        },
        {
          part: 'D1',
          basis: 'ratings at the present stresses',
          of: 12,
          tolerance: { of: 'voltage', low: -0.05, high: 0.05 },
          rows: [
            { partNumber: '1N5231B', package: 'DO-35', margin: 0.31, quantity: 'power', price: 0.03, area: 24.3e-6 },
          ],
        },
      ],
    }),
  }))
}

const open = (study = STUDY) => mountDetail(PartsScreen, study, answerOfBought(), inspectionOf)
const { designs } = answerOfBought().comparison

describe('texts', () => {
  it('of a tolerance name both ends where they differ', () => {
    expect(plain(toleranceText({ of: 'resistance', low: -0.05, high: 0.05 }))).toBe('±5 %')
    expect(plain(toleranceText({ of: 'capacitance', low: -0.2, high: 0.8 }))).toBe('−20 to +80 %')
    expect(plain(toleranceText({ of: 'voltage', low: -0.0714, high: 0.0714 }))).toBe('±7.1 %')
    expect(toleranceText(undefined)).toBe('')
  })

  it.each([
    ['W', 0.21, '+210 mW'],
    ['EUR', -0.05, '−0.050 EUR'],
    ['1', 1, '+1.00'],
    ['%', 0, 'none'],
    ['W', undefined, '–'],
  ] as const)('of a change: %s %s is %s', (unit, change, text) => expect(plain(changeText(unit, change))).toBe(text))

  it('of the title count the parts, name the tightest and the pins', () => {
    const study: Study = { ...STUDY, pins: { shunt: { R1: 470 } } }
    expect(plain(partsFinding(partsDesigns(designs, inspectionOf(study), study)))).toBe(
      'Shunt takes 2 parts, series-pass takes 2 parts, feedback takes 3 parts; D1 of shunt is over its rating (power, 300 mW of 250 mW allowed). R1 of shunt is pinned.',
    )
  })

  it('of the title say which pins leave nothing to build', () => {
    const study: Study = { ...STUDY, pins: { feedback: { R7: 100 } } }
    const lost = designs.map((design, k) => (k === 2 ? { ...design, parts: [] } : design))
    expect(plain(partsFinding(partsDesigns(lost, inspectionOf(study), study)))).toContain(
      'With R7 pinned to 100 Ω no feedback design can be built.',
    )
  })
})

describe('the screen', () => {
  it('shows one list a design with tolerance, tightest rating, margin and sums', async () => {
    const { wrapper } = await open()
    expect(wrapper.findAll('section.parts')).toHaveLength(3)
    const cells = wrapper
      .find('section.parts tbody')
      .findAll('td')
      .map((cell) => plain(cell.text()))
    expect(cells.slice(0, 5)).toEqual([
      '±1 %',
      'power, 100 mW of 125 mW allowedrated 250 mW',
      '20 %',
      '0.01 EUR',
      '36.8 mm²',
    ])
    expect(wrapper.find('section.parts .over').text().replace(/\s/gu, ' ')).toBe('−20 %')
    expect(wrapper.find('section.parts tfoot').text()).toContain('0.04')
    expect(wrapper.text()).not.toMatch(/NaN|undefined|Infinity/u)
    wrapper.unmount()
  })

  it('pins a typed value, says what it costs, takes it off again, and undoes', async () => {
    const { wrapper, studies } = await open()
    const entry = wrapper.get<HTMLInputElement>('input[data-path="pins.shunt.R1"]')
    expect(entry.attributes('placeholder')).toBe('value or part')
    expect(wrapper.findAll('.pins li')).toHaveLength(0)
    await entry.setValue('4k7')
    await entry.trigger('keydown', { key: 'Enter' })
    await flushPromises()
    expect(studies.study.pins).toEqual({ shunt: { R1: 4700 } })
    expect(wrapper.findAll('.pins li')).toHaveLength(1)
    expect(plain(wrapper.get('.pins li').text())).toContain(
      'Pinning R1 costs 210 mW of heat; without it R1 would be 680 Ω.',
    )
    expect(plain(wrapper.get('.pins tbody tr').text())).toMatch(/500 mW ?290 mW ?\+210 mW/u)
    expect(wrapper.find('tbody.pinned').text()).toContain('R1')
    expect(plain(entry.element.value)).toBe('4.7 kΩ')
    await wrapper.get('.pins button').trigger('click')
    expect(studies.study).not.toHaveProperty('pins')
    studies.undo()
    expect(studies.study.pins).toEqual({ shunt: { R1: 4700 } })
    await flushPromises()
    await wrapper.get('button[aria-label="Remove the pin on R1 of shunt"]').trigger('click')
    expect(studies.study).not.toHaveProperty('pins')
    wrapper.unmount()
  })

  it('offers what would do by its ratings, says that this is no proof, and pins it', async () => {
    const { wrapper, studies } = await open()
    const options = wrapper.get('input[data-path="pins.shunt.D1"]').element.getAttribute('list')!
    expect([...document.getElementById(options)!.querySelectorAll('option')].map(({ value }) => value)).toEqual([
      'BZX55C5V1',
      '1N5231B',
    ])
    const toggle = wrapper.get('button[aria-label="1 of 12 others for D1"]')
    expect(toggle.attributes('aria-expanded')).toBe('false')
    await toggle.trigger('click')
    expect(toggle.attributes('aria-expanded')).toBe('true')
    expect(plain(wrapper.get('.others').text())).toContain(
      'The 1 smallest of 12. By ratings at the present stresses; pin one to prove it.',
    )
    await wrapper.get('button[aria-label="Pin D1 of shunt to 1N5231B"]').trigger('click')
    expect(studies.study.pins).toEqual({ shunt: { D1: '1N5231B' } })
    wrapper.unmount()
  })

  it('refuses what is neither, with the reason beside the part', async () => {
    const { wrapper, studies } = await open()
    const entry = wrapper.get<HTMLInputElement>('input[data-path="pins.shunt.D1"]')
    await entry.setValue('zilch')
    await entry.trigger('keydown', { key: 'Enter' })
    await flushPromises()
    expect(studies.study).not.toHaveProperty('pins')
    const problem = wrapper.get('.problem [role=alert]')
    expect(entry.attributes('aria-describedby')).toBe(problem.attributes('id'))
    expect(plain(problem.text())).toMatch(
      /^Pinned D1 of shunt is the text "zilch"; it must be a value from 1 V to 200 V or /u,
    )
    await wrapper.get('.problem button').trigger('click')
    expect(wrapper.find('.problem').exists()).toBe(false)
    wrapper.unmount()
  })

  it('offers to take off the pins of a design that could not be built', async () => {
    const answer = answerOfBought()
    const [shunt] = answer.comparison.designs
    shunt!.parts = []
    shunt!.shortfalls = [
      {
        requirement: 'pins.shunt.R9',
        required: 1,
        achieved: 0,
        unit: '1',
        because: 'Nothing can be built with R3 to 5 Ω pinned: no.',
      },
    ]
    const study: Study = { ...STUDY, pins: { shunt: { R3: 5 } } }
    const { wrapper, studies } = await mountDetail(PartsScreen, study, answer, inspectionOf)
    const section = wrapper.get('section.parts[data-topology="shunt"]')
    expect(plain(section.text())).toContain('Nothing can be built with R3 to 5 Ω pinned')
    await section.get('.pins button').trigger('click')
    expect(studies.study).not.toHaveProperty('pins')
    wrapper.unmount()
  })
})

describe('the part list of the comparison', () => {
  it('marks what is pinned', () => {
    const wrapper = mount(PartList, { props: { design: designs[0]!, pins: { R1: 470 } } })
    expect(wrapper.findAll('.pinned')).toHaveLength(1)
    expect(wrapper.get('li').text()).toContain('pinned')
    wrapper.unmount()
  })
})

describe('the table for a spreadsheet', () => {
  const study: Study = { ...STUDY, pins: { shunt: { R1: 470 } } }
  const [shunt] = partsDesigns(designs, inspectionOf(study), study)
  const [header, first, second] = partsSheet(shunt!)
  const cell = (row: typeof first, title: string) => row![header!.indexOf(title)]

  it('has one row a part, as wide as its header, with numbers as numbers', () => {
    expect(partsSheet(shunt!)).toHaveLength(3)
    for (const row of partsSheet(shunt!)) expect(row).toHaveLength(header!.length)
    expect(cell(first, 'Id')).toBe('R1')
    expect(plain(String(cell(first, 'Pinned to')))).toBe('470 Ω')
    expect(cell(first, 'Margin')).toBeCloseTo(0.2, 9)
    expect(cell(first, 'Price EUR, assumed')).toBe(0.01)
    expect(cell(second, 'Alternatives by ratings, not proven')).toBe('1N5231B (margin 0.31)')
    expect(cell(second, 'Pinned to')).toBeUndefined()
  })

  it('is written so that no cell can be taken for a formula', () => {
    const spoilt = { rows: [{ ...shunt!.rows[0]!, part: { ...shunt!.rows[0]!.part, role: '=1+1', note: '"a", b' } }] }
    const [, line] = csvText(partsSheet(spoilt)).split('\r\n')
    expect(csvText(partsSheet(spoilt)).startsWith('\uFEFFId,Role,')).toBe(true)
    expect(line!.startsWith("R1,'=1+1,")).toBe(true)
    expect(line!.endsWith(',"""a"", b"')).toBe(true)
  })
})
