/** What a wider or narrower input range costs, worked out while its screen is in view. */
import { computed, ref, shallowRef, watch } from 'vue'
import { defineStore } from 'pinia'
import type { InputEnd, Trade, TradePoint } from '../../engine/explore/trade.ts'
import type { EnginePool } from '../pool/enginePool.ts'
import { useAnswerStore } from './answer.ts'
import { useInspectionStore } from './inspection.ts'
import { batchRun } from './longRun.ts'
import { useStudyStore } from './study.ts'

const ENDS: readonly InputEnd[] = ['max', 'min']

/** One end of the range as far as it is known. */
export interface KnownTrade {
  /** By rising input. */
  readonly points: readonly TradePoint[]
  /** Once all points are there. */
  readonly whole?: Trade
}

const NOTHING: Record<InputEnd, KnownTrade> = { max: { points: [] }, min: { points: [] } }

export const useTradeStore = defineStore('trade', () => {
  const answers = useAnswerStore()
  const inspections = useInspectionStore()
  const studies = useStudyStore()
  const { busy, progress, failure, isStopped, run: start, drop, stop, use } = batchRun('trade')
  const isOpen = ref(false)
  const known = shallowRef(NOTHING)
  /** What `known` belongs to: only the requirements count, weights and prices change no design. */
  const knownFor = ref('')
  const wanted = computed(() => JSON.stringify(studies.study.requirements))
  const isStale = computed(() => knownFor.value !== wanted.value)
  const isComplete = computed(() => !isStale.value && ENDS.every((end) => known.value[end].whole))
  /** The engine rests, and has answered these very requirements: an edit is answered before it is explored. */
  const isReady = computed(
    () =>
      isOpen.value &&
      !answers.busy &&
      !inspections.busy &&
      JSON.stringify(answers.answer?.comparison.requirements) === wanted.value,
  )

  async function run(): Promise<void> {
    knownFor.value = wanted.value
    known.value = NOTHING
    const { study } = studies
    await start(
      ENDS.map((end) => ({ study, end })),
      {
        step(k, { point }) {
          if (point) take(ENDS[k]!, point)
        },
        result(k, whole) {
          known.value = { ...known.value, [ENDS[k]!]: { points: whole.points, whole } }
        },
      },
    )
  }

  function take(end: InputEnd, point: TradePoint): void {
    // a job that is asked again tells its points again
    const others = known.value[end].points.filter(({ input }) => input !== point.input)
    const points = [...others, point].toSorted((a, b) => a.input - b.input)
    known.value = { ...known.value, [end]: { points } }
  }

  watch(
    () => [isReady.value, wanted.value] as const,
    ([ready]) => {
      if (isStale.value || !ready) drop()
      if (ready && !busy.value && (isStale.value || (!isComplete.value && !isStopped.value && !failure.value)))
        void run()
    },
  )

  function open(own?: EnginePool): void {
    if (own) use(own)
    isOpen.value = true
  }

  function close(): void {
    isOpen.value = false
  }

  return { known, busy, progress, failure, isStopped, isStale, isComplete, open, close, run, stop }
})
