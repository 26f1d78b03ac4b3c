/** What decides, in words, from invented comparisons. */
import { describe, expect, it } from 'vitest'
import type { Comparison, WeightLimits } from '../../../engine/compare/comparison.ts'
import type { ChangeAnswer } from '../../../engine/explore/change.ts'
import {
  changeLabel,
  changeProof,
  changeSentence,
  decidesFinding,
  dominationSentence,
  limitWords,
  unseatings,
} from '../../../web/panels/decides/words.ts'
import { EXAMPLES } from '../../../web/examples/index.ts'
import { questsOf } from '../../../web/store/ways.ts'
import { sampleAnswer } from '../../fixtures/answers/sample.ts'

const plain = (text: string) => text.replaceAll('\u202F', ' ')
const { comparison, figures } = sampleAnswer()
const having = (weightLimits: WeightLimits): Comparison => ({ ...comparison, weightLimits })
const [first] = EXAMPLES
const study = first!.study

describe('the finding', () => {
  it('says who leads and by what weight it would lose', () => {
    expect(decidesFinding(comparison, figures)).toBe(
      'Series-pass leads by 3.0 points; weighing load regulation above 3.5 puts feedback first.',
    )
    expect(unseatings(comparison).map(({ limit, at }) => [limit.figure, at])).toEqual([
      ['loadRegulation', 3.5],
      ['partCount', 0.5],
      ['heat', 1.25],
    ])
  })

  it('knows leads that no single weight, or no weighting at all, turns round', () => {
    const free = {
      leader: 'series-pass' as const,
      isSettled: false,
      limits: [{ figure: 'heat', weight: 3, from: 0, to: 10 }],
    }
    expect(decidesFinding(having(free), figures)).toBe(
      'Series-pass leads by 3.0 points, and no single weight puts another design first.',
    )
    expect(decidesFinding(having({ ...free, isSettled: true }), figures)).toBe(
      'Series-pass alone meets every requirement: no weighting changes that.',
    )
    expect(decidesFinding(having({ isSettled: false, limits: [] }), figures)).toBe(
      'Nothing is weighed, so nothing leads.',
    )
  })
})

describe('a weight', () => {
  it('is told with both limits, one, or none', () => {
    const limit = { figure: 'heat', weight: 3, from: 0, to: 10 }
    expect(limitWords(limit, 'shunt')).toBe('shunt stays first at any weight')
    expect(limitWords({ ...limit, from: 0.123, below: 'feedback' }, 'shunt')).toBe(
      'shunt stays first from 0.12 up, below it feedback',
    )
    expect(limitWords({ ...limit, from: 1, to: 5.25, below: 'feedback', above: 'series-pass' }, 'shunt')).toBe(
      'shunt stays first from 1 to 5.3, below it feedback, above it series-pass',
    )
    expect(limitWords(limit, undefined)).toBe('')
  })
})

describe('a dominated design', () => {
  it('is named with who dominates it and in what', () => {
    const one = {
      topology: 'shunt',
      by: 'feedback',
      over: 'weighed',
      better: ['heat', 'efficiency'],
      level: ['partCount'],
    } as const
    expect(dominationSentence({ ...one, better: [...one.better], level: [...one.level] }, figures)).toBe(
      'Shunt is dominated: feedback is at least as good in every figure that is weighed, better in heat and efficiency, and level in part count.',
    )
  })
})

describe('what would have to change', () => {
  const answer: ChangeAnswer = {
    topology: 'feedback',
    goal: 'win',
    reach: 0.2,
    trials: 61,
    changes: [
      {
        path: 'input.max',
        from: study.requirements.input.max,
        to: 12.3,
        edits: { 'input.max': 12.3 },
        size: 0.1,
        missedAt: 12.4,
        standings: [
          { topology: 'feedback', meets: true, score: 71.04 },
          { topology: 'series-pass', meets: true, score: 70.5 },
          { topology: 'shunt', meets: false, score: 40 },
        ],
      },
    ],
  }

  it('is a sentence, a button and what stands behind it', () => {
    expect(changeSentence(answer)).toBe('Feedback comes first with the smallest single change:')
    expect(plain(changeLabel(study, answer.changes[0]!))).toBe('Highest input voltage 14.4 → 12.3 V')
    expect(plain(changeProof(answer.changes[0]!, 'win'))).toBe(
      'At 12.4 V it does not yet; points then: feedback 71.0, series-pass 70.5 and shunt falls short.',
    )
  })

  it('says so where nothing single helps, and puts what is given up in plain words', () => {
    expect(plain(changeSentence({ ...answer, goal: 'meet', changes: [] }))).toBe(
      'No single change that was tried lets feedback meet: 61 studies, numbers moved by up to 80 %, limits eased up to 16 times.',
    )
    const given = { path: 'limits.survivesShort', from: true, to: false, edits: { 'limits.survivesShort': false } }
    expect(changeLabel(study, given)).toBe('Do not ask that it survives a short')
    expect(changeProof(given, 'meet')).toBe('')
    expect(changeSentence({ ...answer, goal: 'meet', changes: [given] })).toBe(
      'Feedback meets every requirement with this change:',
    )
  })

  it('is asked for every design but the first: to meet where it falls short, else to win', () => {
    expect(questsOf(comparison)).toEqual([
      { topology: 'shunt', goal: 'meet' },
      { topology: 'feedback', goal: 'win' },
    ])
    const none = sampleAnswer({ verdicts: { 'series-pass': 'falls-short', feedback: 'unbuilt' } }).comparison
    expect(questsOf(none).map(({ goal }) => goal)).toEqual(['meet', 'meet', 'meet'])
  })
})
