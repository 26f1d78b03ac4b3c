/**
 * The only door to the engine's worker. Latest request wins: a new request cancels the job before it and its late answers
 * are dropped, data and errors alike. A worker that breaks rejects what is pending and is replaced; so is one that is too
 * deep in its work to hear that it is cancelled.
 */
import { proxy, releaseProxy, wrap } from 'comlink'
import type { Endpoint, Remote } from 'comlink'
import type { EngineHost, JobName, Jobs } from '../engine/hosts/host.ts'

export interface EngineClient {
  /**
   * Resolves with the job's result; on the way `onStep` hears what the job says. A request that was superseded, cancelled or
   * stopped rejects with `Superseded`.
   */
  run<N extends JobName>(
    name: N,
    input: Jobs[N]['input'],
    onStep: (step: Jobs[N]['step']) => void,
  ): Promise<Jobs[N]['result']>
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

export interface ClientOptions {
  start?: () => WorkerLike
  /** Milliseconds that a cancelled job may go on unheard before its worker is replaced; a new one takes about 100. */
  patience?: number
}

function startWorker(): WorkerLike {
  return new Worker(new URL('../engine/hosts/worker.ts', import.meta.url), { type: 'module', name: 'wattfork-engine' })
}

interface Running {
  id: number
  /** Asks a host; a job whose worker is lost is asked again. */
  ask(host: Remote<EngineHost>): Promise<unknown>
  resolve(result: unknown): void
  reject(reason: Error): void
}

interface Connection {
  worker: WorkerLike
  host: Remote<EngineHost>
}

const asError = (thrown: unknown) => (thrown instanceof Error ? thrown : new Error(String(thrown)))

/** A copy that can cross to the worker: reactive proxies cannot. Typed arrays are none and stay as they are. */
function plainCopy<T>(value: T): T {
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return value
  if (Array.isArray(value)) return value.map(plainCopy) as T
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, plainCopy(inner)])) as T
}

/** A client with a worker of its own, started at the first request. */
export function createEngineClient({ start = startWorker, patience = 400 }: ClientOptions = {}): EngineClient {
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
      drop(fresh)
      const detail = event instanceof ErrorEvent && event.message ? `: ${event.message}` : ''
      const broken = running
      running = undefined
      broken?.reject(new Error(`The worker broke off without an answer${detail}.`))
    }
    worker.addEventListener('error', onBreak)
    worker.addEventListener('messageerror', onBreak)
    connection = fresh
    return fresh
  }

  function drop(old: Connection): void {
    connection = undefined
    old.host[releaseProxy]()
    old.worker.terminate()
  }

  async function run(job: Running): Promise<void> {
    const isRunning = () => running === job
    const asked = connect()
    try {
      const result = await job.ask(asked.host)
      if (!isRunning() || connection !== asked) return
      running = undefined
      if (result) job.resolve(result)
      else job.reject(new Superseded('The job was cancelled.'))
    } catch (thrown) {
      if (!isRunning() || connection !== asked) return
      running = undefined
      job.reject(asError(thrown))
    }
  }

  /** Replaces a worker that did not hear `cancel` in time; the request that waits behind the lost job is asked again. */
  function replaceUnlessHeard(asked: Connection, jobId: number): void {
    const timer = setTimeout(() => {
      if (connection !== asked) return
      drop(asked)
      if (running) void run(running)
    }, patience)
    // a call that fails is a worker that breaks, which is told by its error event
    const heard = () => clearTimeout(timer)
    asked.host.cancel(jobId).then(heard, heard)
  }

  function cancel(): void {
    if (!running) return
    const cancelled = running
    running = undefined
    if (connection) replaceUnlessHeard(connection, cancelled.id)
    cancelled.reject(new Superseded('A later request took its place.'))
  }

  return {
    cancel,
    run<N extends JobName>(name: N, input: Jobs[N]['input'], onStep: (step: Jobs[N]['step']) => void) {
      cancel()
      const plain = plainCopy(input)
      return new Promise<Jobs[N]['result']>((resolve, reject) => {
        const job: Running = {
          id: ++lastId,
          ask: (host) => {
            const hear = proxy((step: Jobs[N]['step']) => {
              if (running === job) onStep(step)
            })
            return host.run(job.id, name, plain, hear) as Promise<unknown>
          },
          resolve: resolve as (result: unknown) => void,
          reject,
        }
        running = job
        void run(job)
      })
    },
  }
}
