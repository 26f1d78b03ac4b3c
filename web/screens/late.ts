/** A flag that is raised late, so that what is over quickly never shows. */
import { onScopeDispose, readonly, shallowRef, watch } from 'vue'
import type { Ref } from 'vue'

/** True once `isOn()` has been true for `delay` milliseconds on end; false as soon as it is not. */
export function useLate(isOn: () => boolean, delay: number): Readonly<Ref<boolean>> {
  const isLate = shallowRef(false)
  let timer: ReturnType<typeof setTimeout> | undefined
  const drop = () => clearTimeout(timer)
  watch(
    isOn,
    (on) => {
      drop()
      if (on) timer = setTimeout(() => (isLate.value = true), delay)
      else isLate.value = false
    },
    { immediate: true },
  )
  onScopeDispose(drop)
  return readonly(isLate)
}
