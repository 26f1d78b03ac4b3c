/** A pass transistor that is at its limit by hand is not the only one tried. Ours alone: no source. */
import { describe, expect, it } from 'vitest'
import { decide, newHint } from '../../../engine/compare/decide.ts'
import { studyAt } from '../../../engine/explore/map.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'

describe('the pass transistor of the feedback topology', () => {
  it('leaves no gap where one becomes too small and the next has to take over', () => {
    const study = exampleStudies().find(({ title }) => title.startsWith('Peat'))!
    const x = { path: 'load.max', from: 0.065, to: 0.075, count: 41 } as const
    const y = { path: 'input.max', from: 10.7, to: 10.7, count: 1 } as const
    const hint = newHint()
    const meets = Array.from({ length: x.count }, (_, cell) =>
      decide(studyAt({ study, x, y }, cell)!, hint).designs.some((each) => each.topology === 'feedback' && each.meets),
    )
    expect(meets).toEqual(Array.from({ length: x.count }, () => true))
  })
})
