/** The words and scales of studies side by side, over invented answers. */
import { describe, expect, it } from 'vitest'
import type { Answer, Design } from '../../../engine/compare/comparison.ts'
import type { Study } from '../../../engine/requirements/study.ts'
import { figureBlocks, outcome, requirementRows, winner, type StudySet } from '../../../web/screens/sets/sets.ts'
import { withPath } from '../../../web/store/check.ts'
import { studyWith } from '../../engine/analyses/studies.ts'

const STUDY = studyWith({})
const HOTTER_SUPPLY = withPath(withPath(STUDY, 'input.max', 30), 'title', 'Invented: another supply')

interface Told {
  heat: number
  efficiency: number
  meets: boolean
  sink?: boolean
}

const SHUNT: Told = { heat: 4, efficiency: 0.2, meets: false }
const FEEDBACK: Told = { heat: 1, efficiency: 0.42, meets: true }

/** An answer in which only what is looked at here is filled in. */
function answerOf(shunt: Told, series: Told, feedback: Told): Answer {
  const design = (topology: Design['topology'], { heat, efficiency, meets, sink }: Told) => ({
    topology,
    verdict: meets ? 'meets' : 'falls-short',
    shortfalls: meets ? [] : [{ requirement: 'output.tolerance' }],
    notEvaluated: [],
    circuit: {},
    parts: sink ? [{ id: 'HS1', role: 'heatsink of Q1', stress: {}, ratings: {} }] : [],
    figures: { heat: { worst: heat, nominal: heat }, efficiency: { fullLoad: efficiency } },
  })
  const designs = [design('shunt', shunt), design('series-pass', series), design('feedback', feedback)]
  const ranking = designs
    .toSorted((a, b) => Number(b.verdict === 'meets') - Number(a.verdict === 'meets'))
    .map(({ topology }) => ({ topology, score: 50, contributions: {} }))
  const figures = [
    { name: 'heat', label: 'Heat, worst corner', unit: 'W', better: 'less', help: '', resolution: 1e-3 },
    { name: 'efficiency', label: 'Efficiency, full load', unit: '%', better: 'more', help: '' },
  ]
  return { stage: 'proven', comparison: { designs, ranking }, curves: [], figures } as unknown as Answer
}

const set = (study: Study, answer?: Answer): StudySet => ({ title: study.title, study, ...(answer && { answer }) })
const BEFORE = answerOf(SHUNT, { heat: 1, efficiency: 0.4, meets: true }, FEEDBACK)
const AFTER = answerOf(SHUNT, { heat: 2.4, efficiency: 0.35, meets: true, sink: true }, FEEDBACK)

describe('the outcome', () => {
  it('asks for a study where none stands beside, and waits for its answer', () => {
    expect(outcome([set(STUDY, BEFORE)])).toBe('Which study should stand beside this one?')
    expect(outcome([set(STUDY, BEFORE), set(HOTTER_SUPPLY)])).toBe('The studies are being worked out.')
  })

  it('states what the other supply does to the design that changes most, and who leads', () => {
    expect(outcome([set(STUDY, BEFORE), set(HOTTER_SUPPLY, AFTER)])).toBe(
      'With the input at 20.0\u202FV to 30.0\u202FV the series-pass design runs 1.40\u202FW hotter and needs a heatsink; ' +
        'series-pass still leads.',
    )
  })

  it('is the reverse the other way round', () => {
    expect(outcome([set(HOTTER_SUPPLY, AFTER), set(STUDY, BEFORE)])).toBe(
      'With the input at 20.0\u202FV to 27.0\u202FV the series-pass design runs 1.40\u202FW cooler and needs no heatsink; ' +
        'series-pass still leads.',
    )
  })

  it('tells of a change of the lead and of a design that falls short', () => {
    const short = answerOf(SHUNT, { heat: 1, efficiency: 0.4, meets: false }, FEEDBACK)
    const sentence = outcome([set(STUDY, BEFORE), set(withPath(HOTTER_SUPPLY, 'load.max', 0.05), short)])
    expect(sentence).toBe(
      'With “Invented: another supply” the series-pass design sheds as much heat and falls short of one; ' +
        'feedback leads in the place of series-pass.',
    )
  })

  it('names no leader where none meets the requirements', () => {
    const none = answerOf(SHUNT, SHUNT, SHUNT)
    expect(winner(set(STUDY, none))).toBeUndefined()
    expect(outcome([set(STUDY, BEFORE), set(HOTTER_SUPPLY, none)])).toContain(
      'no design meets every requirement any more',
    )
  })
})

