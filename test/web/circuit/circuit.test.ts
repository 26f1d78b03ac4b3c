/** A circuit on the page and as a file: every part and node with the numbers of its point, and nothing that breaks the file. */
import { mount } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it } from 'vitest'
import type { Design } from '../../../engine/compare/comparison.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
import CircuitDiagram from '../../../web/circuit/CircuitDiagram.vue'
import { type Live, liveAt, liveOfPoint } from '../../../web/circuit/live.ts'
import { circuitSvg } from '../../../web/circuit/svg.ts'
import { tintOf } from '../../../web/circuit/tint.ts'
import { ratingUses } from '../../../web/panels/parts/uses.ts'
import CircuitScreen from '../../../web/screens/circuit/CircuitScreen.vue'
import { useCursorStore } from '../../../web/store/cursor.ts'
import { solvedAnswer } from '../../fixtures/answers/solved.ts'
import { EXAMPLES } from '../../../web/examples/index.ts'
import { mountDetail } from '../screens/detailScreens.ts'

const study = EXAMPLES[0]!.study
const answer = solvedAnswer(study)
const { input, load, ambient } = study.requirements
const cases = answer.comparison.designs.map((design, k) => {
  const { circuit } = design
  const byInput = answer.curves[k]?.byInput
  if (!circuit || !byInput) throw new Error('the example has three circuits')
  return { topology: design.topology, design, circuit, byInput }
})

