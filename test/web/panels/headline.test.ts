/** Wording is our own; no outside source applies. The samples are invented, so only the logic of the sentence is checked. */
import { describe, expect, it } from 'vitest'
import type { Comparison, Design } from '../../../engine/compare/comparison.ts'
import { contrast, headline, unprovenLine, verdictLine } from '../../../web/panels/headline/headline.ts'
import { cautionsOf, marginNotes } from '../../../web/panels/headline/notes.ts'
import { closest } from '../../../web/panels/headline/relaxations.ts'
import { sampleAnswer } from '../../fixtures/answers/sample.ts'
import type { SampleChoice } from '../../fixtures/answers/sample.ts'

function comparison(choice: SampleChoice, change: (design: Design) => Partial<Design> = () => ({})): Comparison {
  const { comparison: made } = sampleAnswer(choice)
  return { ...made, designs: made.designs.map((design) => ({ ...design, ...change(design) })) }
}
const judged = () => ({ notEvaluated: [] })
const all = { shunt: 'meets', 'series-pass': 'meets', feedback: 'meets' } as const

describe('headline', () => {
  it('names the leader, its lead, the second and who falls short', () => {
    expect(headline(comparison({}, judged))).toBe(
      'Series-pass meets every requirement and leads by 3 points. Feedback also meets them, holds the output 60 times closer under load and takes six more parts. Shunt falls short of two.',
    )
  })
  it('follows the scores when the other one leads', () => {
    const text = headline(comparison({ scores: { feedback: 75 } }, judged))
    expect(text).toMatch(/^Feedback meets every requirement and leads by 1 point\. Series-pass also meets them, /)
    expect(text).toContain('lets the output move 60 times as far under load')
  })
  it('speaks of all three when all meet', () => {
    const text = headline(comparison({ verdicts: all }, judged))
    expect(text).toMatch(/^Series-pass meets every requirement and leads by 3 points\./)
    expect(text).toMatch(/Shunt meets them too\.$/)
    expect(text).not.toContain('falls short')
  })
  it('says "only" when one meets, and counts what each other one misses', () => {
    const text = headline(comparison({ verdicts: { 'series-pass': 'falls-short' } }, judged))
    expect(text).toBe('Only feedback meets every requirement. Series-pass falls short of two and shunt of two.')
  })
  it('says so when none meets', () => {
    const none = { shunt: 'falls-short', 'series-pass': 'falls-short', feedback: 'falls-short' } as const
    const text = headline(
      comparison({ verdicts: none }, (d) =>
        d.topology === 'feedback' ? { shortfalls: d.shortfalls.slice(0, 1) } : {},
      ),
    )
    expect(text).toBe(
      'No design meets every requirement. Feedback falls short of one, series-pass of two and shunt of two.',
    )
  })
  it('says so when nothing can be built', () => {
    const none = { shunt: 'unbuilt', 'series-pass': 'unbuilt', feedback: 'unbuilt' } as const
    expect(headline(comparison({ verdicts: none }))).toBe('None of the three can be built to these requirements.')
  })
  it('keeps a design that cannot be built apart from one that falls short', () => {
    const text = headline(comparison({ verdicts: { shunt: 'unbuilt', 'series-pass': 'falls-short' } }, judged))
    expect(text).toBe('Only feedback meets every requirement. Series-pass falls short of two. Shunt cannot be built.')
  })
  it('calls scores level that differ by less than half a point', () => {
    const text = headline(comparison({ scores: { 'series-pass': 72.1, feedback: 71.8 } }, judged))
    expect(text).toMatch(/^Series-pass and feedback meet every requirement and are level at 72 points\./)
    expect(headline(comparison({ scores: { 'series-pass': 72.1, feedback: 71.5 } }, judged))).toContain(
      'leads by 1 point.',
    )
  })
  it('names a third that is behind two level ones', () => {
    const text = headline(comparison({ verdicts: all, scores: { 'series-pass': 71, feedback: 71, shunt: 38 } }, judged))
    expect(text).toMatch(/are level at 71 points\. Shunt also meets them\.$/)
  })
  it('names no leader without weights', () => {
    const made = comparison({ scores: { shunt: 0, 'series-pass': 0, feedback: 0 } }, judged)
    expect(headline(made)).toMatch(
      /^Series-pass and feedback meet every requirement; none leads, as nothing is weighted\./,
    )
    expect(headline({ ...made, ranking: [] })).toContain('none leads')
  })
  it('never claims a requirement that was not evaluated', () => {
    // only the feedback circuit has something open: it is not the leader
    expect(headline(comparison({}))).toMatch(
      /^Series-pass meets every requirement and .* Feedback also meets all that was evaluated,/,
    )
    const leads = headline(comparison({ scores: { feedback: 80 } }))
    expect(leads).toMatch(/^Feedback meets every requirement that was evaluated and leads/)
  })
  it('counts two shortfalls of one requirement once', () => {
    const twice = comparison({}, (d) => ({
      ...judged(),
      shortfalls: d.shortfalls.map((s) => ({ ...s, requirement: 'output.tolerance' })),
    }))
    expect(headline(twice)).toMatch(/Shunt falls short of one\.$/)
  })
})

