/**
 * 10,000 boards of each of three topologies, every one a settled solution from the nominal one, by the page's own pool: with
 * one worker and with one a core. The aim is 1 s on two cores. Where others share the machine the processor time says more
 * than the clock: it is that of all threads.
 */
import { rmSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { fileURLToPath } from 'node:url'
import { Worker } from 'node:worker_threads'
import { build } from 'rolldown'
import { afterAll, bench, describe } from 'vitest'
import type { Samples } from '../../engine/compare/boards.ts'
import type { EngineClient } from '../../web/engineClient.ts'
import { drawBoards } from '../../web/pool/boards.ts'
import { createEnginePool, poolSize } from '../../web/pool/enginePool.ts'
import { subject } from './bundled.ts'
import { median } from './median.ts'

const { EXAMPLES, isUnbuilt, sizeAll, spreadProblemOf } = subject

const BOARDS = 10_000
const file = new URL(`../../node_modules/.cache/bench/boards-${process.pid}.mjs`, import.meta.url)
await build({
  input: fileURLToPath(new URL('boardWorker.ts', import.meta.url)),
  platform: 'node',
  logLevel: 'silent',
  output: { file: fileURLToPath(file) },
})

const workers: Worker[] = []
function connect(): EngineClient {
  const worker = new Worker(file)
  workers.push(worker)
  return {
    cancel: () => {},
    run: (_name, slice) =>
      new Promise((resolve, reject) => {
        worker.once('error', reject)
        worker.once('message', (samples: Samples) => {
          worker.off('error', reject)
          resolve(samples as never)
        })
        worker.postMessage(slice)
      }),
  }
}

const many = poolSize(availableParallelism())
const pools = [...new Set([1, many])].map((size) => ({ size, pool: createEnginePool(size, connect) }))
afterAll(async () => {
  await Promise.all(workers.map((worker) => worker.terminate()))
  rmSync(file, { force: true })
})

describe.each(EXAMPLES)('$id', ({ id, study }) => {
  const problems = sizeAll(study).map((sized) =>
    isUnbuilt(sized) ? undefined : spreadProblemOf(sized.proof.design, study.requirements),
  )
  const wall = new Map<number, number>()
  for (const { size, pool } of pools) {
    const clock: number[] = []
    const processor: number[] = []
    let seed = 1
    bench(
      `${size} ${size === 1 ? 'worker' : 'workers'}`,
      async () => {
        const before = process.cpuUsage()
        const start = performance.now()
        seed += 1
        await drawBoards(pool, problems, { seed, method: 'random', distribution: 'uniform' }, BOARDS, () => {}).done
        clock.push(performance.now() - start)
        const { user, system } = process.cpuUsage(before)
        processor.push((user + system) / 1000)
      },
      {
        time: 0,
        iterations: 7,
        warmupIterations: 2,
        warmupTime: 0,
        throws: true,
        setup: () => {
          clock.length = processor.length = 0
        },
        teardown: (_, mode) => {
          if (mode !== 'run') return
          wall.set(size, median(clock))
          const boards = BOARDS * problems.filter((problem) => problem).length
          const first = wall.get(1)!
          const gain = size === 1 ? '' : `; ${(first / median(clock)).toFixed(2)} times as fast as one`
          console.log(
            `${id}, ${size} of ${availableParallelism()} cores: median ${median(clock).toFixed(0)} ms, ` +
              `quickest ${Math.min(...clock).toFixed(0)} ms, processor time ${median(processor).toFixed(0)} ms, ` +
              `${((1000 * median(processor)) / boards).toFixed(1)} µs a board${gain}`,
          )
        },
      },
    )
  }
})
