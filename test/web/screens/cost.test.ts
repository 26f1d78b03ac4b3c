/** The cost screen over invented designs of real parts: assumptions that can be typed over, and sums that stay honest. */
import { flushPromises } from '@vue/test-utils'
import { describe, expect, it } from 'vitest'
import CostScreen from '../../../web/screens/cost/CostScreen.vue'
import { amountText, assumptionRows, designBills, finding, sumText } from '../../../web/screens/cost/bills.ts'
import { SAMPLE_ASSUMPTIONS, SAMPLE_REQUIREMENTS } from '../../fixtures/answers/sample.ts'
import { answerOfBought, inspectionOfBought } from '../../fixtures/answers/sampleDetails.ts'
import { mountDetail } from './detailScreens.ts'

const study = { title: 'Sample', requirements: SAMPLE_REQUIREMENTS, assumptions: SAMPLE_ASSUMPTIONS, weights: {} }
const plain = (text: string) => text.replace(/\s+/gu, ' ')
const designs = answerOfBought().comparison.designs
const bills = designBills(designs, inspectionOfBought())
const open = () =>
  mountDetail(CostScreen, study, answerOfBought(), ({ assumptions }) => inspectionOfBought(assumptions))

describe('amounts', () => {
  it.each([
    ['prices', 1.14, '1.14 EUR'],
    ['prices', 0.003, '0.003 EUR'],
    ['prices', 0, '0.00 EUR'],
    ['areas', 0.0010563, '1056 mm²'],
    ['areas', 36.78e-6, '36.8 mm²'],
  ] as const)('of %s: %d is %s', (kind, value, text) => expect(plain(amountText(kind, value))).toBe(text))

  it('say how far an open sum is', () => {
    expect(plain(sumText('prices', { known: 0.16, counted: 2, of: 3 }))).toBe('2 of 3 priced, 0.16 EUR so far')
  })
})

describe('the assumptions', () => {
  const rows = assumptionRows('prices', bills)

  it('are one a kind, with the parts that go by it', () => {
    const resistor = rows.find(({ path }) => path === 'assumptions.prices.resistor-small')!
    expect(resistor.usedBy).toEqual([
      { topology: 'shunt', parts: 'R1' },
      { topology: 'feedback', parts: 'R1' },
    ])
    expect(plain(resistor.catalogue)).toBe('0.01 EUR')
    expect(resistor.standing).toBe('assumed, 2026-11')
  })

  it('mark what is missing', () => {
    expect(rows.filter(({ isMissing }) => isMissing).map(({ path }) => path)).toEqual(['assumptions.prices.film-other'])
  })
})

describe('the title', () => {
  it('names the cheapest and the smallest of those that are complete, and counts the rest', () => {
    expect(plain(finding(bills))).toBe(
      'On assumed prices and areas shunt is cheapest at about 0.04 EUR, series-pass costs 0.38 EUR; shunt is smallest at about 61.1 mm², series-pass takes 120 mm². Feedback: 2 of 3 parts priced.',
    )
  })
})

describe('the screen', () => {
  it('shows the bills with their sums, and no sum where a price is missing', async () => {
    const { wrapper } = await open()
    const sums = wrapper.findAll('.bill tfoot tr').map((row) => row.findAll('td').map((cell) => plain(cell.text())))
    expect(sums[0]).toEqual(['0.04 EUR', '61.1 mm²'])
    expect(sums[2]![0]).toBe('2 of 3 priced, 0.16 EUR so far')
    expect(wrapper.findAll('.bill .missing')).toHaveLength(2)
    expect(wrapper.text()).toContain('not a quote')
    expect(wrapper.text()).not.toMatch(/NaN|undefined|Infinity/u)
    wrapper.unmount()
  })

  it('takes a price of the user for every part of the kind, marks it, and undoes it', async () => {
    const { wrapper, studies } = await open()
    const entry = wrapper.get<HTMLInputElement>('input[data-path="assumptions.prices.film-other"]')
    expect([entry.element.value, entry.attributes('placeholder')]).toEqual(['', 'missing'])
    await entry.setValue('0,25 €')
    await entry.trigger('keydown', { key: 'Enter' })
    await flushPromises()
    expect(studies.study.assumptions.prices).toEqual({ 'film-other': 0.25 })
    const sums = wrapper.findAll('.bill tfoot td').map((cell) => plain(cell.text()))
    expect(sums[4]).toBe('0.41 EUR')
    expect(wrapper.findAll('.bill .own')).toHaveLength(1)
    expect(studies.undoStep?.label.replace(/\s+/gu, ' ')).toBe(
      "Price (film capacitor, 250 V and above) the catalogue's → 0.25 EUR",
    )
    studies.undo()
    await flushPromises()
    expect(studies.study.assumptions.prices).toEqual({})
    expect(wrapper.findAll('.bill .own')).toHaveLength(0)
    wrapper.unmount()
  })

  it('reads a bare area in square millimetres, writes it so, and goes back to the catalogue', async () => {
    const { wrapper, studies } = await open()
    const entry = wrapper.get<HTMLInputElement>('input[data-path="assumptions.areas.axial-0207"]')
    await entry.setValue('300')
    await entry.trigger('keydown', { key: 'Enter' })
    await flushPromises()
    expect(studies.study.assumptions.areas).toEqual({ 'axial-0207': 0.0003 })
    expect(plain(entry.element.value)).toBe('300 mm²')
    const back = wrapper.findAll('button').find((button) => plain(button.text()) === 'Back to 36.8 mm²')!
    await back.trigger('click')
    await flushPromises()
    expect(studies.study.assumptions.areas).toEqual({})
    wrapper.unmount()
  })

  it('refuses a price out of range with value and range, and keeps the one in force', async () => {
    const { wrapper, studies } = await open()
    const entry = wrapper.get<HTMLInputElement>('input[data-path="assumptions.prices.diode-do-35"]')
    await entry.setValue('-3')
    await entry.trigger('keydown', { key: 'Enter' })
    expect(studies.study.assumptions.prices).toEqual({})
    const problems = wrapper.findAll('.problems li').map((problem) => plain(problem.text()))
    expect(problems).toHaveLength(1)
    expect(problems[0]).toContain('Price (reference diode 0.5 W, DO-35) is −3 EUR; it must be from 0 EUR to 1000 EUR.')
    expect(problems[0]).toContain("The catalogue's stays in force.")
    wrapper.unmount()
  })
})
