/** What would have to change for a design that falls short to meet, and for one that loses to come first; searched when asked. */
import { computed, ref, shallowRef, watch } from 'vue'
import { defineStore } from 'pinia'
import type { Comparison, TopologyName } from '../../engine/compare/comparison.ts'
import type { ChangeAnswer, Goal } from '../../engine/explore/change.ts'
import type { EnginePool } from '../pool/enginePool.ts'
import { useAnswerStore } from './answer.ts'
import { batchRun } from './longRun.ts'
import { useStudyStore } from './study.ts'

export interface Quest {
  readonly topology: TopologyName
  readonly goal: Goal
}

/** One quest a design that is not first: to meet where it falls short, to win where it meets. */
export function questsOf({ designs, ranking }: Comparison): Quest[] {
  return designs.flatMap(({ topology, verdict }): Quest[] => {
    if (verdict !== 'meets') return [{ topology, goal: 'meet' }]
    return ranking[0]?.topology === topology ? [] : [{ topology, goal: 'win' }]
  })
}

export const useWaysStore = defineStore('ways', () => {
  const answers = useAnswerStore()
  const studies = useStudyStore()
  const { busy, progress, failure, isStopped, run: start, drop, stop, use } = batchRun('changesFor')
  const found = shallowRef<readonly ChangeAnswer[]>([])
  const foundFor = ref('')
  /** The title alone changes no answer. */
  const wanted = computed(() => JSON.stringify({ ...studies.study, title: '' }))
  const quests = computed(() =>
    answers.stage === 'proven' && answers.answer && !answers.isStale ? questsOf(answers.answer.comparison) : [],
  )
  /** Answers to the study in force; none while another was searched for. */
  const ways = computed(() => (foundFor.value === wanted.value ? found.value : []))
  const isSearched = computed(() => foundFor.value === wanted.value)

  async function search(): Promise<void> {
    const asked = quests.value
    const { study } = studies
    foundFor.value = wanted.value
    found.value = []
    await start(
      asked.map((quest) => ({ study, ...quest })),
      {
        step() {},
        result(_, answer) {
          found.value = [...found.value, answer]
        },
      },
    )
  }

  /** Ends a search that nobody waits for; what it has found so far is no answer. */
  function leave(): void {
    if (busy.value) foundFor.value = ''
    drop()
    isStopped.value = false
    failure.value = undefined
  }

  watch(wanted, leave)

  return {
    ways,
    quests,
    isSearched,
    busy,
    progress,
    failure,
    isStopped,
    search,
    stop,
    leave,
    use: (own: EnginePool) => use(own),
  }
})
