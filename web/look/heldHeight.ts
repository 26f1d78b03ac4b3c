/** Keeps a block as high as it is while its words are away, so that nothing below it moves. */
import { shallowRef, watch } from 'vue'
import type { CSSProperties, Ref } from 'vue'

/** A style for `element`: its height from just before `isHeld()` became true, until it is false again. */
export function useHeldHeight(
  element: Readonly<Ref<HTMLElement | null>>,
  isHeld: () => boolean,
): Readonly<Ref<CSSProperties | undefined>> {
  const style = shallowRef<CSSProperties>()
  // before the words go: the element still has its old height
  watch(
    isHeld,
    (held) => {
      const height = element.value?.offsetHeight
      style.value = held && height ? { minHeight: `${height}px` } : undefined
    },
    { flush: 'pre' },
  )
  return style
}