describe.each(cases)('$topology', ({ design, circuit, byInput }) => {
  const live = liveAt(circuit, byInput, input.nominal)

  it('shows at the cursor what the solved operating point has', () => {
    const point = design.operatingPoints!.find(
      ({ condition: c }) => c.input === input.nominal && c.load === load.max && c.ambient === ambient.nominal,
    )
    expect(point).toBeDefined()
    const solved = liveOfPoint(circuit, point!)
    expect([...live.volts.keys()].toSorted()).toEqual([...solved.volts.keys()].toSorted())
    // the sweep is taken as straight between two of its points: a ten-thousandth, where three figures are shown
    const near = (shown = 0, exact = 0) => Math.abs(shown - exact) <= 1e-4 * Math.abs(exact)
    for (const [node, volts] of live.volts) expect(near(volts, solved.volts.get(node)), node).toBe(true)
    for (const [id, part] of live.parts)
      for (const key of ['heat', 'current', 'across'] as const)
        expect(near(part[key], solved.parts.get(id)![key]), `${id} ${key}`).toBe(true)
  })

  it("obeys Kirchhoff's current law at every node that is shown, over the whole sweep", () => {
    for (const node of live.volts.keys()) {
      const into = Object.keys(byInput.columns).filter(
        (name) => name.startsWith('amperes.') && name.endsWith(`.${node}`),
      )
      expect(into.length, node).toBeGreaterThan(1)
      for (let k = 0; k < byInput.axis.length; k++) {
        let sum = 0
        for (const name of into) sum += byInput.columns[name]![k]!
        // amperes: the solver's residual, far under a nanoampere
        expect(Math.abs(sum), `${node} at ${byInput.axis[k]} V`).toBeLessThan(1e-9)
      }
    }
  })

  it('stands whole in a file of its own, with every number of the point', () => {
    const text = circuitSvg(design, { live, isTinted: true, at: '12 V in' })!
    const file = new DOMParser().parseFromString(text, 'image/svg+xml')
    expect(file.querySelector('parsererror')).toBeNull()
    expect(text).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" /u)
    expect(text).not.toMatch(/NaN|undefined|Infinity|var\(|href|<script|<foreignObject/u)
    const drawn = new Set([...file.querySelectorAll('g.part')].map((part) => part.getAttribute('data-part')))
    const wired = new Set(circuit.elements.map(({ part }) => part).filter((part) => part !== 'input'))
    expect(drawn).toEqual(wired)
    const texts = [...file.querySelectorAll('text')].map((each) => each.textContent)
    const inner = new Set([...file.querySelectorAll('[data-node]')].map((node) => node.getAttribute('data-node')))
    const carried = [...live.parts].flatMap(([, { current }]) =>
      current === undefined ? [] : [formatQuantity(current, 'A')],
    )
    const held = [...live.volts].filter(([node]) => inner.has(node)).map(([, volts]) => formatQuantity(volts, 'V'))
    expect(texts).toEqual(expect.arrayContaining([...carried, ...held]))
  })

  it('tints warm where heat is the most used rating, and nothing else', () => {
    const text = circuitSvg(design, { live, isTinted: true })!
    const file = new DOMParser().parseFromString(text, 'image/svg+xml')
    for (const part of design.parts) {
      const tint = file.querySelector(`[data-part="${part.id}"] .tint`)
      const [most] = ratingUses(part)
      if (!most || !circuit.elements.some((e) => e.part === part.id)) continue
      const depth = Math.min(Math.floor(most.use * 4), 3)
      expect(tint?.getAttribute('class')?.split(' ')).toEqual(
        expect.arrayContaining([`${most.isHeat ? 'heat' : 'ink'}${depth}`, ...(part.margin < 0 ? ['over'] : [])]),
      )
    }
    expect(circuitSvg(design)).not.toContain('class="tint')
  })
})

const shunt = cases[0]!
const diagram = (props: Partial<InstanceType<typeof CircuitDiagram>['$props']> = {}) =>
  mount(CircuitDiagram, {
    props: { design: shunt.design, live: liveAt(shunt.circuit, shunt.byInput, input.nominal), ...props },
  })

describe('the diagram', () => {
  it('says every part aloud: what it is, what it carries, how hard it is used', () => {
    const wrapper = diagram()
    const r1 = wrapper.get('.part[data-part="R1"]')
    expect(r1.attributes('aria-label')).toMatch(/^R1, series resistor, .+\sm?A, .+\sm?W, power at worst .+ of .+$/u)
    expect(r1.attributes('tabindex')).toBe('0')
    for (const part of wrapper.findAll('.part')) expect(part.attributes('aria-label')).toBeTruthy()
    expect(wrapper.attributes('aria-label')).toMatch(/^Shunt, circuit: /u)
  })

  it('lights up the part that it is told', () => {
    const lit = diagram({ highlight: 'R1' }).findAll('.lit')
    // what lies behind it, and the symbol itself
    expect(lit.map((each) => each.attributes('data-part'))).toEqual(['R1', 'R1'])
    expect(diagram().findAll('.lit')).toHaveLength(0)
  })

  it('has names alone where it is brief, no numbers where no point is shown, and no tint before the proof', () => {
    expect(diagram({ isBrief: true }).findAll('text.current, text.type, text.heat')).toHaveLength(0)
    const silent = diagram({ live: undefined, isUnproven: true })
    expect(silent.findAll('text.current, text.volts, .tint')).toHaveLength(0)
    expect(silent.text()).not.toMatch(/NaN|undefined/u)
  })

  it('marks an output outside of its band with more than a colour', () => {
    expect(diagram({ isOutside: true }).findAll('.outside .wave')).toHaveLength(1)
    expect(diagram().findAll('.wave')).toHaveLength(0)
  })

  it('shows a dash, not a number, where the cursor is beyond the sweep', () => {
    const beyond: Live = liveAt(shunt.circuit, shunt.byInput, input.max * 3)
    expect(
      diagram({ live: beyond })
        .findAll('.volts')
        .map((each) => each.text()),
    ).toContain('—')
  })
})

it('a part number of the catalogue cannot break out of the file', () => {
  const hostile: Design = {
    ...shunt.design,
    variant: 'a <script>&"',
    parts: shunt.design.parts.map((part) => (part.id === 'D1' ? { ...part, partNumber: '<x>&"\u0001' } : part)),
  }
  const text = circuitSvg(hostile)!
  expect(new DOMParser().parseFromString(text, 'image/svg+xml').querySelector('parsererror')).toBeNull()
  expect(text).toContain('&lt;x&gt;&amp;&quot;')
  expect(text).not.toMatch(/<x>|<script/u)
  expect(text).not.toContain('\u0001')
})

it('a design without a circuit has no file', () => {
  const { circuit: _circuit, ...unbuilt } = shunt.design
  expect(circuitSvg(unbuilt)).toBeUndefined()
})

it('a rating that is not used up leaves the lightest shade, one beyond the rating the deepest and a dashed edge', () => {
  const part = shunt.design.parts.find(({ id }) => id === 'R1')!
  const of = (power: number, margin: number) => tintOf({ ...part, ratings: { power: 1 }, stress: { power }, margin })
  expect(of(0.1, 0.8)).toEqual({ isHeat: true, depth: 0, isOver: false })
  expect(of(3, -2)).toEqual({ isHeat: true, depth: 3, isOver: true })
  expect(tintOf({ ...part, ratings: { voltage: 10 }, stress: { voltage: 6 }, margin: 0.4 })).toEqual({
    isHeat: false,
    depth: 2,
    isOver: false,
  })
  expect(tintOf({ ...part, ratings: {}, stress: {} })).toBeUndefined()
})

describe('the screen', () => {
  beforeEach(() => setActivePinia(createPinia()))

  it('shows every part in the diagram and in the table of its own topology', async () => {
    const { wrapper } = await mountDetail(CircuitScreen, study, answer, () => [{}, {}, {}])
    for (const { design, circuit } of cases) {
      const panel = wrapper.get(`[data-topology="${design.topology}"]`)
      expect(panel.findAll('tr[data-part]').map((row) => row.attributes('data-part'))).toEqual(
        design.parts.map(({ id }) => id),
      )
      for (const { part } of circuit.elements.filter((e) => e.part !== 'input'))
        expect(panel.findAll(`svg .part[data-part="${part}"]`)).toHaveLength(1)
    }
    wrapper.unmount()
  })

  it('has a title that follows the cursor, and numbers in the table that are those of the diagram', async () => {
    const { wrapper } = await mountDetail(CircuitScreen, study, answer, () => [{}, {}, {}])
    const plain = (text: string) => text.replace(/\s+/gu, ' ')
    const before = wrapper.get('h1').text()
    useCursorStore().set(input.max)
    await wrapper.vm.$nextTick()
    expect(wrapper.get('h1').text()).not.toBe(before)
    expect(plain(wrapper.get('h1').text())).toContain(`At ${plain(formatQuantity(input.max, 'V'))} in`)
    for (const { design, circuit, byInput } of cases) {
      const panel = wrapper.get(`[data-topology="${design.topology}"]`)
      for (const [id, { current }] of liveAt(circuit, byInput, input.max).parts) {
        if (current === undefined || id === 'load') continue
        const text = formatQuantity(current, 'A')
        expect(panel.get(`.part[data-part="${id}"] .current`).text()).toBe(text)
        expect(panel.get(`tr[data-part="${id}"]`).text()).toContain(text)
      }
    }
    wrapper.unmount()
  })
})
