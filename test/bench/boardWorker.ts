/** Slices of boards in a worker thread: the pool's worker without the page. */
import { parentPort } from 'node:worker_threads'
import { type BoardSlice } from '../../engine/compare/boards.ts'
import { createSlicer } from '../../engine/index.ts'

const slice = createSlicer()
parentPort!.on('message', (asked: BoardSlice) => {
  const { values, outcomes } = slice(asked)
  parentPort!.postMessage({ values, outcomes }, [values.buffer as ArrayBuffer, outcomes.buffer as ArrayBuffer])
})
