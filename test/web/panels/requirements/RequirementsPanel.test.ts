import { mount } from '@vue/test-utils'
import type { DOMWrapper } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it } from 'vitest'
import RequirementsPanel from '../../../../web/panels/requirements/RequirementsPanel.vue'
import { useCursorStore } from '../../../../web/store/cursor.ts'
import { useStudyStore } from '../../../../web/store/study.ts'

function opened() {
  const pinia = createPinia()
  setActivePinia(pinia)
  const store = useStudyStore()
  const [first] = store.examples
  const { requirements } = first!.study
  store.loadStudy({
    ...first!.study,
    requirements: {
      ...requirements,
      input: { ...requirements.input, min: 9, nominal: 11, max: 14, ripple: 0.1 },
      output: { voltage: 5, tolerance: 0.05 },
      load: { min: 0, nominal: 0.04, max: 0.08, permanent: false },
    },
  })
  const panel = mount(RequirementsPanel, { global: { plugins: [pinia] }, attachTo: document.body })
  const field = (path: string) => panel.get<HTMLInputElement>(`input[data-path="${path}"]`)
  const handle = (key: string) => panel.get(`[data-handle="${key}"]`)
  return { store, panel, field, handle }
}

type Field = Pick<DOMWrapper<HTMLInputElement>, 'element' | 'trigger' | 'setValue'>

const value = (field: Field) => field.element.value.replace(/\s/gu, ' ')

async function write(field: Field, text: string) {
  await field.trigger('focus')
  await field.setValue(text)
}

beforeEach(() => {
  localStorage.clear()
  sessionStorage.clear()
  document.body.innerHTML = ''
})

describe('a unit entry', () => {
  it('counts on leaving, and is rewritten with three figures', async () => {
    const { store, field } = opened()
    await write(field('input.max'), '14500m')
    expect(store.study.requirements.input.max).toBe(14)
    await field('input.max').trigger('blur')
    expect(store.study.requirements.input.max).toBe(14.5)
    expect(value(field('input.max'))).toBe('14.5 V')
  })

  it('counts on Enter', async () => {
    const { store, field } = opened()
    await write(field('load.max'), '90m')
    await field('load.max').trigger('keydown', { key: 'Enter' })
    expect(store.study.requirements.load.max).toBe(0.09)
    expect(value(field('load.max'))).toBe('90.0 mA')
  })

  it('does not touch the value when nothing was typed', async () => {
    const { store, field } = opened()
    store.enter('input.max', '13.8765')
    const before = store.study
    await field('input.max').trigger('focus')
    await field('input.max').trigger('blur')
    expect(store.study).toBe(before)
  })

  it('shows a refused text hatched, with a sentence, a fix and what stays in force', async () => {
    const { store, panel, field } = opened()
    await write(field('input.min'), '20')
    await field('input.min').trigger('blur')
    expect(value(field('input.min'))).toBe('20')
    expect(field('input.min').attributes('aria-invalid')).toBe('true')
    const sentence = panel.get(`[id="${field('input.min').attributes('aria-describedby')}"]`)
    expect(sentence.text()).toContain('Lowest input voltage')
    expect(sentence.text().replace(/\s/gu, ' ')).toContain('9.00 V stays in force')
    const use = panel.findAll('button').find((button) => button.text().startsWith('Use'))!
    expect(use.text().replace(/\s/gu, ' ')).toBe('Use 11.0 V')
    await use.trigger('click')
    expect(store.study.requirements.input.min).toBe(11)
    expect(field('input.min').attributes('aria-invalid')).toBeUndefined()
  })

  it('counts when the page is left in the middle of it', async () => {
    const { store, field } = opened()
    await write(field('output.voltage'), '6')
    window.dispatchEvent(new Event('pagehide'))
    expect(store.study.requirements.output.voltage).toBe(6)
  })

  it('prints a message with true minus signs, and names the field whose value stays', async () => {
    const { panel, field } = opened()
    await write(field('ambient.min'), '-60')
    await field('ambient.min').trigger('blur')
    expect(panel.get('[id="problem-ambient.min"]').text()).toContain('−60\u202F°C')
    await write(field('load.max'), '10 mA')
    await field('load.max').trigger('blur')
    expect(panel.get('[id="problem-load.max"]').text()).toContain('Most load current stays at 80.0\u202FmA.')
  })

  it('gives up what is being typed on Escape', async () => {
    const { store, field } = opened()
    await write(field('input.max'), '99')
    await field('input.max').trigger('keydown', { key: 'Escape' })
    expect(value(field('input.max'))).toBe('14.0 V')
    await field('input.max').trigger('blur')
    expect(store.study.requirements.input.max).toBe(14)
  })

  it('gives up a refused text on Escape', async () => {
    const { field } = opened()
    await write(field('input.max'), '3')
    await field('input.max').trigger('keydown', { key: 'Enter' })
    expect(field('input.max').attributes('aria-invalid')).toBe('true')
    await field('input.max').trigger('keydown', { key: 'Escape' })
    expect(value(field('input.max'))).toBe('14.0 V')
    expect(field('input.max').attributes('aria-invalid')).toBeUndefined()
  })

  it('takes choices and weights', async () => {
    const { store, panel, field } = opened()
    const series = panel.get<HTMLSelectElement>('select[data-path="parts.resistorSeries"]')
    await series.setValue(String(series.findAll('option').findIndex((option) => option.text() === 'E12')))
    expect(store.study.requirements.parts.resistorSeries).toBe('E12')
    await write(field('weights.heat'), '9')
    await field('weights.heat').trigger('blur')
    expect(store.study.weights['heat']).toBe(9)
    await write(field('weights.heat'), '11')
    await field('weights.heat').trigger('blur')
    expect(store.study.weights['heat']).toBe(9)
    expect(field('weights.heat').attributes('aria-invalid')).toBe('true')
  })
})

