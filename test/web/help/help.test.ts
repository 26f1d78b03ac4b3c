import { mount } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it } from 'vitest'
import { FIGURES } from '../../../engine/figures/index.ts'
import FirstSteps from '../../../web/help/FirstSteps.vue'
import { placed } from '../../../web/help/place.ts'
import { TERMS } from '../../../web/help/terms.ts'
import { BINDINGS, meant } from '../../../web/keys/keys.ts'
import { useStudyStore } from '../../../web/store/study.ts'

beforeEach(() => {
  localStorage.clear()
  sessionStorage.clear()
  setActivePinia(createPinia())
})

const press = (key: string, held: Partial<KeyboardEvent> = {}) => ({
  key,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  shiftKey: false,
  ...held,
})

describe('help', () => {
  it('says of every figure and every term what it is and why it matters', () => {
    const texts = [
      ...FIGURES.flatMap(({ help, matters }) => [help, matters]),
      ...Object.values(TERMS).flatMap(({ is, matters }) => [is, matters]),
    ]
    expect(texts.filter((text) => !/^[^a-z].{20,}[.?]$/u.test(text))).toEqual([])
  })

  it('stays inside the page at both edges, and goes above its mark at the bottom', () => {
    const view = { width: 320, height: 600 }
    const sheet = { width: 296, height: 200 }
    expect(placed({ left: 300, top: 20, bottom: 44 }, sheet, view)).toEqual({ left: 12, top: 48 })
    expect(placed({ left: 2, top: 560, bottom: 584 }, sheet, view)).toEqual({ left: 12, top: 356 })
  })
})

describe('the keys', () => {
  it('mean one thing each, and what the list says', () => {
    for (const { action, chords } of BINDINGS) {
      for (const { key, withControl = false, withShift = false } of chords) {
        expect(meant(press(key, { ctrlKey: withControl, shiftKey: withShift }))?.action).toBe(action)
      }
    }
  })

  it('leave the browser its own', () => {
    expect(meant(press('p', { ctrlKey: true }))).toBeUndefined()
    expect(meant(press('n', { altKey: true }))).toBeUndefined()
    expect(meant(press('R', { shiftKey: true }))).toBeUndefined()
    expect(meant(press('?', { shiftKey: true }))?.action).toBe('help')
  })
})

describe('the first line', () => {
  const shown = () => {
    const line = mount(FirstSteps)
    const is = line.find('aside').exists()
    return { line, is }
  }

  it('goes with the first edit and not with another study', async () => {
    const { line, is } = shown()
    expect(is).toBe(true)
    const store = useStudyStore()
    store.loadStudy(store.examples[1]!.study)
    await line.vm.$nextTick()
    expect(line.find('aside').exists()).toBe(true)
    expect(store.enter('input.max', String(store.study.requirements.input.max + 0.5))).toBe(true)
    await line.vm.$nextTick()
    expect(line.find('aside').exists()).toBe(false)
    line.unmount()
    setActivePinia(createPinia())
    expect(shown().is).toBe(false)
  })

  it('stays while a handle is held and goes when that is let go', async () => {
    const { line } = shown()
    const store = useStudyStore()
    store.edit('input.max', store.study.requirements.input.max + 0.5, { gesture: 'drag' })
    await line.vm.$nextTick()
    expect(line.find('aside').exists()).toBe(true)
    window.dispatchEvent(new Event('pointerup'))
    await line.vm.$nextTick()
    expect(line.find('aside').exists()).toBe(false)
  })
})
