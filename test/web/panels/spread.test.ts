import { describe, expect, it } from 'vitest'
import type { BoardSummary, WorstCase } from '../../../engine/compare/boards.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import { summariseBoards } from '../../../engine/index.ts'
import { movesOf } from '../../../web/panels/spread/moves.ts'
import { picturesOf } from '../../../web/panels/spread/picture.ts'
import { outsideText, rangeText, unsolvedText, yieldText } from '../../../web/panels/spread/words.ts'
import { findingOf } from '../../../web/screens/spread/finding.ts'

const band = { low: 4.9, high: 5.1 }
/** Boards spread evenly from `low` to `high`; `unsolved` more have no solution. */
const samplesOf = (low: number, high: number, boards = 1000, unsolved = 0) => ({
  values: Float64Array.from({ length: boards + unsolved }, (_, k) =>
    k < boards ? low + ((high - low) * (k + 0.5)) / boards : NaN,
  ),
  outcomes: Uint8Array.from({ length: boards + unsolved }, (_, k) => (k < boards ? 0 : 1)),
})
const summaryOf = (...of: Parameters<typeof samplesOf>): BoardSummary => summariseBoards([samplesOf(...of)], band)[0]!
const plain = (text: string | undefined) => text?.replaceAll('\u202F', ' ')

describe('the words of a run', () => {
  it('count boards inside with the interval of the yield, rounded outwards', () => {
    expect(plain(yieldText(summaryOf(4.8994, 5.0994)))).toBe(
      '997 of 1,000 boards inside, 95 % sure between 991 and 999',
    )
    expect(plain(yieldText(summaryOf(4.95, 5.05)))).toBe('all 1,000 boards inside, 95 % sure of at least 996')
    expect(plain(yieldText(summaryOf(5.2, 5.3)))).toBe('none of 1,000 boards inside, 95 % sure of at most 4')
  })

  it('name what lies outside and what has no solution', () => {
    expect(outsideText(summaryOf(4.8, 5.2))).toBe('250 too low, 250 too high')
    expect(outsideText(summaryOf(4.95, 5.05))).toBe('')
    expect(unsolvedText(summaryOf(4.95, 5.05, 1000, 1))).toBe('1 board has no solution and is counted apart')
    expect(unsolvedText(summaryOf(4.95, 5.05, 1000, 12))).toBe('12 boards have no solution and are counted apart')
  })

  it('say a unit once where both ends have it', () => {
    expect(plain(rangeText(4.55, 5.6))).toBe('4.55 to 5.60 V')
    expect(plain(rangeText(0.95, 1.05))).toBe('950 mV to 1.05 V')
  })
})

describe('the finding', () => {
  const drawn = (shunt?: BoardSummary, series?: BoardSummary, feedback?: BoardSummary) =>
    plain(
      findingOf([
        { topology: 'shunt', summary: shunt },
        { topology: 'series-pass', summary: series },
        { topology: 'feedback', summary: feedback },
      ]),
    )

  it('says who keeps all boards inside, and how many the others lose', () => {
    expect(drawn(summaryOf(4.8, 5.2), summaryOf(4.8, 5.0), summaryOf(4.95, 5.05))).toBe(
      'Feedback keeps all 1,000 boards inside the band; shunt puts 50 % outside it, series-pass 50 %.',
    )
    expect(drawn(summaryOf(4.95, 5), summaryOf(4.95, 5), summaryOf(4.95, 5))).toBe(
      'Shunt, series-pass and feedback keep all 1,000 boards each inside the band.',
    )
  })

  it('counts a few boards and leaves shares for many', () => {
    expect(drawn(summaryOf(4.8994, 5.0994), summaryOf(4.8, 5.2), summaryOf(4.8, 5.2))).toBe(
      'Shunt puts 3 of 1,000 outside the band, series-pass 50 %, feedback 50 %.',
    )
  })

  it('names what could not be built, and a run without any solution', () => {
    expect(drawn(undefined, summaryOf(4.95, 5), summaryOf(4.95, 5))).toBe(
      'Series-pass and feedback keep all 1,000 boards each inside the band; shunt has no boards to draw.',
    )
    expect(drawn(undefined, undefined, undefined)).toBe('No board of any topology has a solution.')
  })
})

