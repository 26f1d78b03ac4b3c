/** A pool for the map whose cells are invented, and come when the test says so. */
import { IMPOSSIBLE } from '../../../engine/explore/cells.ts'
import { type MapQuestion, studyAt } from '../../../engine/explore/map.ts'
import { refine } from '../../../engine/explore/refine.ts'
import type { Study } from '../../../engine/requirements/study.ts'
import { Superseded } from '../../../web/engineClient.ts'
import type { EngineClient } from '../../../web/engineClient.ts'
import { createEnginePool } from '../../../web/pool/enginePool.ts'

/** What the engine says of a cell: the winner (0 for none, 1 to 3), who meets, and scores of shunt, series-pass and feedback. */
export interface Invented {
  readonly code: number
  readonly scores: readonly [number, number, number]
}

/** `wins` and `meets` count from 0: shunt, series-pass, feedback. */
export const cellOf = (
  wins: number | undefined,
  meets: readonly number[],
  scores: Invented['scores'] = [0, 0, 0],
): Invented => ({
  code: (wins === undefined ? 0 : wins + 1) + meets.reduce((sum, k) => sum + (4 << k), 0),
  scores,
})

interface RefineInput {
  columns: number
  rows: number
  codes: Uint8Array
  scores: Float64Array
}

/** While `state.isHeld`, jobs wait for `release`; the next `state.fails` jobs break. `asked` lists jobs as they come. */
export function mapPool(invent: (study: Study) => Invented) {
  const asked: { name: string; question?: MapQuestion; cells: number }[] = []
  const held: { go: () => void }[] = []
  const state = { isHeld: false, fails: 0 }
  const connect = (): EngineClient => {
    let reject: ((error: Error) => void) | undefined
    return {
      cancel: () => reject?.(new Superseded('cancelled')),
      run: (name, input, onStep) =>
        new Promise((resolve, fail) => {
          reject = fail
          const answer = (): void => {
            if (state.fails > 0) {
              state.fails--
              fail(new Error('The worker broke off.'))
              return
            }
            if (name === 'refineMap') {
              const { columns, rows, codes, scores } = input as RefineInput
              resolve(refine(columns, rows, codes, scores) as never)
              return
            }
            const { question, cells } = input as { question: MapQuestion; cells: Int32Array }
            const invented = Array.from(cells, (cell) => {
              const study = studyAt(question, cell)
              return study ? invent(study) : { code: IMPOSSIBLE, scores: [0, 0, 0] as const }
            })
            onStep({ done: cells.length, total: cells.length } as never)
            resolve({
              cells,
              codes: Uint8Array.from(invented, ({ code }) => code),
              scores: Float64Array.from(invented.flatMap(({ scores }) => [...scores])),
            } as never)
          }
          const { question, cells } = input as { question?: MapQuestion; cells?: Int32Array }
          asked.push({ name, ...(question && { question }), cells: cells?.length ?? 0 })
          if (state.isHeld) held.push({ go: answer })
          else answer()
        }),
    }
  }
  const release = (): void => {
    state.isHeld = false
    for (const { go } of held.splice(0)) go()
  }
  return { pool: createEnginePool(2, connect), asked, state, release }
}
