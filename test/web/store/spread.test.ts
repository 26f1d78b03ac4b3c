import { flushPromises } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it } from 'vitest'
import type { Answer } from '../../../engine/compare/comparison.ts'
import type { BoardSlice, SpreadProblem } from '../../../engine/compare/boards.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import { summariseBoards } from '../../../engine/index.ts'
import { Superseded } from '../../../web/engineClient.ts'
import type { EngineClient } from '../../../web/engineClient.ts'
import { createEnginePool } from '../../../web/pool/enginePool.ts'
import { useAnswerStore } from '../../../web/store/answer.ts'
import { useInspectionStore } from '../../../web/store/inspection.ts'
import { useSpreadStore } from '../../../web/store/spread.ts'
import { useStudyStore } from '../../../web/store/study.ts'

const problem = {} as SpreadProblem
const DETAILS = { worstCase: {}, sensitivities: {} } as unknown as Inspection[number]

/** The interactive connection: every job is over at once. */
const asked: string[] = []
const interactive: EngineClient = {
  cancel: () => {},
  run: async (name) => {
    asked.push(name)
    const results: Partial<Record<string, unknown>> = {
      answer: { stage: 'proven', comparison: {} } as Answer,
      inspect: [DETAILS, {}, DETAILS],
      spreadProblems: [problem, undefined, problem],
    }
    return results[name] as never
  },
}

/** A connection of the pool: slices wait until the test lets them go; their boards are their own numbers. */
function poolConnection() {
  const waiting: { go: () => void; fail: (error: Error) => void }[] = []
  const client: EngineClient = {
    cancel: () => {
      for (const { fail } of waiting.splice(0)) fail(new Superseded('cancelled'))
    },
    run: (name, input) =>
      new Promise((resolve, reject) => {
        if (name === 'summariseBoards') {
          const { runs, band } = input as {
            runs: Parameters<typeof summariseBoards>[0]
            band: { low: number; high: number }
          }
          resolve(summariseBoards(runs, band) as never)
          return
        }
        const { from, count } = input as BoardSlice
        const values = Float64Array.from({ length: count }, (_, k) => from + k)
        const go = () => resolve({ values, outcomes: new Uint8Array(count) } as never)
        waiting.push({ go, fail: reject })
      }),
  }
  const step = async () => {
    waiting.shift()?.go()
    await flushPromises()
  }
  const drain = async () => {
    // oxlint-disable-next-line no-await-in-loop -- one slice after the other
    while (waiting.length > 0) await step()
    await flushPromises()
  }
  return { client, waiting, step, drain }
}

async function opened() {
  const connection = poolConnection()
  const answers = useAnswerStore()
  const inspections = useInspectionStore()
  const spread = useSpreadStore()
  answers.follow(interactive)
  inspections.want(['worstCase', 'sensitivities'])
  spread.boards = 1000
  spread.open(createEnginePool(1, () => connection.client))
  await flushPromises()
  return { ...connection, spread, studies: useStudyStore() }
}

beforeEach(() => {
  localStorage.clear()
  asked.length = 0
  setActivePinia(createPinia())
})

describe('the spread store', () => {
  it('draws once the answer and its details are there, and shows every board of every design', async () => {
    const { spread, drain } = await opened()
    expect(asked).toEqual(['answer', 'inspect', 'spreadProblems'])
    expect(spread.busy).toBe(true)
    await drain()
    expect(spread.busy).toBe(false)
    expect(spread.isStale).toBe(false)
    const [shunt, series, feedback] = spread.result!.summaries
    expect([shunt!.boards, series, feedback!.boards]).toEqual([1000, undefined, 1000])
    expect(shunt!.mean).toBeCloseTo(499.5, 9)
    expect(spread.result!.isStopped).toBe(false)
  })

  it('draws anew for another seed and not for the same', async () => {
    const { spread, drain } = await opened()
    await drain()
    spread.draw = { ...spread.draw }
    await flushPromises()
    expect(spread.busy).toBe(false)
    spread.draw = { ...spread.draw, seed: 2 }
    await flushPromises()
    expect(spread.busy).toBe(true)
    expect(spread.result!.draw.seed).toBe(1)
    await drain()
    expect(spread.result!.draw.seed).toBe(2)
  })

  it('stops on request and shows the boards solved so far, as many of each', async () => {
    const { spread, step, waiting } = await opened()
    for (let k = 0; k < 3; k++) {
      // oxlint-disable-next-line no-await-in-loop -- one slice after the other
      await step()
    }
    await spread.stop()
    expect(spread.busy).toBe(false)
    expect(waiting).toHaveLength(0)
    const boards = spread.result!.summaries.flatMap((summary) => (summary ? [summary.boards] : []))
    expect(boards[0]).toBeGreaterThan(0)
    expect(boards[0]).toBeLessThan(1000)
    expect(new Set(boards).size).toBe(1)
    expect(spread.result!.isStopped).toBe(true)
    await flushPromises()
    // it rests until asked again
    expect(spread.busy).toBe(false)
  })

  it('drops a run when the requirements change, and draws for the new ones', async () => {
    const { spread, studies, step, drain } = await opened()
    await step()
    const before = asked.length
    studies.edit('output.voltage', 5.2)
    await flushPromises()
    expect(asked.slice(before)).toEqual(['answer', 'inspect', 'spreadProblems'])
    expect(spread.busy).toBe(true)
    await drain()
    expect(spread.result!.revision).toBe(2)
  })

  it('says why a run broke, and runs again on request', async () => {
    const { spread, waiting, drain } = await opened()
    waiting.shift()!.fail(new Error('out of memory'))
    await flushPromises()
    waiting.shift()!.fail(new Error('out of memory'))
    await flushPromises()
    expect(spread.failure).toBe('out of memory')
    expect(spread.busy).toBe(false)
    void spread.run()
    await flushPromises()
    await drain()
    expect(spread.failure).toBeUndefined()
    expect(spread.result!.summaries[0]!.boards).toBe(1000)
  })

  it('leaves the engine alone while its screen is closed', async () => {
    const { spread, drain, studies } = await opened()
    await drain()
    spread.close()
    studies.edit('output.voltage', 5.2)
    await flushPromises()
    expect(asked.filter((name) => name === 'spreadProblems')).toHaveLength(1)
    expect(spread.busy).toBe(false)
  })
})