const at = { condition: { input: 12, load: 0.1, ambient: 25 }, thermal: 'settled' as const }
const worstCaseOf = (low: number, high: number): WorstCase => ({
  corners: { lowest: { value: low, ...at }, highest: { value: high, ...at } },
})

describe('the pictures', () => {
  const inspection: Inspection = [{ worstCase: worstCaseOf(4.6, 5.4) }, {}, { worstCase: worstCaseOf(4.95, 5.05) }]
  const summaries = [...summariseBoards([samplesOf(4.8, 5.2), undefined, samplesOf(4.98, 5.02)], band)]

  it('share one axis that reaches to the outermost corner', () => {
    const { axis, ticks, designs } = picturesOf(summaries, inspection, band, false)
    expect(axis.min).toBeLessThanOrEqual(4.6)
    expect(axis.max).toBeGreaterThanOrEqual(5.4)
    expect(ticks[0]!.across).toBe(0)
    expect(ticks.at(-1)!.across).toBeCloseTo(1, 9)
    expect(designs[1]).toBeUndefined()
    expect(designs[0]!.intervals.map(({ id, isOutside }) => [id, isOutside])).toEqual([
      ['corners', true],
      ['middle', true],
    ])
    expect(designs[2]!.intervals.every(({ isOutside }) => !isOutside)).toBe(true)
  })

  /** Height of the highest bin of an outline in the drawing box. */
  const heightOf = (path: string) => 100 - Math.min(...[...path.matchAll(/V([\d.]+)/gu)].map(([, y]) => Number(y)))

  it('have equal areas: the narrow one is as much taller as it is narrower', () => {
    const { designs } = picturesOf(summaries, inspection, band, false)
    expect(heightOf(designs[2]!.inside)).toBeCloseTo(100, 6)
    expect(heightOf(designs[0]!.inside)).toBeCloseTo(10, 0)
    expect(heightOf(picturesOf(summaries, inspection, band, true).designs[0]!.inside)).toBeCloseTo(100, 6)
  })

  it('draw boards outside the band apart', () => {
    const { designs } = picturesOf(summaries, inspection, band, false)
    expect(designs[0]!.outside.match(/M/gu)).toHaveLength(2)
    expect(designs[2]!.outside).toBe('')
  })

  it('stand without a run: the corners alone', () => {
    const { designs } = picturesOf([undefined, undefined, undefined], inspection, band, false)
    expect(designs[0]).toMatchObject({ inside: '', outside: '' })
    expect(designs[0]!.intervals).toHaveLength(1)
  })
})

describe('what moves a figure', () => {
  const source = (words: string, toHigh: number, toLow: number, share: number) => ({
    source: words,
    words,
    toHigh,
    toLow,
    share,
  })
  const inspection: Inspection = [
    {
      sensitivities: {
        condition: at.condition,
        figures: {
          output: {
            unit: 'V',
            nominal: 5,
            sources: [source('D1 voltage', 0.2, -0.2, 0.96), source('R1 resistance', -0.04, 0.04, 0.04)],
            leftOut: 3,
          },
        },
      },
    },
    {},
    {
      sensitivities: {
        condition: at.condition,
        figures: { output: { unit: 'V', nominal: 5, sources: [source('R2 resistance', -0.01, 0.01, 1)], leftOut: 0 } },
      },
    },
  ]

  it('has one scale for all designs, signed, and counts what is not shown', () => {
    const [shunt, series, feedback] = movesOf(inspection, 'output', 1)
    expect(shunt!.rows.map(({ words, highEnd, lowEnd }) => [words, highEnd, lowEnd])).toEqual([['D1 voltage', 1, -1]])
    expect(plain(shunt!.rows[0]!.toHigh)).toBe('+200 mV')
    expect(shunt!.more).toBe(4)
    expect(series).toBeUndefined()
    expect(feedback!.rows[0]!.highEnd).toBeCloseTo(-0.05, 12)
    expect(plain(feedback!.rows[0]!.toHigh)).toBe('−10.0 mV')
  })

  it('has nothing where a figure has no slopes', () => {
    expect(movesOf(inspection, 'heat', 5)).toEqual([undefined, undefined, undefined])
  })
})
