/** What a host of the engine offers across a message channel. */
import type { Answer } from '../compare/comparison.ts'
import type { Study } from '../requirements/study.ts'

/** A host of the engine: it works one job at a time and looks for messages between the parts of a job. */
export interface EngineHost {
  /** Reports each unfinished answer to `onAnswer`; returns the proven one, or undefined when the job was cancelled. */
  answer(jobId: number, study: Study, onAnswer: (answer: Answer) => unknown): Promise<Answer | undefined>
  /** The job stops at its next yield; an unknown or finished job is ignored. */
  cancel(jobId: number): void
}

/** Lets waiting messages in before the next part of a job. */
export type Breathe = () => Promise<void>

/** A pause of one turn of the message queue. Timers would cost up to 4 ms each time; a message costs microseconds. */
export function messageBreath(): Breathe {
  const channel = new MessageChannel()
  const waiting: (() => void)[] = []
  channel.port1.onmessage = () => waiting.shift()?.()
  return () =>
    new Promise((resolve) => {
      waiting.push(resolve)
      channel.port2.postMessage(0)
    })
}

/**
 * The host around a job generator of the engine (`answer` of the engine's door). A new job takes the place of the one
 * before it. `release` is called with each `onAnswer` when its job is over: a callback across a channel holds a port.
 */
export function createHost(
  job: (study: Study) => Generator<Answer, Answer>,
  breathe: Breathe,
  release: (onAnswer: unknown) => void = () => {},
): EngineHost {
  let current = -1

  async function run(jobId: number, study: Study, onAnswer: (answer: Answer) => unknown): Promise<Answer | undefined> {
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
      reported.push(onAnswer(step.value))
    }
  }

  return {
    async answer(jobId, study, onAnswer) {
      current = jobId
      try {
        return await run(jobId, study, onAnswer)
      } finally {
        release(onAnswer)
      }
    },
    cancel(jobId) {
      if (current === jobId) current = -1
    },
  }
}
