/**
 * A whole map of 100 x 100 cells, input against load, of each example, by the page's own pool with one worker a core: seconds by
 * the clock and of processor time, and how many cells had to be worked out; in workers started anew, and in workers that have
 * drawn a small map of another study before, as on the page, which looks along every requirement first. Where others share the
 * machine, the processor time says more than the clock.
 */
import { rmSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { fileURLToPath } from 'node:url'
import { Worker } from 'node:worker_threads'
import { build } from 'rolldown'
import { afterAll, bench, describe } from 'vitest'
import type { Jobs } from '../../engine/hosts/host.ts'
import type { Study } from '../../engine/requirements/study.ts'
import type { EngineClient } from '../../web/engineClient.ts'
import { type EnginePool, createEnginePool, poolSize } from '../../web/pool/enginePool.ts'
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
/** A map drawn to warm the workers. */
const FEW = 9

const questionOf = ({ requirements, ...rest }: Study, count: number): Jobs['mapCells']['input']['question'] => {
  const { input, load } = requirements
  return {
    study: { requirements, ...rest },
    x: { path: 'load.max', from: Math.max(load.min, load.max / 4), to: 2.5 * load.max, count },
    y: { path: 'input.max', from: 0.9 * input.min + 0.1 * input.max, to: 2 * input.max - input.min, count },
  }
}

const silent = () => {}

describe.each(EXAMPLES.map(({ id, study }, k) => ({ id, study, other: EXAMPLES[(k + 1) % EXAMPLES.length]!.study })))(
  '$id',
  ({ id, study, other }) => {
    for (const isWarm of [false, true]) {
      const which = isWarm ? 'workers that have drawn another map' : 'workers started anew'
      const cores = poolSize(availableParallelism())
      let pool: EnginePool
      bench(
        which,
        async () => {
          const before = process.cpuUsage()
          const start = performance.now()
          let worked = 0
          const picture = await workMap(
            pool,
            questionOf(study, CELLS),
            ({ done }) => {
              worked = done
            },
            silent,
          )
          const seconds = (performance.now() - start) / 1000
          const { user, system } = process.cpuUsage(before)
          const processor = (user + system) / 1e6
          const kinds = new Set(picture.codes).size
          console.log(
            `${id}, ${cores} ${which}: ${seconds.toFixed(1)} s, processor time ${processor.toFixed(1)} s; ${worked} of ` +
              `${picture.codes.length} cells worked out, ${((1000 * processor) / worked).toFixed(1)} ms each; ${kinds} kinds of cell`,
          )
        },
        {
          time: 0,
          iterations: 1,
          warmupIterations: 0,
          warmupTime: 0,
          throws: true,
          async setup() {
            pool = createEnginePool(cores, connect)
            if (isWarm) await workMap(pool, questionOf(other, FEW), silent, silent)
          },
          async teardown() {
            await endAll()
          },
        },
      )
    }
  },
)
