/** Details of the designs on screen, asked for by the screens that show them, once the answer itself is proven. */
import { computed, ref, shallowRef, watch } from 'vue'
import { defineStore } from 'pinia'
import type { DetailName, Inspection } from '../../engine/compare/details.ts'
import type { Progress } from '../../engine/hosts/host.ts'
import { Superseded } from '../engineClient.ts'
import { useAnswerStore } from './answer.ts'
import { useStudyStore } from './study.ts'

export const useInspectionStore = defineStore('inspection', () => {
  const answers = useAnswerStore()
  const studies = useStudyStore()
  /** The details as they came last, one entry a design; never deeply reactive. They stay while newer ones are worked out. */
  const inspection = shallowRef<Inspection>()
  /** Number of the requirements that `inspection` belongs to. */
  const revision = ref(0)
  const wanted = shallowRef<readonly DetailName[]>([])
  const busy = ref(false)
  const progress = ref<Progress>()
  /** One sentence for the person when the engine broke. */
  const failure = ref<string>()
  const isStale = computed(() => revision.value !== answers.revision || answers.isStale)

  const has = (name: DetailName): boolean => inspection.value?.some((details) => name in details) ?? false
  const isMissing = computed(
    () => wanted.value.length > 0 && (isStale.value || wanted.value.some((name) => !has(name))),
  )
  let attempt = 0

  async function ask(): Promise<void> {
    const mine = ++attempt
    const asked = answers.revision
    busy.value = true
    failure.value = undefined
    try {
      const result = await answers.inspect(studies.study, wanted.value, (told) => {
        if (mine === attempt) progress.value = told
      })
      if (mine !== attempt) return
      inspection.value = revision.value === asked ? merged(inspection.value, result) : result
      revision.value = asked
    } catch (thrown) {
      // a newer answer took the worker: its own end asks again
      if (mine === attempt && !(thrown instanceof Superseded))
        failure.value = thrown instanceof Error ? thrown.message : String(thrown)
    } finally {
      if (mine === attempt) {
        busy.value = false
        progress.value = undefined
      }
    }
  }

  /** What the screen in view shows; asked for now and after every answer, until another screen wants something else. */
  function want(names: readonly DetailName[]): void {
    wanted.value = names
  }

  // a failure is not tried again by itself
  watch(
    () => [answers.busy, answers.revision, wanted.value] as const,
    ([isBusy]) => {
      if (isBusy) {
        attempt++
        busy.value = false
        progress.value = undefined
      } else if (wanted.value.length > 0 && answers.answer && isMissing.value) void ask()
    },
    { immediate: true },
  )

  return { inspection, revision, busy, progress, failure, isStale, isMissing, want, retry: ask }
})

/** Details of one revision that were asked for one after another. */
function merged(before: Inspection | undefined, after: Inspection): Inspection {
  return after.map((details, k) => ({ ...before?.[k], ...details }))
}
