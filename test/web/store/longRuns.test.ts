/** The stores whose work takes long: what starts a run, what it tells, what ends it, and which answers count. */
import { flushPromises } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it } from 'vitest'
import type { Trade, TradePoint } from '../../../engine/explore/trade.ts'
import type { Study } from '../../../engine/requirements/study.ts'
import { Superseded } from '../../../web/engineClient.ts'
import type { EngineClient } from '../../../web/engineClient.ts'
import { createEnginePool } from '../../../web/pool/enginePool.ts'
import { useAnswerStore } from '../../../web/store/answer.ts'
import { useInspectionStore } from '../../../web/store/inspection.ts'
import { useStudyStore } from '../../../web/store/study.ts'
import { useTradeStore } from '../../../web/store/trade.ts'
import { useWaysStore } from '../../../web/store/ways.ts'
import { sampleAnswer } from '../../fixtures/answers/sample.ts'

interface Job {
  name: string
  input: unknown
  tell: (step: unknown) => void
  finish: (result: unknown) => void
  fail: (error: Error) => void
}

/** A pool of two connections whose jobs end when the test says so. */
function manualPool() {
  const jobs: Job[] = []
  const connect = (): EngineClient => {
    let own: Job | undefined
    return {
      cancel: () => own?.fail(new Superseded('cancelled')),
      run: (name, input, onStep) =>
        new Promise((resolve, reject) => {
          own = { name, input, tell: onStep as Job['tell'], finish: resolve as Job['finish'], fail: reject }
          jobs.push(own)
        }),
    }
  }
  return { pool: createEnginePool(2, connect), jobs }
}

/** The interactive connection: it answers whatever is asked at once. */
const interactive: EngineClient = {
  cancel: () => {},
  run: async (name, input) => {
    if (name !== 'answer') return [{ heatMap: {} }, {}, {}] as never
    const answer = sampleAnswer()
    const { requirements } = input as Study
    return { ...answer, comparison: { ...answer.comparison, requirements } } as never
  },
}
const tradeOf = (end: 'min' | 'max'): Trade => ({
  end,
  present: 14,
  step: 1,
  points: [{ input: 14, designs: [] }],
  costs: [],
})
const pointAt = (input: number): TradePoint => ({ input, designs: [] })

beforeEach(() => {
  localStorage.clear()
  sessionStorage.clear()
  setActivePinia(createPinia())
})

async function openedTrade() {
  const { pool, jobs } = manualPool()
  const trade = useTradeStore()
  useAnswerStore().follow(interactive)
  useInspectionStore().want(['heatMap'])
  trade.open(pool)
  await flushPromises()
  return { trade, jobs, studies: useStudyStore() }
}

