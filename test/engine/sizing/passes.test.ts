/** A pass transistor that is at its limit by hand is not the only one tried. Ours alone: no source. */
import { describe, expect, it } from 'vitest'
import { decide, newHint } from '../../../engine/compare/decide.ts'
import { studyAt } from '../../../engine/explore/map.ts'
import { worthProving } from '../../../engine/sizing/contenders.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'

/** Which variant of the feedback topology meets, from load to load at one highest input; undefined where none does. */
function variants(title: string, highest: number, from: number, to: number): (string | undefined)[] {
  const study = exampleStudies().find((each) => each.title.startsWith(title))!
  const x = { path: 'load.max', from, to, count: 41 } as const
  const y = { path: 'input.max', from: highest, to: highest, count: 1 } as const
  const hint = newHint()
  return Array.from(
    { length: x.count },
    (_, cell) =>
      decide(studyAt({ study, x, y }, cell)!, hint).designs.find(({ topology }) => topology === 'feedback')!.variant,
  )
}

describe('the pass transistor of the feedback topology', () => {
  it('leaves no gap where one becomes too small and the next has to take over', { timeout: 60_000 }, () => {
    expect(new Set(variants('Peat', 10.7, 0.065, 0.075))).toEqual(new Set(['operational amplifier']))
  })

  it('is changed before a simpler variant is given up', { timeout: 60_000 }, () => {
    expect(new Set(variants('Loom', 25, 0.0475, 0.0515))).toEqual(new Set(['single-transistor amplifier']))
  })
})

describe('what is worth a proof', () => {
  const glanced = (transistors: string, rank: number) => ({ transistors, rank })

  it('is not all of one transistor where there is another', () => {
    const inOrder = [
      glanced('A', 1),
      glanced('A', 2),
      glanced('A', 3),
      glanced('A', 4),
      glanced('B', 5),
      glanced('C', 6),
    ]
    expect(worthProving(inOrder).map(({ rank }) => rank)).toEqual([1, 2, 3, 5])
  })

  it('is the first few where they differ, or where nothing else is there', () => {
    expect(worthProving([glanced('A', 1), glanced('B', 2), glanced('A', 3), glanced('C', 4)])).toHaveLength(3)
    expect(worthProving([glanced('A', 1), glanced('A', 2), glanced('A', 3), glanced('A', 4)])).toHaveLength(3)
    expect(worthProving([])).toEqual([])
  })
})
