/** Ways of the page that a key or a sentence leads along. */
import { nextTick } from 'vue'
import { SCREENS } from '../screens/names.ts'
import { screenOf } from '../store/screen.ts'

/** The screen that many places further on, round and round. */
export function goToScreen(steps: number): void {
  // the address is ahead of what is shown while a key is pressed again
  const from = screenOf(location.hash)
  const at = SCREENS.findIndex(({ name }) => name === from)
  location.hash = SCREENS[(at + steps + SCREENS.length) % SCREENS.length]!.name
}

/** Unfolds the requirements where they are folded, and begins with one of them. */
export async function goToRequirement(path: string): Promise<void> {
  for (const fold of document.querySelectorAll<HTMLElement>('[aria-controls="requirements"][aria-expanded="false"]')) {
    fold.click()
  }
  await nextTick()
  const entry = document.querySelector<HTMLElement>(`input[data-path="${path}"]`)
  entry?.scrollIntoView({ block: 'center' })
  entry?.focus()
}
