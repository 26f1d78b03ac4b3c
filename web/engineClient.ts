/**
 * The only door to the engine's worker. Latest request wins: a new request cancels the job before it and its late answers
 * are dropped, data and errors alike. A worker that breaks rejects what is pending and is replaced.
 */
import { proxy, releaseProxy, wrap } from 'comlink'
import type { Endpoint, Remote } from 'comlink'
import type { Answer } from '../engine/compare/comparison.ts'
import type { Study } from '../engine/requirements/study.ts'
import type { EngineHost, Progress, Step } from '../engine/hosts/host.ts'

export interface EngineClient {
  /**
   * Resolves with the proven answer; `onAnswer` is called with the first one on the way, `onProgress` between the parts. Superseded, cancelled or stopped
   * requests reject with `Superseded`.
   */
  answer(study: Study, onAnswer: (answer: Answer) => void, onProgress?: (progress: Progress) => void): Promise<Answer>
  /** Cancels the running job, if there is one. */
  cancel(): void
}

/** Why a request has no answer: a later one took its place, or it was cancelled. Not a failure. */
export class Superseded extends Error {
  override name = 'Superseded'
}

/** A worker as far as the client needs one; tests give a message port in its place. */
export interface WorkerLike extends Endpoint {
  terminate(): void
}

function startWorker(): WorkerLike {
  return new Worker(new URL('../engine/hosts/worker.ts', import.meta.url), { type: 'module', name: 'wattfork-engine' })
}

interface Running {
  id: number
  study: Study
  reject(reason: Error): void
}

interface Connection {
  worker: WorkerLike
  host: Remote<EngineHost>
}

/** A client with a worker of its own, started at the first request. */
export function createEngineClient(start: () => WorkerLike = startWorker): EngineClient {
  let connection: Connection | undefined
  let running: Running | undefined
  let lastId = 0

  function connect(): Connection {
    if (connection) return connection
    const worker = start()
    const fresh = { worker, host: wrap<EngineHost>(worker) }
    // Comlink leaves calls pending for ever when a worker breaks, so they are rejected here
    const onBreak = (event: unknown) => {
      if (connection !== fresh) return
      connection = undefined
      fresh.host[releaseProxy]()
      worker.terminate()
      const detail = event instanceof ErrorEvent && event.message ? `: ${event.message}` : ''
      running?.reject(new Error(`The worker broke off without an answer${detail}.`))
      running = undefined
    }
    worker.addEventListener('error', onBreak)
    worker.addEventListener('messageerror', onBreak)
    connection = fresh
    return fresh
  }

  function cancel(): void {
    if (!running) return
    void connection?.host.cancel(running.id)
    running.reject(new Superseded('A later request took its place.'))
    running = undefined
  }

  return {
    cancel,
    answer(study, onAnswer, onProgress) {
      cancel()
      const id = ++lastId
      return new Promise<Answer>((resolve, reject) => {
        const isRunning = () => running?.id === id
        running = { id, study, reject }
        // a plain copy: reactive proxies cannot cross to the worker
        const plain = JSON.parse(JSON.stringify(study)) as Study
        const report = proxy((step: Step) => {
          if (!isRunning()) return
          if ('stage' in step) onAnswer(step)
          else onProgress?.(step)
        })
        connect()
          .host.answer(id, plain, report)
          .then(
            (answer) => {
              if (!isRunning()) return
              running = undefined
              if (answer) resolve(answer)
              else reject(new Superseded('The job was cancelled.'))
            },
            (error: unknown) => {
              if (!isRunning()) return
              running = undefined
              reject(error instanceof Error ? error : new Error(String(error)))
            },
          )
      })
    },
  }
}
