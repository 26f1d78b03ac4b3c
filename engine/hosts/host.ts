/** What a host of the engine offers across a message channel. */
import type { Answer } from '../compare/comparison.ts'
import type { Study } from '../requirements/study.ts'

/** How far a job is: parts done of all its parts. */
export interface Progress {
  done: number
  total: number
}

/** What a job says on the way: how far it is, or an answer that is not proven yet. */
export type Step = Answer | Progress

/** A host of the engine: it works one job at a time and looks for messages between the parts of a job. */
export interface EngineHost {
  /** Reports each step to `onStep`; returns the proven one, or undefined when the job was cancelled. */
  answer(jobId: number, study: Study, onStep: (step: Step) => unknown): Promise<Answer | undefined>
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
 * The host around a job generator of the engine (`answer` of the engine's door). A new job takes the place of the one
 * before it. `release` is called with each `onStep` when its job is over: a callback across a channel holds a port.
 */
export function createHost(
  job: (study: Study) => Generator<Step, Answer>,
  breathe: Breathe,
  release: (onStep: unknown) => void = () => {},
): EngineHost {
  let current = -1

  async function run(jobId: number, study: Study, onStep: (step: Step) => unknown): Promise<Answer | undefined> {
    const steps = job(study)
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
    async answer(jobId, study, onStep) {
      current = jobId
      try {
        return await run(jobId, study, onStep)
      } finally {
        release(onStep)
      }
    },
    cancel(jobId) {
      if (current === jobId) current = -1
    },
  }
}
