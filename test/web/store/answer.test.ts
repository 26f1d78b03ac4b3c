import { flushPromises } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it, vi } from 'vitest'
import type { Answer } from '../../../engine/compare/comparison.ts'
import type { Study } from '../../../engine/requirements/study.ts'
import type { EngineClient } from '../../../web/engineClient.ts'
import { useAnswerStore } from '../../../web/store/answer.ts'
import { useStudyStore } from '../../../web/store/study.ts'

interface Call {
  study: Study
  report(stage: Answer['stage']): void
  finish(): void
  fail(message: string): void
}

const answerTo = (study: Study, stage: Answer['stage']) =>
  ({ stage, comparison: { title: `${study.requirements.input.max} V` } }) as Answer

/** A client that answers when told to, and like the worst network keeps answering what was cancelled. */
function lateClient() {
  const calls: Call[] = []
  const cancel = vi.fn<() => void>()
  const client: EngineClient = {
    cancel,
    run: (_name, input, onStep) =>
      new Promise((resolve, reject) => {
        const study = input as Study
        calls.push({
          study,
          report: (stage) => onStep(answerTo(study, stage)),
          finish: () => resolve(answerTo(study, 'proven')),
          fail: (message) => reject(new Error(message)),
        })
      }),
  }
  return { client, calls, cancel }
}

function following() {
  const { client, calls, cancel } = lateClient()
  const studies = useStudyStore()
  const answers = useAnswerStore()
  answers.follow(client)
  return { studies, answers, calls, cancel }
}

async function edit(studies: ReturnType<typeof useStudyStore>, volts: number) {
  studies.edit('input.max', volts)
  await flushPromises()
}

const title = (answers: ReturnType<typeof useAnswerStore>) => answers.answer?.comparison.title

beforeEach(() => {
  localStorage.clear()
  sessionStorage.clear()
  setActivePinia(createPinia())
})

describe('the answer store', () => {
  it('asks at once, shows the first answer, then the proven one', async () => {
    const { answers, calls } = following()
    expect(calls.length).toBe(1)
    expect(answers.busy).toBe(true)
    calls[0]!.report('first')
    expect(answers.stage).toBe('first')
    expect(answers.busy).toBe(true)
    expect(answers.revision).toBe(answers.requestedRevision)
    calls[0]!.finish()
    await flushPromises()
    expect(answers.stage).toBe('proven')
    expect(answers.busy).toBe(false)
  })

  it('never asks with a refused entry', async () => {
    const { studies, calls } = following()
    studies.enter('input.max', '0.1 V')
    await flushPromises()
    expect(calls.length).toBe(1)
  })

  it('drops late answers for data, error and busy flag alike', async () => {
    const { studies, answers, calls } = following()
    await edit(studies, 21)
    await edit(studies, 22)
    expect(calls.length).toBe(3)
    calls[2]!.report('first')
    expect(title(answers)).toBe('22 V')

    calls[1]!.report('first')
    calls[1]!.finish()
    calls[0]!.fail('too late to matter')
    await flushPromises()
    expect(title(answers)).toBe('22 V')
    expect(answers.stage).toBe('first')
    expect(answers.failure).toBeUndefined()
    expect(answers.busy).toBe(true)

    calls[2]!.finish()
    await flushPromises()
    expect(answers.busy).toBe(false)
    expect(answers.revision).toBe(3)
  })

  it('keeps the last good answer when the engine breaks, marks it as of earlier requirements, and runs again', async () => {
    const { studies, answers, calls } = following()
    calls[0]!.finish()
    await flushPromises()
    const good = title(answers)
    await edit(studies, 23)
    calls[1]!.fail('no more memory')
    await flushPromises()
    expect(answers.failure).toBe('no more memory')
    expect(answers.busy).toBe(false)
    expect(title(answers)).toBe(good)
    expect(answers.isStale).toBe(true)

    answers.retry()
    calls[2]!.finish()
    await flushPromises()
    expect(title(answers)).toBe('23 V')
    expect(answers.failure).toBeUndefined()
    expect(answers.isStale).toBe(false)
  })

  it('ignores what a stopped job still says', async () => {
    const { answers, calls, cancel } = following()
    answers.stop()
    expect(cancel).toHaveBeenCalled()
    calls[0]!.report('first')
    calls[0]!.fail('cancelled')
    await flushPromises()
    expect(answers.answer).toBeUndefined()
    expect(answers.failure).toBeUndefined()
    expect(answers.busy).toBe(false)
  })
})
