/** Several long jobs of one kind over a pool, each heard of while it runs. */
import type { JobName, Jobs, Progress } from '../../engine/hosts/host.ts'
import type { EnginePool, Task } from './enginePool.ts'

export interface Listener<N extends JobName> {
  step(k: number, step: Jobs[N]['step']): void
  result(k: number, result: Jobs[N]['result']): void
}

/** Settles as the pool's queue does; `k` is the place of a job's input. */
export function runBatch<N extends JobName>(
  pool: EnginePool,
  name: N,
  inputs: readonly Jobs[N]['input'][],
  listener: Listener<N>,
): Promise<void> {
  let handedOut = 0
  const next = (): Task | undefined => {
    const k = handedOut
    if (k >= inputs.length) return undefined
    handedOut++
    return async (client) => {
      const result = await client.run(name, inputs[k]!, (step) => listener.step(k, step))
      listener.result(k, result)
    }
  }
  return pool.work(next)
}

/** Tells the progress of several jobs as that of all of them together. `totals`: of each, as far as known before it tells. */
export function together(totals: readonly number[], tell: (all: Progress) => void): (k: number, own: Progress) => void {
  const told: Progress[] = totals.map((total) => ({ done: 0, total }))
  const sum = (of: (each: Progress) => number): number => told.reduce((all, each) => all + of(each), 0)
  return (k, { done, total }) => {
    told[k] = { done, total }
    tell({ done: sum((each) => each.done), total: sum((each) => each.total) })
  }
}
