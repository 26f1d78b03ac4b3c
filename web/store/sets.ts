/** Studies set beside the one on the desk: which, and what the engine says of each. */
import { computed, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { Answer } from '../../engine/compare/comparison.ts'
import type { Study } from '../../engine/requirements/study.ts'
import { LARGEST_STUDY, sizeIssue } from '../../engine/requirements/index.ts'
import { createEnginePool, poolSize } from '../pool/enginePool.ts'
import type { EnginePool, Task } from '../pool/enginePool.ts'
import { readStudyFile } from './check.ts'
import { longRun } from './longRun.ts'
import { studiesToCompare } from './studiesToCompare.ts'
import type { Offered } from './studiesToCompare.ts'
import type { FileProblem, useStudyStore } from './study.ts'

/** Beside the study on the desk: more columns cannot be told apart. */
export const MOST_OTHERS = 3

/** Two workers: the one that answers the desk stays free. */
const MOST_WORKERS = 2

const keyOf = (study: Study) => JSON.stringify(study)

export const useSetsStore = defineStore('sets', () => {
  /** Set aside from the desk, or opened from files, in this visit. */
  const own = shallowRef<readonly Offered[]>([])
  const chosen = shallowRef<readonly string[]>([])
  /** Proven answers by the whole study. */
  const answers = shallowRef<ReadonlyMap<string, Answer>>(new Map())
  const {
    busy,
    progress,
    isStopped,
    failure,
    run: start,
    drop,
    stop,
    use,
  } = longRun(() => createEnginePool(Math.min(MOST_WORKERS, poolSize())))
  const fileProblem = shallowRef<FileProblem>()
  let count = 0

  const offered = computed(() => [...own.value, ...studiesToCompare()])
  /** The chosen ones, in the order in which they are offered. */
  const others = computed(() => offered.value.filter(({ id }) => chosen.value.includes(id)))
  const answerOf = (study: Study): Answer | undefined => answers.value.get(keyOf(study))

  /** Works out those of the chosen that are not known yet. Tests pass a pool of their own. */
  async function run(own?: EnginePool): Promise<void> {
    if (own) use(own)
    drop()
    isStopped.value = false
    failure.value = undefined
    const missing = others.value.filter(({ study }) => !answerOf(study))
    if (missing.length === 0) return
    await start(async ({ pool, tell }) => {
      let done = 0
      tell({ done, total: missing.length })
      const waiting = missing.map(({ study }): Task => async (client) => {
        const answer = await client.run('answer', study, () => {})
        answers.value = new Map(answers.value).set(keyOf(study), answer)
        tell({ done: ++done, total: missing.length })
      })
      await pool.work(() => waiting.shift())
    })
  }

  function choose(id: string, isChosen: boolean): void {
    const rest = chosen.value.filter((one) => one !== id)
    chosen.value = isChosen && rest.length < MOST_OTHERS ? [...rest, id] : rest
    void run()
  }

  /** Adds a study and chooses it, in the place of the last where there are enough. */
  function add(study: Study, from: string): void {
    const id = `own-${++count}`
    own.value = [...own.value, { id, study, from }]
    chosen.value = [...chosen.value.slice(0, MOST_OTHERS - 1), id]
    void run()
  }

  /** Keeps the requirements as they are now, so that the desk may go on from them. */
  function setAside({ study }: Pick<ReturnType<typeof useStudyStore>, 'study'>): void {
    add(study, 'set aside')
  }

  async function openFile(file: File): Promise<void> {
    fileProblem.value = undefined
    if (file.size > LARGEST_STUDY) {
      fileProblem.value = { what: `“${file.name}”`, problems: [sizeIssue(file.size).message] }
      return
    }
    const read = readStudyFile(await file.text().catch(() => ''))
    if (read.study) add(read.study, file.name)
    else fileProblem.value = { what: `“${file.name}”`, problems: read.problems }
  }

  return {
    offered,
    chosen,
    others,
    answers,
    busy,
    progress,
    isStopped,
    failure,
    fileProblem,
    answerOf,
    run,
    stop,
    choose,
    setAside,
    openFile,
  }
})
