/** The Monte Carlo run on screen: what was drawn, what came of it, and how far it is. */
import { computed, ref, shallowRef, watch } from 'vue'
import { defineStore } from 'pinia'
import type { BoardSummary, Draw, Samples } from '../../engine/compare/boards.ts'
import { type BoardRun, drawBoards } from '../pool/boards.ts'
import type { EnginePool } from '../pool/enginePool.ts'
import { useAnswerStore } from './answer.ts'
import { useInspectionStore } from './inspection.ts'
import { longRun, type Turn } from './longRun.ts'
import { useStudyStore } from './study.ts'

export const BOARD_COUNTS = [1000, 10_000, 100_000] as const

/** Largest seed that can be typed; the engine takes seeds modulo 2^32. */
export const LARGEST_SEED = 2 ** 32 - 1

export interface SpreadResult {
  /** Number of the requirements that it belongs to. */
  readonly revision: number
  readonly draw: Draw
  /** Boards asked for of each design; fewer were drawn where the run was stopped. */
  readonly boards: number
  /** By design; undefined where nothing was built. */
  readonly summaries: readonly (BoardSummary | undefined)[]
  readonly isStopped: boolean
}

export const useSpreadStore = defineStore('spread', () => {
  const answers = useAnswerStore()
  const inspections = useInspectionStore()
  const studies = useStudyStore()
  const draw = shallowRef<Draw>({ seed: 1, method: 'random', distribution: 'uniform' })
  const boards = ref<number>(10_000)
  /** The last run; it stays while a newer one is drawn. Never deeply reactive. */
  const result = shallowRef<SpreadResult>()
  const { busy, progress, failure, run: start, drop, use } = longRun()
  const isOpen = ref(false)
  /** Of the run that goes on. */
  let current: (() => BoardRun) | undefined

  /** Whether the run on screen is not the one that the settings and requirements ask for. */
  const isStale = computed(() => {
    const shown = result.value
    if (!shown || shown.revision !== answers.revision || answers.isStale) return true
    return shown.boards !== boards.value || JSON.stringify(shown.draw) !== JSON.stringify(draw.value)
  })
  /** The engine rests, and what the screen shows beside the run is there. */
  const isReady = computed(
    () => isOpen.value && !answers.busy && !inspections.busy && inspections.revision === answers.revision,
  )

  const asked = () => ({ revision: answers.revision, draw: draw.value, boards: boards.value })

  async function run(): Promise<void> {
    const wanted = asked()
    current = undefined
    await start(async (turn) => {
      const problems = await answers.spreadProblems(studies.study)
      if (!turn.isMine()) return
      const running = drawBoards(turn.pool, problems, wanted.draw, wanted.boards, turn.tell)
      current = running.run
      await running.done
      await show(turn, wanted, running.run(), false)
    })
  }

  /** Has the boards solved so far summed up and puts them on screen. */
  async function show(
    { pool, isMine }: Turn,
    wanted: ReturnType<typeof asked>,
    { samples, complete }: BoardRun,
    isStopped: boolean,
  ): Promise<void> {
    const { voltage, tolerance } = studies.study.requirements.output
    const band = { low: voltage * (1 - tolerance), high: voltage * (1 + tolerance) }
    // as many of each design, so that they stay comparable
    const counted = samples.map((each, k) => (each ? complete[k]! : Infinity))
    const shown = Math.min(...counted)
    const runs = samples.map((each) => each && firstOf(each, Number.isFinite(shown) ? shown : 0))
    let summaries: SpreadResult['summaries'] = []
    await pool.work(
      once(async (client) => {
        summaries = await client.run('summariseBoards', { runs, band }, () => {})
      }),
    )
    if (isMine()) result.value = { ...wanted, summaries, isStopped }
  }

  /** Stops the run; the boards solved so far are shown. */
  async function stop(): Promise<void> {
    if (!busy.value) return
    const wanted = asked()
    const solved = current?.()
    current = undefined
    drop()
    if (!solved || solved.complete.every((count) => count === 0)) return
    await start((turn) => show(turn, wanted, solved, true))
  }

  watch(
    () => [isReady.value, isStale.value, draw.value, boards.value] as const,
    ([ready, stale]) => {
      drop()
      if (ready && stale && answers.answer) void run()
    },
  )

  /** Called by the screen: runs are drawn while it is in view. Tests pass a pool of their own. */
  function open(own?: EnginePool): void {
    if (own) use(own)
    isOpen.value = true
  }

  function close(): void {
    isOpen.value = false
  }

  return { draw, boards, result, busy, progress, failure, isStale, open, close, run, stop }
})

/** The first `count` samples of a run. */
function firstOf({ values, outcomes }: Samples, count: number): Samples {
  return { values: values.slice(0, count), outcomes: outcomes.slice(0, count) }
}

/** A queue of one task. */
function once<T>(task: T): () => T | undefined {
  let left: T | undefined = task
  return () => {
    const mine = left
    left = undefined
    return mine
  }
}
