/** Parts of a map in a worker thread: the pool's worker without the page. */
import { parentPort } from 'node:worker_threads'
import type { Jobs } from '../../engine/hosts/host.ts'
import { mapCells, newHint, refine } from '../../engine/index.ts'

export type Asked =
  | { name: 'mapCells'; input: Jobs['mapCells']['input'] }
  | { name: 'refineMap'; input: Jobs['refineMap']['input'] }

const hint = newHint()
parentPort!.on('message', ({ name, input }: Asked) => {
  if (name === 'refineMap') {
    parentPort!.postMessage(refine(input.columns, input.rows, input.codes, input.scores))
    return
  }
  const steps = mapCells(input.question, input.cells, hint)
  for (;;) {
    const step = steps.next()
    if (!step.done) continue
    parentPort!.postMessage(step.value)
    return
  }
})
