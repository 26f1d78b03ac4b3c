import { mount } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it } from 'vitest'
import PageHeader from '../../../../web/panels/header/PageHeader.vue'
import { useStudyStore } from '../../../../web/store/study.ts'

beforeEach(() => {
  localStorage.clear()
  sessionStorage.clear()
  setActivePinia(createPinia())
})

function header() {
  const page = mount(PageHeader, { attachTo: document.body })
  const button = (label: string) => page.get<HTMLButtonElement>(`button[aria-label^="${label}"]`)
  return { page, button, store: useStudyStore() }
}

describe('the header', () => {
  it('says on the undo button what it will undo, and undoes it', async () => {
    const { button, store } = header()
    expect(button('Undo').element.disabled).toBe(true)
    const before = store.study.requirements.input.max
    store.enter('input.max', String(before + 1))
    await Promise.resolve()
    expect(button('Undo').attributes('aria-label')).toMatch(/^Undo: Highest input voltage .* → /u)
    await button('Undo').trigger('click')
    expect(store.study.requirements.input.max).toBe(before)
    expect(button('Undo').element.disabled).toBe(true)
    await button('Redo: Highest').trigger('click')
    expect(store.study.requirements.input.max).toBe(before + 1)
  })

  it('opens an example as one step that can be undone', async () => {
    const { page, store } = header()
    const second = store.examples[1]!
    const entry = page.findAll('button').find((b) => b.text().startsWith(second.study.title))!
    await entry.trigger('click')
    expect(store.study).toEqual(second.study)
    store.undo()
    expect(store.study).toEqual(store.examples[0]!.study)
  })

  it('keeps the chosen theme', async () => {
    const { button } = header()
    await button('Switch to the').trigger('click')
    const chosen = document.documentElement.dataset['theme']
    expect(['light', 'dark']).toContain(chosen)
    expect(localStorage.getItem('wattfork.theme')).toBe(chosen)
    await button('Follow the system').trigger('click')
    expect(document.documentElement.dataset['theme']).toBeUndefined()
  })
})
