/** A part that is looked at lights up wherever it is shown, within its own topology. */
import { mount } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { nextTick } from 'vue'
import PartLight from '../../../web/look/PartLight.vue'
import { useHighlightStore } from '../../../web/store/highlight.ts'

beforeEach(() => setActivePinia(createPinia()))
afterEach(() => document.body.replaceChildren())

function page() {
  document.body.innerHTML = `
    <section data-topology="shunt"><p data-part="R1"><a href="#x">R1</a></p><i data-part="6 others"></i></section>
    <section data-topology="feedback"><p data-part="R1">R1</p></section>
    <p data-part="R9">of no topology</p>`
  const wrapper = mount(PartLight)
  return { wrapper, at: (selector: string) => document.querySelector(selector)! }
}

const rule = async (wrapper: ReturnType<typeof page>['wrapper']) => {
  await nextTick()
  return wrapper.text()
}
const over = (element: Element) => element.dispatchEvent(new Event('pointerover', { bubbles: true }))

it('the pointer lights the part that it is within, in that topology alone, until it leaves', async () => {
  const { wrapper, at } = page()
  expect(await rule(wrapper)).toBe('')
  over(at('[data-topology="shunt"] a'))
  expect(await rule(wrapper)).toContain("[data-topology='shunt'] [data-part='R1'] { --lit:")
  over(document.body)
  expect(await rule(wrapper)).toBe('')
  wrapper.unmount()
})

it('the keyboard lights a part as well, and keeps it while the pointer is on no other', async () => {
  const { wrapper, at } = page()
  at('[data-topology="shunt"] a').dispatchEvent(new Event('focusin', { bubbles: true }))
  expect(useHighlightStore().lookedAt).toEqual({ topology: 'shunt', part: 'R1' })
  over(at('[data-topology="feedback"] p'))
  expect(await rule(wrapper)).toContain("'feedback'")
  over(document.body)
  expect(await rule(wrapper)).toContain("'shunt'")
  at('[data-topology="shunt"] a').dispatchEvent(new Event('focusout', { bubbles: true }))
  expect(await rule(wrapper)).toBe('')
  wrapper.unmount()
})

it('what is no single part of a topology stays dark: a sum of others, a part of no topology', async () => {
  const { wrapper, at } = page()
  over(at('i'))
  expect(await rule(wrapper)).toBe('')
  over(at('[data-part="R9"]'))
  expect(await rule(wrapper)).toBe('')
  wrapper.unmount()
})

it('writes nothing into the style sheet but plain names', async () => {
  const { wrapper, at } = page()
  at('[data-topology="feedback"] p').setAttribute('data-part', "x'] { } * { color: red")
  over(at('[data-topology="feedback"] p'))
  expect(await rule(wrapper)).toBe('')
  wrapper.unmount()
})
