/** A benchmark that also prints its median, which the runner's own table leaves out. */
import { bench } from 'vitest'
import { median } from './median.ts'

export interface TimedOptions {
  /** Milliseconds that the rounds may take; at least `iterations` are run. */
  time?: number
  iterations?: number
  warmupIterations?: number
  /** What else to print of the median, in milliseconds. */
  says?: (median: number) => string
}

/** Times `work` round by round, warm. Work that returns a promise is awaited. */
export function timed(name: string, work: () => unknown, options: TimedOptions = {}): void {
  const { time = 1500, iterations = 10, warmupIterations = 10, says } = options
  const rounds: number[] = []
  bench(
    name,
    async () => {
      const start = performance.now()
      const pending = work()
      if (pending instanceof Promise) await pending
      rounds.push(performance.now() - start)
    },
    {
      time,
      iterations,
      warmupIterations,
      warmupTime: 0,
      throws: true,
      setup: () => {
        // called before the warm-up and again before the rounds that count
        rounds.length = 0
      },
      teardown: (_, mode) => {
        if (mode !== 'run') return
        const middle = median(rounds)
        console.log(`${name}: median ${middle.toFixed(2)} ms of ${rounds.length}${says ? `; ${says(middle)}` : ''}`)
      },
    },
  )
}