describe('the trade', () => {
  it('asks for both ends once the screen has its designs, and shows points as they come, in order', async () => {
    const { trade, jobs } = await openedTrade()
    expect(jobs.map(({ name, input }) => [name, (input as { end: string }).end])).toEqual([
      ['trade', 'max'],
      ['trade', 'min'],
    ])
    jobs[0]!.tell({ done: 3, total: 39, point: pointAt(14) })
    jobs[0]!.tell({ done: 6, total: 39, point: pointAt(13) })
    jobs[1]!.tell({ done: 3, total: 36, point: pointAt(10) })
    expect(trade.known.max.points.map(({ input }) => input)).toEqual([13, 14])
    expect(trade.progress).toEqual({ done: 9, total: 75 })
    jobs[0]!.finish(tradeOf('max'))
    await flushPromises()
    expect([trade.busy, trade.isComplete]).toEqual([true, false])
    jobs[1]!.finish(tradeOf('min'))
    await flushPromises()
    expect([trade.busy, trade.isComplete, trade.isStale]).toEqual([false, true, false])
    expect(trade.known.max.whole).toEqual(tradeOf('max'))
  })

  it('is worked out anew for other requirements, but not for other weights', async () => {
    const { trade, jobs, studies } = await openedTrade()
    for (const [k, end] of (['max', 'min'] as const).entries()) jobs[k]!.finish(tradeOf(end))
    await flushPromises()
    studies.edit('weights.heat', 7)
    await flushPromises()
    expect(jobs).toHaveLength(2)
    expect(trade.isStale).toBe(false)
    studies.edit('ambient.max', 44)
    expect(trade.isStale).toBe(true)
    await flushPromises()
    expect(jobs).toHaveLength(4)
  })

  it('stops when asked, keeps what it has, and runs again only when asked', async () => {
    const { trade, jobs } = await openedTrade()
    jobs[0]!.tell({ done: 3, total: 39, point: pointAt(14) })
    trade.stop()
    await flushPromises()
    expect([trade.busy, trade.isStopped, trade.known.max.points.length]).toEqual([false, true, 1])
    expect(jobs).toHaveLength(2)
    jobs[0]!.tell({ done: 6, total: 39, point: pointAt(13) })
    expect(trade.known.max.points).toHaveLength(1)
    void trade.run()
    await flushPromises()
    expect([trade.busy, trade.isStopped, jobs.length]).toEqual([true, false, 4])
  })

  it('ends when the screen is left, and says in a sentence when the engine broke twice', async () => {
    const { trade, jobs } = await openedTrade()
    trade.close()
    await flushPromises()
    expect(trade.busy).toBe(false)
    trade.open()
    await flushPromises()
    expect(jobs).toHaveLength(4)
    jobs[2]!.fail(new Error('The worker broke off.'))
    await flushPromises()
    jobs[4]!.fail(new Error('The worker broke off again.'))
    await flushPromises()
    expect([trade.busy, trade.failure]).toEqual([false, 'The worker broke off again.'])
    expect(jobs).toHaveLength(5)
  })
})

describe('the ways', () => {
  async function proven() {
    const { pool, jobs } = manualPool()
    const ways = useWaysStore()
    useAnswerStore().follow(interactive)
    ways.use(pool)
    await flushPromises()
    return { ways, jobs, studies: useStudyStore() }
  }
  const answerOf = (job: Job) => ({ ...(job.input as object), changes: [], reach: 0.8, trials: 5 })

  it('are searched when asked, one job a design that is not first', async () => {
    const { ways, jobs } = await proven()
    expect(jobs).toEqual([])
    void ways.search()
    await flushPromises()
    expect(jobs.map(({ input }) => input)).toMatchObject([
      { topology: 'shunt', goal: 'meet' },
      { topology: 'feedback', goal: 'win' },
    ])
    jobs[1]!.finish(answerOf(jobs[1]!))
    await flushPromises()
    expect(ways.ways.map(({ topology }) => topology)).toEqual(['feedback'])
    jobs[0]!.finish(answerOf(jobs[0]!))
    await flushPromises()
    expect([ways.busy, ways.ways.length, ways.isSearched]).toEqual([false, 2, true])
  })

  it('belong to one study: another weight makes them unknown, and the same study knows them again', async () => {
    const { ways, jobs, studies } = await proven()
    void ways.search()
    await flushPromises()
    for (const job of jobs) job.finish(answerOf(job))
    await flushPromises()
    studies.edit('weights.heat', 9)
    await flushPromises()
    expect([ways.isSearched, ways.ways.length]).toEqual([false, 0])
    studies.undo()
    await flushPromises()
    expect([ways.isSearched, ways.ways.length]).toEqual([true, 2])
  })

  it('are dropped in the middle when the study changes, so that half an answer never counts', async () => {
    const { ways, jobs, studies } = await proven()
    void ways.search()
    await flushPromises()
    studies.edit('ambient.max', 44)
    await flushPromises()
    expect(ways.busy).toBe(false)
    studies.undo()
    await flushPromises()
    expect(jobs).toHaveLength(2)
    expect(ways.isSearched).toBe(false)
  })
})
