import { flushPromises } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it } from 'vitest'
import type { Answer } from '../../../engine/compare/comparison.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import type { EngineClient } from '../../../web/engineClient.ts'
import { Superseded } from '../../../web/engineClient.ts'
import { useAnswerStore } from '../../../web/store/answer.ts'
import { useInspectionStore } from '../../../web/store/inspection.ts'
import { useStudyStore } from '../../../web/store/study.ts'

interface Call {
  name: string
  finish(): void
  fail(error: Error): void
}

/** Jobs end when the test says so; a new one supersedes the one before it, as the real client does. */
function following() {
  const calls: Call[] = []
  const client: EngineClient = {
    cancel: () => calls.at(-1)?.fail(new Superseded('cancelled')),
    run: (name) =>
      new Promise((resolve, reject) => {
        calls.at(-1)?.fail(new Superseded('superseded'))
        const inspection: Inspection = [{ ratings: [] }, { ratings: [] }, {}]
        const result = name === 'answer' ? ({ stage: 'proven', comparison: {} } as Answer) : inspection
        calls.push({ name, finish: () => resolve(result as never), fail: reject })
      }),
  }
  const answers = useAnswerStore()
  const inspections = useInspectionStore()
  answers.follow(client)
  return { studies: useStudyStore(), inspections, calls }
}

const end = async (call: Call) => {
  call.finish()
  await flushPromises()
}

beforeEach(() => {
  localStorage.clear()
  sessionStorage.clear()
  setActivePinia(createPinia())
})

describe('the inspection store', () => {
  it('waits for the answer, asks once for what is wanted, and not again', async () => {
    const { inspections, calls } = following()
    inspections.want(['ratings'])
    await flushPromises()
    expect(calls.map(({ name }) => name)).toEqual(['answer'])
    await end(calls[0]!)
    expect(calls.map(({ name }) => name)).toEqual(['answer', 'inspect'])
    expect(inspections.busy).toBe(true)
    await end(calls[1]!)
    expect(inspections.inspection).toHaveLength(3)
    expect([inspections.busy, inspections.isStale]).toEqual([false, false])
    inspections.want([])
    inspections.want(['ratings'])
    await flushPromises()
    expect(calls).toHaveLength(2)
  })

  it('keeps old details while an edit is answered, then asks anew', async () => {
    const { studies, inspections, calls } = following()
    inspections.want(['ratings'])
    await end(calls[0]!)
    await end(calls[1]!)
    studies.edit('input.max', 17)
    await flushPromises()
    expect(inspections.inspection).toHaveLength(3)
    expect(inspections.isStale).toBe(true)
    await end(calls[2]!)
    expect(calls[3]!.name).toBe('inspect')
    await end(calls[3]!)
    expect(inspections.isStale).toBe(false)
  })

  it('is superseded by an edit in silence, and tells a failure without asking again by itself', async () => {
    const { studies, inspections, calls } = following()
    inspections.want(['ratings'])
    await end(calls[0]!)
    studies.edit('input.max', 17)
    await flushPromises()
    expect(inspections.failure).toBeUndefined()
    expect(inspections.busy).toBe(false)
    await end(calls[2]!)
    calls[3]!.fail(new Error('out of memory'))
    await flushPromises()
    expect(inspections.failure).toBe('out of memory')
    expect(calls).toHaveLength(4)
    void inspections.retry()
    await end(calls[4]!)
    expect(inspections.inspection).toHaveLength(3)
    expect(inspections.failure).toBeUndefined()
  })
})
