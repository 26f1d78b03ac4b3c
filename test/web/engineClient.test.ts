import { expose } from 'comlink'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { reactive } from 'vue'
import type { Answer } from '../../engine/compare/comparison.ts'
import { createHost, messageBreath } from '../../engine/hosts/host.ts'
import type { EngineHost, JobRunners, Jobs, Progress } from '../../engine/hosts/host.ts'
import type { Study } from '../../engine/requirements/study.ts'
import { createEngineClient, Superseded } from '../../web/engineClient.ts'
import type { EngineClient, WorkerLike } from '../../web/engineClient.ts'

const studyNamed = (title: string) => ({ title }) as Study
const answerOf = (study: Study, stage: Answer['stage']) => ({ stage, comparison: { title: study.title } }) as Answer
type Step = Jobs['answer']['step']
const notAsked = () => {
  throw new Error('not asked for')
}
const runners = (answer: JobRunners['answer']): JobRunners => ({
  answer,
  inspect: notAsked,
  report: notAsked,
  spreadProblems: notAsked,
  sampleBoards: notAsked,
  summariseBoards: notAsked,
  mapCells: notAsked,
  refineMap: notAsked,
  trade: notAsked,
  changesFor: notAsked,
})
const ask = (client: EngineClient, title: string, onAnswer: (answer: Answer) => void = () => {}) =>
  client.run('answer', studyNamed(title), (step) => {
    if ('stage' in step) onAnswer(step)
  })
const titleOf = (answer: Answer) => `${answer.stage} ${answer.comparison.title}`

/** A worker made of a message channel: the host is on its far side, and it can be made to break. */
class ChannelWorker extends EventTarget implements WorkerLike {
  readonly terminate = vi.fn<() => void>()
  private readonly channel = new MessageChannel()

  constructor(host: EngineHost) {
    super()
    expose(host, this.channel.port1)
    this.channel.port2.addEventListener('message', (event) => {
      this.dispatchEvent(new MessageEvent('message', { data: event.data as unknown, ports: [...event.ports] }))
    })
    this.channel.port2.start()
  }

  postMessage(message: unknown, transfer: Transferable[] = []): void {
    this.channel.port2.postMessage(message, transfer as never)
  }

  break(message: string): void {
    this.dispatchEvent(new ErrorEvent('error', { message }))
  }

  close(): void {
    this.channel.port1.close()
    this.channel.port2.close()
  }
}

/** Node hands one port up to a thousand messages in a row, browsers do not: here a timer stands for the pause. */
const pause = () => new Promise<void>((resolve) => setTimeout(resolve))

const workers: ChannelWorker[] = []
const start = (host: EngineHost) => () => {
  const worker = new ChannelWorker(host)
  workers.push(worker)
  return worker
}
afterEach(() => {
  for (const worker of workers.splice(0)) worker.close()
})

describe('engineClient with the real host', () => {
  function* job(study: Study): Generator<Step, Answer> {
    yield { done: 1, total: 2 }
    yield answerOf(study, 'first')
    return answerOf(study, 'proven')
  }

  it('reports the first answer and resolves with the proven one', async () => {
    const client = createEngineClient({ start: start(createHost(runners(job), messageBreath())) })
    const seen: string[] = []
    const told: Progress[] = []
    const proven = await client.run('answer', studyNamed('A'), (step) => {
      if ('stage' in step) seen.push(titleOf(step))
      else told.push(step)
    })
    expect(seen).toEqual(['first A'])
    expect(told).toEqual([{ done: 1, total: 2 }])
    expect(titleOf(proven)).toBe('proven A')
  })

  it('stops a job between its parts when a later request comes', async () => {
    const partsRun: string[] = []
    function* long(study: Study): Generator<Step, Answer> {
      for (let part = 0; part < 50; part++) {
        partsRun.push(study.title)
        yield answerOf(study, 'first')
      }
      return answerOf(study, 'proven')
    }
    const client = createEngineClient({ start: start(createHost(runners(long), pause)) })
    let second: Promise<Answer> | undefined
    const first = ask(client, 'A', () => (second ??= ask(client, 'B')))
    await expect(first).rejects.toBeInstanceOf(Superseded)
    expect(titleOf(await second!)).toBe('proven B')
    expect(partsRun.filter((title) => title === 'A').length).toBeLessThan(50)
    expect(partsRun.filter((title) => title === 'B').length).toBe(50)
  })

  it('sends reactive input as plain data and typed arrays as they are', async () => {
    const seen: unknown[] = []
    const host = createHost(
      {
        ...runners(job),
        // oxlint-disable-next-line require-yield -- nothing to interrupt
        *summariseBoards(input) {
          seen.push(input)
          return []
        },
      },
      messageBreath(),
    )
    const client = createEngineClient({ start: start(host) })
    const runs = [{ values: Float64Array.of(1, NaN), outcomes: Uint8Array.of(0, 1) }, undefined]
    await client.run('summariseBoards', { runs, band: reactive({ low: 1, high: 2 }) }, () => {})
    expect(seen).toEqual([{ runs, band: { low: 1, high: 2 } }])
    expect((seen[0] as { runs: typeof runs }).runs[0]!.values).toBeInstanceOf(Float64Array)
  })

  it('hands on what the engine throws', async () => {
    const broken = createHost(
      runners(() => {
        throw new Error('sizing: step Rs_max has no value')
      }),
      messageBreath(),
    )
    const client = createEngineClient({ start: start(broken) })
    await expect(ask(client, 'A')).rejects.toThrow('Rs_max')
  })
})

