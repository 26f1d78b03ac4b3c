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

/** The host around a job generator of the engine (`answer` of the engine's door). */
export function createHost(job: (study: Study) => Generator<Answer, Answer>, breathe: Breathe): EngineHost {
  let current = -1
  return {
    async answer(jobId, study, onAnswer) {
      current = jobId
      const steps = job(study)
      for (;;) {
        // a cancelled job must not start its next part: the message that cancels it arrives while it breathes
        await breathe()
        if (current !== jobId) return undefined
        const step = steps.next()
        if (step.done) return step.value
        await onAnswer(step.value)
      }
    },
    cancel(jobId) {
      if (current === jobId) current = -1
    },
  }
}
