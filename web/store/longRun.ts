/** What every long run on a pool of its own has: whether it goes on, how far it is, how it failed, and the way to stop it. */
import { ref } from 'vue'
import type { JobName, Jobs, Progress } from '../../engine/hosts/host.ts'
import { Superseded } from '../engineClient.ts'
import { type Listener, runBatch, together } from '../pool/batch.ts'
import { createEnginePool, type EnginePool } from '../pool/enginePool.ts'

/** One run, as its work sees it. */
export interface Turn {
  readonly pool: EnginePool
  /** False once the run was replaced or stopped: nothing that comes of it counts any more. */
  readonly isMine: () => boolean
  readonly tell: (progress: Progress) => void
}

/** `makePool` is called at the first run, unless `use` gave a pool. */
export function longRun(makePool: () => EnginePool = createEnginePool) {
  const busy = ref(false)
  /** Undefined until the run tells. */
  const progress = ref<Progress>()
  /** One sentence for the person when the engine broke. */
  const failure = ref<string>()
  const isStopped = ref(false)
  let pool: EnginePool | undefined
  let attempt = 0

  /** Replaces a run that still goes on. `work` may take as many queues of the pool as it needs, one after another. */
  async function run(work: (turn: Turn) => Promise<void>): Promise<void> {
    const mine = ++attempt
    const isMine = () => mine === attempt
    busy.value = true
    failure.value = undefined
    isStopped.value = false
    progress.value = undefined
    pool ??= makePool()
    const tell = (told: Progress) => {
      if (isMine()) progress.value = told
    }
    try {
      await work({ pool, isMine, tell })
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

/** Jobs that tell how far they are. */
type LongJob = { [N in JobName]: Jobs[N]['step'] extends Progress ? N : never }[JobName]

/** A long run of several jobs of one kind; its progress is that of all of them together. */
export function batchRun<N extends LongJob>(name: N) {
  const { run: start, ...rest } = longRun()

  /** What comes of a run that was replaced or stopped is not told any more. */
  const run = (inputs: readonly Jobs[N]['input'][], listener: Listener<N>): Promise<void> =>
    start(({ pool, isMine, tell }) => {
      const ends = inputs.map(() => 0)
      const told = together(ends, tell)
      return runBatch(pool, name, inputs, {
        step(k, step) {
          if (!isMine()) return
          const { done, total } = step as Progress
          ends[k] = total
          told(k, { done, total })
          listener.step(k, step)
        },
        result(k, result) {
          if (!isMine()) return
          told(k, { done: ends[k]!, total: ends[k]! })
          listener.result(k, result)
        },
      })
    })

  return { ...rest, run }
}
