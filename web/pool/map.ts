/** A map worked out over a pool: coarse first, then wave after wave along its boundaries. */
import type { MapCells, MapQuestion } from '../../engine/explore/map.ts'
import type { Refinement } from '../../engine/explore/refine.ts'
import type { Progress } from '../../engine/hosts/host.ts'
import type { MapAxis } from '../../engine/requirements/index.ts'
import { runBatch, together } from './batch.ts'
import { SCORES, UNKNOWN } from '../../engine/explore/cells.ts'
import type { EnginePool, Task } from './enginePool.ts'

/** Cells of one task: few enough to share a wave evenly and to cancel, enough for its messages not to count. */
const CELLS = 3

/**
 * Works the map out; its progress is in cells, of those known to be needed so far. `onPicture` hears of it after every wave;
 * the promise settles with the finished one, and as the pool's queue does.
 */
export async function workMap(
  pool: EnginePool,
  question: MapQuestion,
  onProgress: (told: Progress) => void,
  onPicture: (picture: Refinement) => void,
): Promise<Refinement> {
  const columns = question.x.count
  const rows = question.y.count
  const codes = new Uint8Array(columns * rows).fill(UNKNOWN)
  const scores = new Float64Array(SCORES * codes.length)
  let done = 0

  const refined = async (): Promise<Refinement> => {
    let picture: Refinement | undefined
    const ask: Task = async (client) => {
      picture = await client.run('refineMap', { columns, rows, codes, scores }, () => {})
    }
    const queue = [ask]
    await pool.work(() => queue.shift())
    return picture!
  }

  for (;;) {
    // oxlint-disable-next-line no-await-in-loop -- where a wave goes depends on the one before
    const picture = await refined()
    onPicture(picture)
    const { wanted } = picture
    if (wanted.length === 0) return picture
    const total = done + wanted.length
    onProgress({ done, total })
    let next = 0
    // oxlint-disable-next-line no-await-in-loop
    await pool.work(() => {
      if (next >= wanted.length) return undefined
      const cells = wanted.slice(next, next + CELLS)
      next += CELLS
      return async (client) => {
        const worked = await client.run('mapCells', { question, cells }, () => {})
        worked.cells.forEach((cell, k) => {
          codes[cell] = worked.codes[k]!
          scores.set(worked.scores.subarray(SCORES * k, SCORES * k + SCORES), SCORES * cell)
        })
        done += cells.length
        onProgress({ done, total })
      }
    })
  }
}

/** Every cell of maps that are one cell high, one line a question; settles as the pool's queue does. */
export async function workLines(
  pool: EnginePool,
  questions: readonly MapQuestion[],
  onProgress: (told: Progress) => void,
): Promise<{ axis: MapAxis; codes: Uint8Array; scores: Float64Array }[]> {
  const step = together(
    questions.map(({ x }) => x.count),
    onProgress,
  )
  const lines: MapCells[] = []
  await runBatch(
    pool,
    'mapCells',
    questions.map((question) => ({ question, cells: Int32Array.from({ length: question.x.count }, (_, k) => k) })),
    {
      step,
      result(k, line) {
        lines[k] = line
      },
    },
  )
  return lines.map(({ codes, scores }, k) => ({ axis: questions[k]!.x, codes, scores }))
}