describe('a handle', () => {
  it('says what it is and what it stands at', () => {
    const { handle } = opened()
    const max = handle('input.max')
    expect(max.attributes('role')).toBe('slider')
    expect(max.attributes('aria-label')).toBe('Highest input voltage')
    expect(max.attributes('aria-valuenow')).toBe('14')
    expect(max.attributes('aria-valuetext')!.replace(/\s/gu, ' ')).toBe('14.0 V')
    expect(Number(max.attributes('aria-valuemin'))).toBeLessThanOrEqual(14)
    expect(Number(max.attributes('aria-valuemax'))).toBeGreaterThanOrEqual(14)
  })

  it('moves by the last shown digit, with Shift by ten of them', async () => {
    const { store, handle } = opened()
    await handle('input.max').trigger('keydown', { key: 'ArrowRight' })
    expect(store.study.requirements.input.max).toBe(14.1)
    await handle('input.max').trigger('keydown', { key: 'ArrowUp', shiftKey: true })
    expect(store.study.requirements.input.max).toBe(15.1)
    await handle('input.min').trigger('keydown', { key: 'ArrowLeft' })
    expect(store.study.requirements.input.min).toBe(8.99)
    await handle('input.min').trigger('keydown', { key: 'PageDown' })
    expect(store.study.requirements.input.min).toBe(8.89)
  })

  it('stops at its neighbours', async () => {
    const { store, handle } = opened()
    await handle('input.max').trigger('keydown', { key: 'Home' })
    expect(store.study.requirements.input.max).toBe(11)
    for (let i = 0; i < 12; i++) await handle('input.min').trigger('keydown', { key: 'ArrowRight', shiftKey: true })
    expect(store.study.requirements.input.min).toBe(10)
    for (let i = 0; i < 12; i++) await handle('input.min').trigger('keydown', { key: 'ArrowRight' })
    // the ripple of 0.1 V has to fit between the two
    expect(store.study.requirements.input.min).toBeGreaterThan(10.7)
    expect(store.study.requirements.input.min).toBeLessThan(10.9)
    expect(store.entries).toEqual({})
  })

  it('makes one undo step of a held key, and one of each tap', async () => {
    const { store, handle } = opened()
    const steps = store.undoSteps.length
    await handle('input.max').trigger('keydown', { key: 'ArrowRight' })
    for (let i = 0; i < 5; i++) await handle('input.max').trigger('keydown', { key: 'ArrowRight', repeat: true })
    expect(store.undoSteps.length).toBe(steps + 1)
    await handle('input.max').trigger('keydown', { key: 'ArrowRight' })
    expect(store.undoSteps.length).toBe(steps + 2)
  })

  it('of the band moves both edges', async () => {
    const { store, handle } = opened()
    await handle('output.high').trigger('keydown', { key: 'ArrowRight' })
    expect(store.study.requirements.output.tolerance).toBeCloseTo(0.26 / 5, 12)
    await handle('output.low').trigger('keydown', { key: 'ArrowRight' })
    expect(store.study.requirements.output.tolerance).toBeCloseTo(0.25 / 5, 12)
    expect(store.study.requirements.output.voltage).toBe(5)
  })

  it('leaves a least load of 0 by one step of its scale', async () => {
    const { store, handle } = opened()
    await handle('load.min').trigger('keydown', { key: 'ArrowRight' })
    expect(store.study.requirements.load.min).toBeGreaterThan(0)
    expect(store.study.requirements.load.min).toBeLessThan(0.04)
  })

  it('is pulled from under another one that lies at its place', async () => {
    const { store, panel, handle } = opened()
    const bar = panel.get('.input .scale').element as HTMLElement
    bar.getBoundingClientRect = () => new DOMRect(0, 0, 100, 36)
    store.edit('input.nominal', 9)
    await panel.vm.$nextTick()
    const { scale } = useCursorStore()
    const at = (volts: number) => (100 * (volts - scale.min)) / (scale.max - scale.min)
    // the diamond lies on top: it gets the press
    const top = handle('input.nominal')
    ;(top.element as HTMLElement).setPointerCapture = () => {}
    const pointer = (type: string, clientX: number) =>
      top.trigger(type, { clientX, button: 0, buttons: 1, pointerId: 1 })
    await pointer('pointerdown', at(9))
    await pointer('pointermove', at(8))
    await pointer('pointerup', at(8))
    expect(store.study.requirements.input).toMatchObject({ min: 8, nominal: 9 })
    store.undo()
    await panel.vm.$nextTick()
    await pointer('pointerdown', at(9))
    await pointer('pointermove', at(10))
    await pointer('pointerup', at(10))
    expect(store.study.requirements.input).toMatchObject({ min: 9, nominal: 10 })
  })

  it('follows a drag, past the end of the scale too, in one undo step', async () => {
    const { store, panel, handle } = opened()
    const cursor = useCursorStore()
    const { min, max } = cursor.scale
    const bar = panel.get('.input .scale').element as HTMLElement
    // 100 px wide, beginning at 0: one px is a hundredth of the scale
    bar.getBoundingClientRect = () => new DOMRect(0, 0, 100, 36)
    const at = (volts: number) => (100 * (volts - min)) / (max - min)
    const element = handle('input.max')
    ;(element.element as HTMLElement).setPointerCapture = () => {}
    const steps = store.undoSteps.length
    const pointer = (type: string, clientX: number) =>
      element.trigger(type, { clientX, button: 0, buttons: 1, pointerId: 1 })

    await pointer('pointerdown', at(14))
    await pointer('pointermove', at(15))
    expect(store.study.requirements.input.max).toBeCloseTo(15, 1)
    await pointer('pointermove', 125)
    const reached = store.study.requirements.input.max
    expect(reached).toBeGreaterThan(max)
    expect(cursor.scale.max).toBeGreaterThanOrEqual(reached)
    await pointer('pointermove', -50)
    expect(store.study.requirements.input.max).toBe(11)
    await pointer('pointerup', -50)
    expect(store.undoSteps.length).toBe(steps + 1)
    store.undo()
    expect(store.study.requirements.input.max).toBe(14)
  })
})
