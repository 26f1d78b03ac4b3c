/**
 * A whole map of 100 x 100 cells, input against load, of each example, by the page's own pool with one worker a core, each started
 * anew: seconds by the clock and of processor time, and how many cells had to be worked out. Where others
 * share the machine, the processor time says more than the clock.
 */
import { rmSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { fileURLToPath } from 'node:url'
import { Worker } from 'node:worker_threads'
import { build } from 'rolldown'
import { afterAll, bench, describe } from 'vitest'
import type { Jobs } from '../../engine/hosts/host.ts'
import type { EngineClient } from '../../web/engineClient.ts'
import { createEnginePool, poolSize } from '../../web/pool/enginePool.ts'
import { workMap } from '../../web/pool/map.ts'
import { subject } from './bundled.ts'

const { EXAMPLES } = subject
const file = new URL(`../../node_modules/.cache/bench/map-${process.pid}.mjs`, import.meta.url)
await build({
  input: fileURLToPath(new URL('mapWorker.ts', import.meta.url)),
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
    run: (name, input) =>
      new Promise((resolve, reject) => {
        worker.once('error', reject)
        worker.once('message', (result) => {
          worker.off('error', reject)
          resolve(result as never)
        })
        worker.postMessage({ name, input })
      }),
  }
}
const endAll = () => Promise.all(workers.splice(0).map((worker) => worker.terminate()))

afterAll(async () => {
  await endAll()
  rmSync(file, { force: true })
})

const CELLS = 100

describe.each(EXAMPLES)('$id', ({ id, study }) => {
  const { input, load } = study.requirements
  const question: Jobs['mapCells']['input']['question'] = {
    study,
    x: { path: 'load.max', from: Math.max(load.min, load.max / 4), to: 2.5 * load.max, count: CELLS },
    y: { path: 'input.max', from: 0.9 * input.min + 0.1 * input.max, to: 2 * input.max - input.min, count: CELLS },
  }
  bench(
    `${CELLS} x ${CELLS} cells`,
    async () => {
      const cores = poolSize(availableParallelism())
      const pool = createEnginePool(cores, connect)
      const before = process.cpuUsage()
      const start = performance.now()
      let worked = 0
      const picture = await workMap(
        pool,
        question,
        ({ done }) => {
          worked = done
        },
        () => {},
      )
      const seconds = (performance.now() - start) / 1000
      const { user, system } = process.cpuUsage(before)
      const processor = (user + system) / 1e6
      await endAll()
      const kinds = new Set(picture.codes).size
      console.log(
        `${id}, ${cores} workers: ${seconds.toFixed(1)} s, processor time ${processor.toFixed(1)} s; ${worked} of ` +
          `${picture.codes.length} cells worked out, ${((1000 * processor) / worked).toFixed(1)} ms each; ${kinds} kinds of cell`,
      )
    },
    { time: 0, iterations: 1, warmupIterations: 0, warmupTime: 0, throws: true },
  )
})