/** Answers when told to, whatever was cancelled meanwhile. */
function lateHost() {
  const finish = new Map<number, (stage: Answer['stage']) => unknown>()
  const host: EngineHost = {
    run: (id, _name, input, onStep) =>
      new Promise((resolve) => {
        finish.set(id, (stage) => {
          const answer = answerOf(input as Study, stage)
          if (stage === 'first') return onStep(answer)
          return resolve(answer as never)
        })
      }),
    cancel: () => {},
  }
  return { host, finish }
}

describe('engineClient with a host that answers late', () => {
  it('drops answers that arrive after a later request', async () => {
    const { host, finish } = lateHost()
    const client = createEngineClient({ start: start(host) })
    const seen: string[] = []
    const note = (answer: Answer) => seen.push(titleOf(answer))
    const first = ask(client, 'A', note)
    const second = ask(client, 'B', note)
    await expect(first).rejects.toBeInstanceOf(Superseded)
    await vi.waitFor(() => expect(finish.size).toBe(2))
    await finish.get(1)!('first')
    finish.get(1)!('proven')
    await finish.get(2)!('first')
    finish.get(2)!('proven')
    expect(titleOf(await second)).toBe('proven B')
    expect(seen).toEqual(['first B'])
  })

  it('rejects what is pending when the worker breaks, and starts a new one for the next request', async () => {
    const { host, finish } = lateHost()
    const client = createEngineClient({ start: start(host) })
    const pending = ask(client, 'A')
    await vi.waitFor(() => expect(finish.size).toBe(1))
    workers[0]!.break('out of memory')
    await expect(pending).rejects.toThrow('out of memory')
    expect(workers[0]!.terminate).toHaveBeenCalledOnce()

    const next = ask(client, 'B')
    await vi.waitFor(() => expect(finish.size).toBe(2))
    expect(workers.length).toBe(2)
    finish.get(2)!('proven')
    expect(titleOf(await next)).toBe('proven B')
  })

  it('cancels the running job on request', async () => {
    const { host } = lateHost()
    const client = createEngineClient({ start: start(host) })
    const pending = ask(client, 'A')
    client.cancel()
    await expect(pending).rejects.toBeInstanceOf(Superseded)
  })

  it('replaces a worker that is too busy to hear that it is cancelled, and asks again', async () => {
    const { host, finish } = lateHost()
    const never = new Promise<never>(() => {})
    const busy = { run: () => never, cancel: () => never }
    const client = createEngineClient({
      start: () => start(workers.length === 0 ? busy : host)(),
      patience: 20,
    })
    const first = ask(client, 'A')
    const second = ask(client, 'B')
    await expect(first).rejects.toBeInstanceOf(Superseded)
    await vi.waitFor(() => expect(finish.size).toBe(1))
    expect(workers.length).toBe(2)
    expect(workers[0]!.terminate).toHaveBeenCalledOnce()
    finish.get(2)!('proven')
    expect(titleOf(await second)).toBe('proven B')
  })

  it('keeps a worker that hears in time', async () => {
    const { host, finish } = lateHost()
    const client = createEngineClient({ start: start(host), patience: 60 })
    ask(client, 'A').catch(() => {})
    await vi.waitFor(() => expect(finish.size).toBe(1))
    client.cancel()
    await new Promise((resolve) => setTimeout(resolve, 120))
    expect(workers[0]!.terminate).not.toHaveBeenCalled()
  })
})
