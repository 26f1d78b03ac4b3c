/** The working on the page: every line with formula, numbers, result, source and link, and the solved value beside it. */
import { flushPromises } from '@vue/test-utils'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { inspect } from '../../../engine/compare/details.ts'
import { createSizer } from '../../../engine/compare/sizer.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
import { EXAMPLES } from '../../../web/examples/index.ts'
import WorkingScreen from '../../../web/screens/working/WorkingScreen.vue'
import { linesOf, workingText } from '../../../web/screens/working/lines.ts'
import { unbuiltDesign } from '../../fixtures/answers/sample.ts'
import { solvedAnswer } from '../../fixtures/answers/solved.ts'
import { mountDetail } from './detailScreens.ts'

const { study } = EXAMPLES[0]!
const answer = solvedAnswer(study)
const { designs } = answer.comparison

function detailsOf() {
  const job = inspect(study, ['handValues'], createSizer())
  for (;;) {
    const step = job.next()
    if (step.done) return step.value
  }
}
const inspection = detailsOf()
const plain = (text: string) => text.replace(/\s+/gu, ' ')
const open = () => mountDetail(WorkingScreen, study, answer, () => inspection)

afterEach(() => {
  vi.restoreAllMocks()
  history.replaceState(null, '', '#')
})

describe('the screen', () => {
  it('shows every line of every working once, with its result, its source and a link to itself', async () => {
    const { wrapper } = await open()
    for (const { topology, derivation } of designs) {
      const panel = wrapper.get(`[data-topology="${topology}"]`)
      const rows = panel.findAll('tr.line')
      expect(rows).toHaveLength(derivation.length)
      for (const [k, { symbol, quantity, value, unit, source }] of derivation.entries()) {
        const row = rows[k]!
        expect(row.attributes('id')).toBe(`working/${topology}/${symbol}`)
        expect(row.get('a').attributes('href')).toBe(`#working/${topology}/${symbol}`)
        expect(row.get('th').text()).toContain(quantity)
        expect(plain(row.text())).toContain(plain(source))
        expect(plain(row.get('td.number').text())).toContain(plain(formatQuantity(value, unit)))
        expect(row.findAll('math').length).toBeGreaterThan(0)
      }
    }
    expect(wrapper.text()).not.toMatch(/NaN|undefined|Infinity|\[object/u)
    const ids = wrapper.findAll('[id]').map((each) => each.attributes('id'))
    expect(new Set(ids).size).toBe(ids.length)
    wrapper.unmount()
  })

  it('puts the numbers into the formula: as many as it has symbols, each as it is printed in its own line', async () => {
    const { wrapper } = await open()
    const row = wrapper.get('[id="working/series-pass/P_pass"]')
    const value = (symbol: string) => {
      const line = designs[1]!.derivation.find((each) => each.symbol === symbol)!
      return formatQuantity(line.value, line.unit)
    }
    expect(row.get('.formula').text()).toBe('Ppass=(Vin,max−Vout,lo)·Iout,max'.replace('=', ' = '))
    expect(row.get('.numbers').text()).toBe(`= (${value('Vin_max')}−${value('Vout_lo')})·${value('Iout_max')}`)
    wrapper.unmount()
  })

  it('says which preferred value was taken, for which part and why', async () => {
    const { wrapper } = await open()
    const row = wrapper.get('[id="working/series-pass/Rs"]')
    expect(plain(row.get('.formula').text())).toContain('preferred value at or below')
    expect(row.get('.numbers').text()).toMatch(/preferred value at or below .+Ω/u)
    expect(row.attributes('data-part')).toBe('R1')
    expect(row.element.nextElementSibling?.textContent).toContain('Rounded down, so that')
    wrapper.unmount()
  })

  it('stands the solved value beside the one by hand, with where it was read and why they differ', async () => {
    const { wrapper } = await open()
    for (const [k, { topology }] of designs.entries())
      for (const { symbol, solved, because } of inspection[k]!.handValues!) {
        const line = designs[k]!.derivation.find((each) => each.symbol === symbol)!
        const row = wrapper.get(`[id="working/${topology}/${symbol}"]`)
        const text = formatQuantity(solved, line.unit)
        expect(row.get('.solved').text()).toBe(text)
        expect(row.element.nextElementSibling?.textContent).toContain(`Solved ${text}`)
        expect(row.element.nextElementSibling?.textContent).toContain(because)
      }
    // Boltzmann's junction, not a fixed one
    const vbe = wrapper.get('[id="working/series-pass/Vbe"]')
    expect(vbe.element.nextElementSibling?.textContent).toMatch(/By hand the junction is at 25 °C/u)
    expect(plain(wrapper.get('h1').text())).toMatch(/^By hand the output is .+ V for shunt \(solved .+ V\)/u)
    wrapper.unmount()
  })

  it('marks the line that the address names', async () => {
    history.replaceState(null, '', '#working/shunt/Rs')
    const { wrapper } = await open()
    expect(wrapper.findAll('tr.line.here').map((row) => row.attributes('id'))).toEqual(['working/shunt/Rs'])
    wrapper.unmount()
  })

  it('copies the whole working of a design as plain text, and says so', async () => {
    const writeText = vi.fn<(text: string) => Promise<void>>(() => Promise.resolve())
    vi.spyOn(navigator.clipboard, 'writeText').mockImplementation(writeText)
    const { wrapper } = await open()
    await wrapper.get('[data-topology="feedback"] button').trigger('click')
    await flushPromises()
    const [text] = writeText.mock.calls[0]!
    const { derivation } = designs[2]!
    expect(text.split('\n')).toHaveLength(derivation.length + 1)
    for (const line of derivation) {
      expect(text).toContain(`${line.quantity}: ${line.symbol} = `)
      expect(text).toContain(`Source: ${line.source}.`)
    }
    expect(text).not.toMatch(/[<>]|NaN|undefined/u)
    expect(wrapper.get('[data-topology="feedback"] [role="status"]').text()).toBe(`${derivation.length} lines copied.`)
    wrapper.unmount()
  })
})

describe('a line', () => {
  it('as text has the formula, its numbers, the result, the solved value and the source', () => {
    const lines = linesOf(designs[0]!, answer.formulas[0]!, inspection[0]!.handValues)
    const text = workingText(designs[0]!, lines)
    const line = designs[0]!.derivation.find(({ symbol }) => symbol === 'Vout_nom')!
    const row = text.split('\n').find((each) => each.includes(': Vout_nom = '))!
    expect(row).toContain(
      `Vout_nom = ${line.formula} = ${line.substituted} = ${formatQuantity(line.value, line.unit)}.`,
    )
    expect(row).toMatch(/Solved: .+\sV \(.+; nominal parts\)\. Solved, the diode holds/u)
  })

  it('is none for a design that could not be built', () => {
    expect(linesOf(unbuiltDesign('shunt'), [])).toEqual([])
  })
})
