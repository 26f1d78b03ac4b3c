/** What the engine said last, and whether it still answers the requirements on screen. */
import { computed, ref, shallowRef, watch } from 'vue'
import { defineStore } from 'pinia'
import type { Answer } from '../../engine/compare/comparison.ts'
import type { SpreadProblem } from '../../engine/compare/boards.ts'
import type { DetailName, Inspection } from '../../engine/compare/details.ts'
import type { Progress } from '../../engine/hosts/host.ts'
import type { Study } from '../../engine/requirements/study.ts'
import { createEngineClient } from '../engineClient.ts'
import type { EngineClient } from '../engineClient.ts'
import { useStudyStore } from './study.ts'

export const useAnswerStore = defineStore('answer', () => {
  /** The last good answer; stays on screen through failures and while the next one is worked out. Never deeply reactive. */
  const answer = shallowRef<Answer>()
  /** Number of the requirements that `answer` belongs to. Plots and lanes write it into `data-revision`. */
  const revision = ref(0)
  /** Number of the requirements asked for last; `answer` is out of date while it is ahead of `revision`. */
  const requestedRevision = ref(0)
  /** True from the request until its proven answer or its failure. */
  const busy = ref(false)
  /** Parts of the running job that are done; undefined while nothing runs or nothing was told. */
  const progress = ref<Progress>()
  /** One sentence for the person when the engine broke; the last good answer stays. */
  const failure = ref<string>()
  /** How far the answer on screen is: `first` = nominal and plots, `proven` = every corner. */
  const stage = computed(() => answer.value?.stage)
  /** The answer on screen is of earlier requirements. */
  const isStale = computed(() => revision.value !== requestedRevision.value)

  let client: EngineClient | undefined
  /** Counts requests and stops: whatever belongs to an earlier count comes too late. */
  let attempt = 0

  /** Asks the engine for these requirements; an earlier request still running is cancelled and its answers are dropped. */
  function request(study: Study): void {
    client ??= createEngineClient()
    const asked = ++requestedRevision.value
    const mine = ++attempt
    busy.value = true
    progress.value = undefined
    const isCurrent = () => mine === attempt
    const take = (result: Answer) => {
      if (!isCurrent()) return
      answer.value = result
      revision.value = asked
      failure.value = undefined
    }
    const end = () => {
      busy.value = false
      progress.value = undefined
    }
    const tell = (told: Progress) => {
      if (isCurrent()) progress.value = told
    }
    void client
      .run('answer', study, (step) => ('stage' in step ? take(step) : tell(step)))
      .then(take)
      .catch((error: unknown) => {
        if (isCurrent()) failure.value = error instanceof Error ? error.message : String(error)
      })
      .finally(() => {
        if (isCurrent()) end()
      })
  }

  /** Asks the engine for details of the designs. Whoever asks for a new answer meanwhile makes this reject with `Superseded`. */
  function inspect(
    study: Study,
    names: readonly DetailName[],
    onProgress: (told: Progress) => void,
  ): Promise<Inspection> {
    client ??= createEngineClient()
    return client.run('inspect', { study, names }, onProgress)
  }

  /** What a pool needs to draw boards of the designs; superseded like `inspect`. */
  function spreadProblems(study: Study): Promise<(SpreadProblem | undefined)[]> {
    client ??= createEngineClient()
    return client.run('spreadProblems', study, () => {})
  }

  /** Asks again for the requirements in force, after a failure or a stop. */
  function retry(): void {
    request(useStudyStore().study)
  }

  /** Stops the running job; what is on screen stays. */
  function stop(): void {
    attempt++
    client?.cancel()
    busy.value = false
    progress.value = undefined
  }

  /** Follows the study from now on. Called once, when the page starts; tests pass a client of their own. */
  function follow(own?: EngineClient): void {
    client = own ?? client
    const studies = useStudyStore()
    watch(() => studies.study, request, { immediate: true })
  }

  return {
    answer,
    revision,
    requestedRevision,
    busy,
    progress,
    failure,
    stage,
    isStale,
    follow,
    inspect,
    request,
    retry,
    spreadProblems,
    stop,
  }
})
