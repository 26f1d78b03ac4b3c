/**
 * Milliseconds a cell of the map, walking from neighbour to neighbour as a worker does, and how many of 100 x 100 cells the
 * refinement asks for. Where others share the machine, the processor time says more than the clock.
 */
import { describe } from 'vitest'
import { subject } from './bundled.ts'
import { timed } from './timed.ts'

const { EXAMPLES, mapCells, newHint } = subject

const CELLS = 8

describe.each(EXAMPLES)('$id', ({ id, study }) => {
  const { input, load } = study.requirements
  const question = {
    study,
    x: { path: 'load.max', from: Math.max(load.min, load.max / 4), to: 2.5 * load.max, count: 100 },
    y: { path: 'input.max', from: input.min, to: 2 * input.max - input.min, count: 100 },
  } as const
  const hint = newHint()
  let from = 0
  timed(
    id,
    () => {
      const cells = Int32Array.from({ length: CELLS }, (_, k) => ((from + k) % 100) * 100 + 30)
      from += CELLS
      const steps = mapCells(question, cells, hint)
      while (!steps.next().done);
    },
    { iterations: 10, says: (ms) => `${(ms / CELLS).toFixed(1)} ms a cell` },
  )
})
