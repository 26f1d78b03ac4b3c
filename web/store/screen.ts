/** Which screen is in view. It stands in the address, so that a reload, a bookmark and the browser's way back keep it. */
import { ref } from 'vue'
import { defineStore } from 'pinia'
import { useEventListener } from '@vueuse/core'
import { SCREENS } from '../screens/names.ts'
import type { ScreenName } from '../screens/names.ts'

const FIRST = SCREENS[0]!.name

/** A fragment is a screen's name, followed by a place within it or not: `#working/shunt/Rs`. */
const namesScreen = (hash: string): boolean =>
  SCREENS.some(({ name }) => hash === `#${name}` || hash.startsWith(`#${name}/`))

/** The screen that an address fragment names; the first where it names none. */
export function screenOf(hash: string): ScreenName {
  const [name] = hash.replace(/^#/u, '').split('/')
  return SCREENS.find((screen) => screen.name === name)?.name ?? FIRST
}

export const useScreenStore = defineStore('screen', () => {
  const name = ref<ScreenName>(screenOf(location.hash))
  useEventListener(window, 'hashchange', () => {
    // other fragments are places within the screen in view
    if (namesScreen(location.hash) || location.hash === '') name.value = screenOf(location.hash)
  })
  return { name }
})
