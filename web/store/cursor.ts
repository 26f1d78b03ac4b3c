/** The shared cursor: one input voltage that moves every plot, circuit and flow. */
import { computed, ref } from 'vue'
import { defineStore } from 'pinia'
import { useStudyStore } from './study.ts'
import { inputScale } from './scales.ts'

export const useCursorStore = defineStore('cursor', () => {
  const studies = useStudyStore()
  const chosen = ref<number>()
  const grown = ref<{ min: number; max: number }>()

  /** Volts at both ends of the input scale: the x axis of the range bar and of every plot below it. */
  const scale = computed(() => {
    const { min, max } = studies.study.requirements.input
    const fit = inputScale(min, max)
    return grown.value ? { min: Math.min(fit.min, grown.value.min), max: Math.max(fit.max, grown.value.max) } : fit
  })
  /** Cursor position in volts; the nominal input until somebody moves it. */
  const input = computed(() => clamp(chosen.value ?? studies.study.requirements.input.nominal))

  function clamp(volts: number): number {
    return Math.min(Math.max(volts, scale.value.min), scale.value.max)
  }

  /** Moves the cursor; volts outside the scale land on its end, anything that is no number is ignored. */
  function set(volts: number): void {
    if (Number.isFinite(volts)) chosen.value = clamp(volts)
  }

  /** Back to following the nominal input. */
  function release(): void {
    chosen.value = undefined
  }

  /** While a handle is dragged past the end, the scale holds this range at least; undefined fits it again. */
  function holdScale(range: { min: number; max: number } | undefined): void {
    grown.value = range
  }

  return { scale, input, set, release, holdScale }
})
