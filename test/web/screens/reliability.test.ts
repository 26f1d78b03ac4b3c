/** The reliability screen over invented designs of real parts. */
import { describe, expect, it } from 'vitest'
import ReliabilityScreen from '../../../web/screens/reliability/ReliabilityScreen.vue'
import { designSheets, finding } from '../../../web/screens/reliability/sheets.ts'
import { SAMPLE_ASSUMPTIONS, SAMPLE_REQUIREMENTS } from '../../fixtures/answers/sample.ts'
import { answerOfBought, inspectionOfBought } from '../../fixtures/answers/sampleDetails.ts'
import { mountDetail } from './detailScreens.ts'

const study = { title: 'Sample', requirements: SAMPLE_REQUIREMENTS, assumptions: SAMPLE_ASSUMPTIONS, weights: {} }
const plain = (text: string) => text.replace(/\s+/gu, ' ')
const designs = answerOfBought().comparison.designs
const sheets = designSheets(designs, inspectionOfBought())

describe('the title of the screen', () => {
  it('names the lowest rate, the highest, and the part that makes most of it', () => {
    const [series, feedback] = [sheets[1]!, sheets[2]!]
    const fits = sheets.map(({ fit }) => fit!)
    expect(fits[1]).toBe(Math.min(...fits))
    expect(fits[2]).toBe(Math.max(...fits))
    expect(plain(finding(sheets))).toBe(
      `By the handbook, series-pass has the lowest failure rate, ${Math.round(series.fit!)} FIT; feedback has the highest, ${Math.round(feedback.fit!)} FIT, 99 % of it U1.`,
    )
  })

  it('calls designs alike that the handbook cannot tell apart', () => {
    const alike = sheets.map((sheet, k) => ({ ...sheet, fit: 100 + k }))
    expect(plain(finding(alike))).toBe(
      'By the handbook, the designs are alike: shunt 100 FIT, series-pass 101 FIT, feedback 102 FIT.',
    )
    const tie = sheets.map((sheet, k) => ({ ...sheet, fit: [100, 104, 200][k] }))
    expect(plain(finding(tie))).toContain('By the handbook, shunt and series-pass are alike, 100 FIT and 104 FIT;')
  })

  it('passes over a design without a rate, and says so where none has one', () => {
    const one = sheets.map((sheet, k) => (k === 0 ? sheet : { ...sheet, fit: undefined }))
    expect(finding(one)).toMatch(/^Shunt comes to/u)
    expect(finding(sheets.map((sheet) => ({ ...sheet, fit: undefined })))).toMatch(/^No design has a failure rate/u)
  })
})

describe('the screen', () => {
  it('shows a bar and a sheet a design, the heatsink with its reason, and the remark', async () => {
    const { wrapper, asked } = await mountDetail(ReliabilityScreen, study, answerOfBought(), () => inspectionOfBought())
    expect(asked).toContain('inspect')
    expect(plain(wrapper.get('h1').text())).toBe(plain(finding(sheets)))
    expect(wrapper.findAll('section.sheet')).toHaveLength(3)
    expect(wrapper.findAll('.bars .track')).toHaveLength(3)
    const rows = wrapper.findAll('section.sheet').map((s) => s.findAll('tbody th b').map((b) => b.text()))
    // the largest rate first, the part without one last
    expect(rows[1]).toEqual(['D1', 'HS1'])
    expect(rows[2]).toEqual(['U1', 'R1'])
    expect(wrapper.text()).toContain('the handbook has no model of a heatsink')
    expect(wrapper.get('.remark').text()).toBe('Good for comparing designs.')
    expect(wrapper.text()).toContain('from memory')
    expect(wrapper.text()).not.toMatch(/NaN|undefined|Infinity/u)
    wrapper.unmount()
  })

  it('opens every equation with its numbers', async () => {
    const { wrapper } = await mountDetail(ReliabilityScreen, study, answerOfBought(), () => inspectionOfBought())
    const details = wrapper.get('details.equations')
    expect(details.find('table').exists()).toBe(false)
    ;(details.element as HTMLDetailsElement).open = true
    await details.trigger('toggle')
    const first = details.findAll('tbody tr').map((row) => row.text())
    // five parts with six to seven factors and one product each
    expect(first.length).toBeGreaterThan(30)
    expect(plain(details.text())).toContain('0.71 · exp(1.1 · S)')
    expect(details.text()).toContain('MIL-HDBK-217F Notice 2, section 9.1')
    wrapper.unmount()
  })

  it('changes environment and quality in the study, as a step that can be undone', async () => {
    const { wrapper, studies } = await mountDetail(ReliabilityScreen, study, answerOfBought(), () =>
      inspectionOfBought(),
    )
    const select = wrapper.get<HTMLSelectElement>('select[data-path="assumptions.quality"]')
    const place = select.findAll('option').findIndex((option) => option.text() === 'military, screened')
    await select.setValue(String(place))
    expect(studies.study.assumptions.quality).toBe('military')
    expect(studies.undoStep?.label).toBe('Quality of the parts commercial → military, screened')
    studies.undo()
    expect(studies.study.assumptions.quality).toBe('commercial')
    wrapper.unmount()
  })
})