describe('requirements side by side', () => {
  it('marks those that differ from the first study, and puts them first', () => {
    const rows = requirementRows([set(STUDY), set(HOTTER_SUPPLY), set(STUDY)])
    expect(rows[0]).toEqual({
      path: 'input.max',
      name: 'Highest input voltage',
      texts: ['27.0\u202FV', '30.0\u202FV', '27.0\u202FV'],
      differs: [false, true, false],
    })
    expect(rows.slice(1).some(({ differs }) => differs.includes(true))).toBe(false)
  })

  it('says what holds where a limit is left out of one study', () => {
    const [row] = requirementRows([set(withPath(STUDY, 'limits.loadRegulation', 0.02)), set(STUDY)])
    expect(row).toMatchObject({ path: 'limits.loadRegulation', texts: [expect.stringContaining('2'), 'not judged'] })
  })
})

describe('figures side by side', () => {
  const blocks = figureBlocks([set(STUDY, BEFORE), set(HOTTER_SUPPLY, AFTER)])

  it('are drawn on one scale from zero', () => {
    const shares = blocks[0]!.rows.flatMap(({ cells }) => cells.map(({ share }) => share))
    expect(shares).toEqual([1, 1, 0.25, 0.6, 0.25, 0.25])
  })

  it('are better or worse by what the figure wants, in words', () => {
    const series = blocks.map(({ rows }) => rows[1]!.cells.map(({ change }) => change))
    expect(series[0]).toEqual([undefined, { sense: 'worse', text: '1.40\u202FW more' }])
    expect(series[1]).toEqual([undefined, { sense: 'worse', text: '5.0 percentage points less' }])
    expect(blocks[0]!.rows[2]!.cells[1]!.change).toEqual({ sense: 'same', text: 'the same' })
  })

  it('are said not to be known while an answer is on its way', () => {
    const [block] = figureBlocks([set(STUDY, BEFORE), set(HOTTER_SUPPLY)])
    expect(block!.rows[0]!.cells[1]).toEqual({ text: 'not known yet' })
  })

  it('are shown as ranges where they are ranges: from lowest to highest on one axis around them all', () => {
    const ranging = (answer: Answer, ranges: readonly (readonly [number, number, number])[]): Answer => {
      const designs = answer.comparison.designs.map((design, k) => {
        const [lowest, nominal, highest] = ranges[k]!
        return { ...design, figures: { ...design.figures, output: { lowest, nominal, highest } } } as Design
      })
      const output = { name: 'output', label: 'Output', unit: 'V', better: 'less', help: '' } as const
      return {
        ...answer,
        comparison: { ...answer.comparison, designs },
        figures: [...answer.figures, output],
      } as Answer
    }
    const before: [number, number, number][] = [
      [8.5, 9, 9.5],
      [8.8, 9, 9.2],
      [8.95, 9, 9.05],
    ]
    const after: [number, number, number][] = [
      [8, 9, 10],
      [8.9, 9, 9.1],
      [8.95, 9, 9.05],
    ]
    const [block] = figureBlocks([
      set(STUDY, ranging(BEFORE, before)),
      set(HOTTER_SUPPLY, ranging(AFTER, after)),
    ]).filter(({ name }) => name === 'output')
    expect(block!.scale).toBe('8.00–10.0\u202FV')
    const cells = block!.rows.map(({ cells: [, second] }) => second!)
    expect(cells.map(({ text }) => text)).toEqual(['8.00–10.0\u202FV', '8.90–9.10\u202FV', '8.95–9.05\u202FV'])
    expect(cells.map(({ change }) => change)).toEqual([
      { sense: 'worse', text: '1.00\u202FV wider' },
      { sense: 'better', text: '200\u202FmV narrower' },
      { sense: 'same', text: 'as wide' },
    ])
    // around another nominal output there is nothing to compare
    const other = ranging(AFTER, [
      [4, 5, 6],
      [8.9, 9, 9.1],
      [8.95, 9, 9.05],
    ])
    const [shunt] = figureBlocks([set(STUDY, ranging(BEFORE, before)), set(HOTTER_SUPPLY, other)]).find(
      ({ name }) => name === 'output',
    )!.rows
    expect(shunt!.cells[1]).toMatchObject({ text: '4.00–6.00\u202FV' })
    expect(shunt!.cells[1]!.change).toBeUndefined()
    // 8 V to 10 V is the whole axis
    expect([cells[0]!.from, cells[0]!.share]).toEqual([0, 1])
    expect(cells[1]!.from).toBeCloseTo(0.45, 9)
    expect(cells[1]!.share).toBeCloseTo(0.1, 9)
  })
})
