/**
 * Several connections to the engine that work one queue together. Who takes which task is left to chance, so a task must not
 * depend on it. A task that fails is tried once more, on a worker started anew where the old one broke; then the queue fails.
 */
import { createEngineClient, Superseded } from '../engineClient.ts'
import type { EngineClient } from '../engineClient.ts'

/** One thing to ask of a connection. It may be called twice. */
export type Task = (client: EngineClient) => Promise<void>

export interface EnginePool {
  /**
   * Works the queue until `next` gives no more. Rejects with `Superseded` when cancelled or superseded by another queue, and
   * with the reason when a task fails twice; what others are working on is then cancelled.
   */
  work(next: () => Task | undefined): Promise<void>
  /** Cancels the queue in work, if there is one. */
  cancel(): void
}

/** Beyond this many workers their memory costs more than they gain: a run takes about a second on two. */
const MOST_WORKERS = 8

/** One worker a core: the interactive worker rests while the pool is busy. */
export function poolSize(cores = navigator.hardwareConcurrency): number {
  return Math.max(1, Math.min(MOST_WORKERS, cores || 1))
}

/** A pool of `size` connections, each of which starts its worker at its first task. */
export function createEnginePool(size = poolSize(), connect: () => EngineClient = createEngineClient): EnginePool {
  const clients = Array.from({ length: size }, connect)
  let turn = 0

  function cancel(): void {
    turn++
    for (const client of clients) client.cancel()
  }

  return {
    cancel,
    async work(next) {
      cancel()
      const mine = turn
      const isOver = () => turn !== mine
      const attend = async (client: EngineClient): Promise<void> => {
        for (let task = isOver() ? undefined : next(); task; task = isOver() ? undefined : next()) {
          try {
            // oxlint-disable-next-line no-await-in-loop -- a connection works one task at a time
            await task(client)
          } catch (thrown) {
            if (isOver() || thrown instanceof Superseded) throw thrown
            // oxlint-disable-next-line no-await-in-loop -- the same task once more
            await task(client)
          }
        }
      }
      try {
        await Promise.all(clients.map(attend))
      } catch (thrown) {
        if (!isOver()) cancel()
        else throw new Superseded('The queue was cancelled.')
        throw thrown
      }
      if (isOver()) throw new Superseded('The queue was cancelled.')
    },
  }
}
