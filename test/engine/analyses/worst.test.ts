/** The search for a worst corner on figures written down here, whose worst corner can be read off. Ours alone: no source. */
import { describe, expect, it } from 'vitest'
import { type Recalled, type Target, findWorst } from '../../../engine/analyses/worst.ts'

const BASES = [10, 11, 9]
const EFFECTS = [
  [1, -2, 0.5],
  [0.5, -1, 0.25],
  [3, -4, 1],
]

/** The highest of three planes over three tolerances: 13.5, 12.75 and 17 at their worst. */
function planes(more: Partial<Target> = {}): { target: Target; asked: () => number } {
  let asked = 0
  const target: Target = {
    direction: 1,
    conditions: 3,
    value(board, k) {
      asked++
      return EFFECTS[k]!.reduce((sum, effect, j) => sum + effect * board[j]!, BASES[k]!)
    },
    slopes: (_, k, into) => into.set(EFFECTS[k]!),
    isThorough: true,
    ...more,
  }
  return { target, asked: () => asked }
}

describe('a worst corner', () => {
  it('is that of the condition that is worst', () => {
    const worst = findWorst(planes().target, 3)!
    expect(worst).toMatchObject({ value: 17, condition: 2 })
    expect([...worst.board]).toEqual([1, -1, 1])
  })

  it('is the same under a limit that nothing passes', () => {
    const free = findWorst(planes().target, 3)
    expect(findWorst(planes({ limit: 17 }).target, 3)).toEqual(free)
  })

  it('past a limit is the first that is found there, and the first to be tried the next time', () => {
    const recalled: Recalled = { effects: [] }
    const first = planes({ limit: 13, recalled })
    expect(findWorst(first.target, 3)).toMatchObject({ value: 13.5, condition: 0 })
    expect(first.asked()).toBe(4)
    const again = planes({ limit: 13, recalled })
    expect(findWorst(again.target, 3)).toMatchObject({ value: 13.5, condition: 0 })
    expect(again.asked()).toBe(1)
  })

  it('that was past a tighter limit is no guide to the worst under a wider one', () => {
    const recalled: Recalled = { effects: [] }
    findWorst(planes({ limit: 13, recalled }).target, 3)
    expect(findWorst(planes({ limit: 20, recalled, isQuick: true }).target, 3)).toMatchObject({
      value: 17,
      condition: 2,
    })
  })

  it('of the lowest kind passes a limit downwards', () => {
    const lowest = planes({ direction: -1, limit: 7 })
    expect(findWorst(lowest.target, 3)).toMatchObject({ value: 6.5, condition: 0 })
    expect(findWorst(planes({ direction: -1 }).target, 3)).toMatchObject({ value: 1, condition: 2 })
  })
})
