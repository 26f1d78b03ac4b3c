/** Binds the list of keys to what they do. */
import { useEventListener } from '@vueuse/core'
import { isTyping } from '../store/arrivals.ts'
import { meant } from './keys.ts'
import type { ActionName } from './keys.ts'
import { plainKeys } from './plainKeys.ts'

/** Where a letter already means something: text, or the choice that begins with it. */
function takesLetters(target: EventTarget | null): boolean {
  if (isTyping(target) || target instanceof HTMLSelectElement) return true
  return target instanceof Element && target.closest('[contenteditable]:not([contenteditable="false"])') !== null
}

/** Listens for as long as the component lives. Nothing is done behind an open dialog. */
export function useKeys(actions: Readonly<Record<ActionName, () => void>>): void {
  useEventListener(window, 'keydown', (event: KeyboardEvent) => {
    const found = event.defaultPrevented ? undefined : meant(event)
    if (!found) return
    const isTaken = found.isPlain
      ? !plainKeys.value || event.repeat || takesLetters(event.target)
      : isTyping(event.target)
    if (isTaken || document.querySelector('dialog[open]')) return
    event.preventDefault()
    actions[found.action]()
  })
}
