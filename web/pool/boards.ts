/** A Monte Carlo run in slices over a pool: every board of every design, put where it belongs whoever solved it. */
import type { Draw, Samples, SpreadProblem } from '../../engine/compare/boards.ts'
import type { Progress } from '../../engine/hosts/host.ts'
import type { EnginePool, Task } from './enginePool.ts'

/** A run as far as it has come. */
export interface BoardRun {
  /** By design; undefined where nothing was built. */
  readonly samples: readonly (Samples | undefined)[]
  /** By design: so many boards from the first on are solved without a gap. */
  readonly complete: readonly number[]
}

/** Milliseconds that a slice should take: short enough to cancel, long enough for its messages not to count. */
const SLICE_TIME = 30
const FIRST_SLICE = 60
const LEAST_SLICE = 10
const LARGEST_SLICE = 4000

interface Line {
  readonly problem: SpreadProblem
  readonly samples: Samples
  /** Boards handed out so far, from the first on. */
  next: number
  /** Boards a millisecond, as last seen. */
  pace: number
  /** Slices that came in before one ahead of them. */
  readonly early: Map<number, number>
  complete: number
}

/**
 * Draws `boards` of each design. `run` is filled as slices come in and may be read at any time; `done` settles as the
 * pool's queue does. Slices of the designs are handed out in turn.
 */
export function drawBoards(
  pool: EnginePool,
  problems: readonly (SpreadProblem | undefined)[],
  draw: Draw,
  boards: number,
  onProgress: (told: Progress) => void,
): { run: () => BoardRun; done: Promise<void> } {
  const lines = problems.map((problem): Line | undefined =>
    problem ? { problem, samples: emptySamples(boards), next: 0, pace: 0, early: new Map(), complete: 0 } : undefined,
  )
  const working = lines.filter((line) => line !== undefined)
  const total = boards * working.length
  let done = 0

  const take = (line: Line, from: number, { values, outcomes }: Samples): void => {
    line.samples.values.set(values, from)
    line.samples.outcomes.set(outcomes, from)
    line.early.set(from, values.length)
    for (let count = line.early.get(line.complete); count !== undefined; count = line.early.get(line.complete)) {
      line.early.delete(line.complete)
      line.complete += count
    }
    done += values.length
    onProgress({ done, total })
  }

  const next = (): Task | undefined => {
    const behind = working.filter((line) => line.next < boards)
    if (behind.length === 0) return undefined
    const line = behind.reduce((least, each) => (each.next < least.next ? each : least))
    const from = line.next
    const wanted = line.pace > 0 ? Math.round(line.pace * SLICE_TIME) : FIRST_SLICE
    const count = Math.min(Math.max(wanted, LEAST_SLICE), LARGEST_SLICE, boards - from)
    line.next += count
    return async (client) => {
      const start = performance.now()
      const slice = await client.run('sampleBoards', { problem: line.problem, draw, from, count }, () => {})
      line.pace = count / Math.max(performance.now() - start, 0.1)
      take(line, from, slice)
    }
  }

  return {
    run: () => ({
      samples: lines.map((line) => line?.samples),
      complete: lines.map((line) => line?.complete ?? 0),
    }),
    done: pool.work(next),
  }
}

function emptySamples(boards: number): Samples {
  return { values: new Float64Array(boards), outcomes: new Uint8Array(boards) }
}
