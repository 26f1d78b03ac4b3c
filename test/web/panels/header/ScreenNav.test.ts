import { mount } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it, vi } from 'vitest'
import { SCREEN_GROUPS, SCREENS } from '../../../../web/screens/names.ts'
import ScreenNav from '../../../../web/panels/header/ScreenNav.vue'
import { useScreenStore } from '../../../../web/store/screen.ts'

const LAST = SCREENS.at(-1)!

function turnTo(name: string): void {
  location.hash = `#${name}`
  window.dispatchEvent(new Event('hashchange'))
}

beforeEach(() => {
  location.hash = ''
  document.body.innerHTML = ''
  setActivePinia(createPinia())
})

describe('the way from screen to screen', () => {
  it('names every screen once, in lists that say what they are for', () => {
    const page = mount(ScreenNav, { attachTo: document.body })
    const lists = page.findAll('ul[aria-label]')
    expect(lists.map((list) => list.attributes('aria-label'))).toEqual(SCREEN_GROUPS.map(({ purpose }) => purpose))
    expect(lists.map((list) => list.findAll('a').map((link) => link.text()))).toEqual(
      SCREEN_GROUPS.map(({ screens }) => screens.map(({ title }) => title)),
    )
    const names = page.findAll('a').map((link) => link.attributes('href'))
    expect(names).toEqual(SCREENS.map(({ name }) => `#${name}`))
    expect(new Set(names).size).toBe(names.length)
  })

  it('marks the screen in view', async () => {
    const page = mount(ScreenNav, { attachTo: document.body })
    const current = () => page.findAll('[aria-current=page]').map((link) => link.text())
    expect(current()).toEqual([SCREENS[0]!.title])
    turnTo(LAST.name)
    await page.vm.$nextTick()
    expect(current()).toEqual([LAST.title])
    expect(useScreenStore().name).toBe(LAST.name)
  })

  it('brings the name of the screen in view into view', async () => {
    const page = mount(ScreenNav, { attachTo: document.body })
    const seen = vi.fn<() => void>()
    page.findAll('a').at(-1)!.element.scrollIntoView = seen
    turnTo(LAST.name)
    await page.vm.$nextTick()
    expect(seen).toHaveBeenCalled()
  })
})
