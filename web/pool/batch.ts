/** Several long jobs of one kind over a pool, each heard of while it runs. */
import type { JobName, Jobs } from '../../engine/hosts/host.ts'
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
