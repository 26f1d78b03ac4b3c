/** Studies that come from outside: dropped or pasted files, pasted text, and links with a study in them. */
import { readonly, ref } from 'vue'
import type { Ref } from 'vue'
import { useEventListener } from '@vueuse/core'
import { useScreenStore } from './screen.ts'
import { isShareLink } from './shareLink.ts'
import { useStudyStore } from './study.ts'

/** Typing keeps the browser's own undo and paste. */
export function isTyping(target: EventTarget | null): boolean {
  if (target instanceof HTMLTextAreaElement) return true
  return target instanceof HTMLInputElement && /^(?:text|search|number)$/u.test(target.type)
}

/** The fragment of a pasted share link; undefined where the text is none. */
function pastedLink(text: string): string | undefined {
  const at = text.indexOf('#')
  const fragment = at < 0 || at > 2000 ? '' : text.slice(at).trimEnd()
  return isShareLink(fragment) ? fragment : undefined
}

/** Takes studies in for as long as the component lives; the result is true while a file is held over the page. */
export function useArrivals(): Readonly<Ref<boolean>> {
  const studies = useStudyStore()
  const screens = useScreenStore()
  const isDropping = ref(false)

  /** A link opens once: its study is then kept like any other, and a reload is not to open it again. */
  function arrive(): void {
    const { hash } = location
    if (!isShareLink(hash)) return
    history.replaceState(history.state, '', `#${screens.name}`)
    void studies.openLink(hash)
  }
  arrive()
  useEventListener(window, 'hashchange', arrive)

  const hasFile = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false
  useEventListener(window, 'dragover', (event: DragEvent) => {
    if (!hasFile(event)) return
    event.preventDefault()
    isDropping.value = true
  })
  useEventListener(window, 'dragleave', (event: DragEvent) => {
    if (event.relatedTarget === null) isDropping.value = false
  })
  useEventListener(window, 'drop', (event: DragEvent) => {
    const file = event.dataTransfer?.files[0]
    isDropping.value = false
    if (!file) return
    event.preventDefault()
    void studies.openFile(file)
  })

  useEventListener(window, 'paste', (event: ClipboardEvent) => {
    if (isTyping(event.target)) return
    const file = event.clipboardData?.files[0]
    const text = event.clipboardData?.getData('text/plain') ?? ''
    const link = pastedLink(text)
    if (file) void studies.openFile(file)
    else if (link) void studies.openLink(link)
    // other text was not meant for the studies
    else if (/^\s{0,99}\{/u.test(text)) void studies.openText(text)
    else return
    event.preventDefault()
  })

  return readonly(isDropping)
}
