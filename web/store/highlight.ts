/** The part that somebody looks at: it lights up wherever it is shown, in drawings, tables, plots and workings. */
import { computed, shallowRef } from 'vue'
import { defineStore } from 'pinia'

export interface PartSpot {
  readonly topology: string
  /** Part id; the same id in another topology is another part. */
  readonly part: string
}

export const useHighlightStore = defineStore('highlight', () => {
  const underPointer = shallowRef<PartSpot>()
  const focused = shallowRef<PartSpot>()
  /** What the pointer is on, else what the keyboard is on. */
  const lookedAt = computed(() => underPointer.value ?? focused.value)

  return { underPointer, focused, lookedAt }
})