describe('contrast', () => {
  const [, seriesPass, feedback] = sampleAnswer().comparison.designs
  it('gives nothing for equal figures', () => {
    expect(contrast(feedback!.figures!, feedback!.figures!)).toBe('')
  })
  it('turns round with the roles', () => {
    expect(contrast(feedback!.figures!, seriesPass!.figures!)).toContain('takes six fewer parts')
  })
})

describe('margin notes', () => {
  it('name the tightest margin of the leader and what was not evaluated', () => {
    const notes = marginNotes(comparison({}))
    expect(notes.map(({ title }) => title)).toEqual(['Tightest in series-pass:', 'Not evaluated:'])
    expect(notes[0]!.text).toMatch(/^R1 power .*117/)
    expect(notes[1]!.text).toBe('loop stability (feedback). Check it on the bench.')
  })
  it('give a caution of all designs once and without names', () => {
    const everywhere = comparison({}, () => ({ cautions: ['Hot surfaces.'] }))
    expect(cautionsOf(everywhere)).toEqual([{ text: 'Hot surfaces.', names: [] }])
    expect(cautionsOf(comparison({}))[0]!.names).toEqual(['series-pass', 'feedback'])
  })
})

describe('verdict line', () => {
  it('says every verdict and no number that scrubbing changes', () => {
    expect(verdictLine(comparison({ verdicts: { shunt: 'unbuilt' } }))).toBe(
      'Series-pass meets. Feedback meets. Shunt cannot be built',
    )
  })
})

describe('before the corners are proven', () => {
  it('tells the heat at nominal, and no verdict', () => {
    const line = unprovenLine(comparison({}))
    expect(line).toMatch(/^At nominal input and load the heat is [\d.]+\s(m?)W in shunt, .* and .* in feedback\. /u)
    expect(line).not.toMatch(/meet|short of|lead/u)
  })
})

const anything = () => true

describe('the way out where nothing meets', () => {
  const SHORT: SampleChoice = {
    verdicts: { shunt: 'falls-short', 'series-pass': 'falls-short', feedback: 'falls-short' },
  }
  it('is offered only where no design meets', () => {
    expect(closest(comparison({}), anything)).toBeUndefined()
  })
  it('eases every requirement to what the closest design reaches, never less', () => {
    const near = closest(comparison(SHORT), anything)!
    const { shortfalls } = near.design
    const regulation = near.relaxations.find(({ path }) => path === 'limits.loadRegulation')!
    expect(regulation.value).toBeGreaterThanOrEqual(shortfalls[1]!.achieved)
    expect(regulation.value).toBeLessThan(shortfalls[1]!.achieved * 1.1)
    const band = near.relaxations.find(({ path }) => path === 'output.tolerance')!
    // 4.55 V of 5 V is 9 % low
    expect(band.value).toBe(0.09)
    expect(band.label).toBe('Allow an output band of ±9.0\u202F%')
    expect(near.others).toEqual([])
  })
  it('offers nothing that the requirements may not hold, and names it instead', () => {
    const near = closest(comparison(SHORT), (path) => path !== 'output.tolerance')!
    expect(near.relaxations.map(({ path }) => path)).toEqual(['limits.loadRegulation'])
    expect(near.others).toEqual(['output band'])
  })
  it('prefers a design whose misses can all be eased', () => {
    const hot = comparison(SHORT, ({ topology }) =>
      topology === 'feedback'
        ? {}
        : {
            shortfalls: [
              { requirement: 'Q1.junction', required: 125, achieved: 126, unit: '°C', because: 'Q1 is too hot.' },
            ],
          },
    )
    expect(closest(hot, anything)!.name).toBe('feedback')
  })
})
