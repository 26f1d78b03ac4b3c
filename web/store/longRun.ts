/** What every long run on a pool of its own has: whether it goes on, how far it is, how it failed, and the way to stop it. */
import { ref } from 'vue'
import type { JobName, Jobs, Progress } from '../../engine/hosts/host.ts'
import { Superseded } from '../engineClient.ts'
import { type Listener, runBatch } from '../pool/batch.ts'
import { createEnginePool, type EnginePool } from '../pool/enginePool.ts'

/** Jobs that tell how far they are. */
type LongJob = { [N in JobName]: Jobs[N]['step'] extends Progress ? N : never }[JobName]

export function longRun<N extends LongJob>(name: N) {
  const busy = ref(false)
  /** Of all jobs together; undefined until the first tells. */
  const progress = ref<Progress>()
  /** One sentence for the person when the engine broke. */
  const failure = ref<string>()
  const isStopped = ref(false)
  let pool: EnginePool | undefined
  let attempt = 0

  /** Replaces a run that still goes on. What comes of a run that was replaced or stopped is not told any more. */
  async function run(inputs: readonly Jobs[N]['input'][], listener: Listener<N>): Promise<void> {
    const mine = ++attempt
    const told: Progress[] = inputs.map(() => ({ done: 0, total: 0 }))
    const isMine = () => mine === attempt
    const sum = () => {
      const done = told.reduce((all, each) => all + each.done, 0)
      progress.value = { done, total: told.reduce((all, each) => all + each.total, 0) }
    }
    busy.value = true
    failure.value = undefined
    isStopped.value = false
    progress.value = undefined
    pool ??= createEnginePool()
    try {
      await runBatch(pool, name, inputs, {
        step(k, step) {
          if (!isMine()) return
          const { done, total } = step as Progress
          told[k] = { done, total }
          sum()
          listener.step(k, step)
        },
        result(k, result) {
          if (!isMine()) return
          told[k] = { done: told[k]!.total, total: told[k]!.total }
          listener.result(k, result)
        },
      })
    } catch (thrown) {
      if (isMine() && !(thrown instanceof Superseded))
        failure.value = thrown instanceof Error ? thrown.message : String(thrown)
    } finally {
      if (isMine()) rest()
    }
  }

  function rest(): void {
    busy.value = false
    progress.value = undefined
  }

  /** Ends the run without a word: what it was for is no longer asked. */
  function drop(): void {
    if (!busy.value) return
    attempt++
    pool?.cancel()
    rest()
  }

  /** Ends the run as the person asked. */
  function stop(): void {
    if (!busy.value) return
    drop()
    isStopped.value = true
  }

  /** Tests pass a pool of their own. */
  function use(own: EnginePool): void {
    pool = own
  }

  return { busy, progress, failure, isStopped, run, drop, stop, use }
}
