/** The screens' names are replaced by nine, as many as the header must bear. */
import { mount } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it, vi } from 'vitest'
import { SCREENS } from '../../../../web/screens/names.ts'
import ScreenNav from '../../../../web/panels/header/ScreenNav.vue'
import { useScreenStore } from '../../../../web/store/screen.ts'

const names = vi.hoisted(() => ({ SCREENS: [] as { name: string; title: string }[] }))
vi.mock('../../../../web/screens/names.ts', () => names)

const NINE = ['Compare', 'Spread', 'Heat', 'Ratings', 'Faults', 'Reliability', 'Cost & area', 'Working', 'Brief']
const nameOf = (title: string) => title.toLowerCase().replace(/\W+/gu, '-')

vi.hoisted(() => {
  // the store takes the first screen when it is loaded
  names.SCREENS.push({ name: 'compare', title: 'Compare' })
})

function nav(count: number) {
  names.SCREENS.splice(0, Infinity, ...NINE.slice(0, count).map((title) => ({ name: nameOf(title), title })))
  return mount(ScreenNav, { attachTo: document.body })
}

beforeEach(() => {
  location.hash = ''
  document.body.innerHTML = ''
  setActivePinia(createPinia())
})

describe('the way from screen to screen', () => {
  it('is not there while there is one screen', () => {
    expect(nav(1).find('nav').exists()).toBe(false)
    expect(SCREENS).toHaveLength(1)
  })

  it('names every screen, with the one in view marked', async () => {
    const page = nav(9)
    const links = page.findAll('a')
    expect(links.map((link) => link.text())).toEqual(NINE)
    expect(links.map((link) => link.attributes('href'))).toEqual(NINE.map((title) => `#${nameOf(title)}`))
    const current = () => page.findAll('[aria-current=page]').map((link) => link.text())
    expect(current()).toEqual(['Compare'])
    location.hash = '#cost-area'
    window.dispatchEvent(new Event('hashchange'))
    await page.vm.$nextTick()
    expect(current()).toEqual(['Cost & area'])
    expect(useScreenStore().name).toBe('cost-area')
  })

  it('brings the name of the screen in view into view', async () => {
    const page = nav(9)
    const seen = vi.fn<() => void>()
    const last = page.findAll('a').at(-1)!.element
    last.scrollIntoView = seen
    location.hash = '#brief'
    window.dispatchEvent(new Event('hashchange'))
    await page.vm.$nextTick()
    expect(seen).toHaveBeenCalled()
  })
})
