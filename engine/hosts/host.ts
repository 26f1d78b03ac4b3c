/** What a host of the engine offers across a message channel: the engine's jobs, by name. */
import type { BoardSlice, BoardSummary, Samples, SpreadProblem } from '../compare/boards.ts'
import type { Answer } from '../compare/comparison.ts'
import type { Report } from '../compare/compare.ts'
import type { DetailName, Inspection } from '../compare/details.ts'
import type { MapCells, MapQuestion } from '../explore/map.ts'
import type { Refinement } from '../explore/refine.ts'
import type { ChangeAnswer, ChangeQuestion } from '../explore/change.ts'
import type { InputEnd, Trade, TradePoint } from '../explore/trade.ts'
import type { Study } from '../requirements/study.ts'

/** How far a job is: parts done of all its parts. */
export interface Progress {
  done: number
  total: number
}

/** Every job: what it is given, what it says on the way, and its result. All of it plain data. */
export interface Jobs {
  /** On the way, an answer that is not proven yet. */
  answer: { input: Study; step: Answer | Progress; result: Answer }
  inspect: { input: { study: Study; names: readonly DetailName[] }; step: Progress; result: Inspection }
  /** What the headless run prints. */
  report: { input: Study; step: Progress; result: Report }
  /** What a pool needs to draw boards of every design. */
  spreadProblems: { input: Study; step: Progress; result: (SpreadProblem | undefined)[] }
  /** Too short to stop on the way; its arrays are handed over and not copied. */
  sampleBoards: { input: BoardSlice; step: never; result: Samples }
  summariseBoards: {
    input: { runs: readonly (Samples | undefined)[]; band: { low: number; high: number } }
    step: never
    result: (BoardSummary | undefined)[]
  }
  mapCells: { input: { question: MapQuestion; cells: Int32Array }; step: Progress; result: MapCells }
  /** What of a map comes next, and what it looks like as far as it is known. */
  refineMap: {
    input: { columns: number; rows: number; codes: Uint8Array; scores: Float64Array }
    step: never
    result: Refinement
  }
  /** What a wider or narrower input range costs. */
  trade: { input: { study: Study; end: InputEnd }; step: Progress & { point?: TradePoint }; result: Trade }
  /** The smallest change of one requirement that lets a topology meet, or come first. */
  changesFor: { input: ChangeQuestion; step: Progress; result: ChangeAnswer }
}

export type JobName = keyof Jobs

/** A generator of the engine for each job. */
export type JobRunners = {
  readonly [N in JobName]: (input: Jobs[N]['input']) => Generator<Jobs[N]['step'], Jobs[N]['result']>
}

/** A host of the engine: it works one job at a time and looks for messages between the parts of a job. */
export interface EngineHost {
  /** Reports each step to `onStep`; returns the result, or undefined when the job was cancelled. */
  run<N extends JobName>(
    jobId: number,
    name: N,
    input: Jobs[N]['input'],
    onStep: (step: Jobs[N]['step']) => unknown,
  ): Promise<Jobs[N]['result'] | undefined>
  /** The job stops at its next yield; an unknown or finished job is ignored. */
  cancel(jobId: number): void
}

/** Lets waiting messages in before the next part of a job. */
export type Breathe = () => Promise<void>

/** A pause of one turn of the message queue. Timers would cost up to 4 ms each time; a message costs microseconds. */
export function messageBreath(): Breathe {
  const channel = new MessageChannel()
  const waiting: (() => void)[] = []
  channel.port1.addEventListener('message', () => waiting.shift()?.())
  channel.port1.start()
  return () =>
    new Promise((resolve) => {
      waiting.push(resolve)
      channel.port2.postMessage(0)
    })
}

/**
 * The host around the engine's job generators. A new job takes the place of the one before it. `release` is called with
 * each `onStep` when its job is over: a callback across a channel holds a port.
 */
export function createHost(
  runners: JobRunners,
  breathe: Breathe,
  release: (onStep: unknown) => void = () => {},
): EngineHost {
  let current = -1

  async function drive<S, R>(
    jobId: number,
    steps: Generator<S, R>,
    onStep: (step: S) => unknown,
  ): Promise<R | undefined> {
    // the report and the result cross on channels of their own: the result waits, the work does not
    const reported: unknown[] = []
    for (;;) {
      // the message that cancels a job arrives while it breathes
      // oxlint-disable-next-line no-await-in-loop -- the parts of a job come one after another
      await breathe()
      if (current !== jobId) return undefined
      const step = steps.next()
      if (step.done) {
        await Promise.all(reported)
        return step.value
      }
      reported.push(onStep(step.value))
    }
  }

  return {
    async run(jobId, name, input, onStep) {
      current = jobId
      try {
        return await drive(jobId, runners[name](input), onStep)
      } finally {
        release(onStep)
      }
    },
    cancel(jobId) {
      if (current === jobId) current = -1
    },
  }
}
