/** The tables equal the answer. Data are invented. */
import { mount } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it } from 'vitest'
import { formatQuantity } from '../../../engine/units/index.ts'
import FigureTable from '../../../web/panels/figures/FigureTable.vue'
import PointsPanel from '../../../web/panels/figures/PointsPanel.vue'
import { pointsTable } from '../../../web/panels/figures/points.ts'
import { figureRows, rangeText, readFigure } from '../../../web/panels/figures/rows.ts'
import PartList from '../../../web/panels/parts/PartList.vue'
import { partText, ratingUses } from '../../../web/panels/parts/uses.ts'
import { sampleAnswer } from '../../fixtures/answers/sample.ts'

const answer = sampleAnswer()
const rows = figureRows(answer)
const row = (name: string) => rows.find((r) => r.name === name)!

beforeEach(() => setActivePinia(createPinia()))

describe('figure rows', () => {
  it('have one row a descriptor, in its order and with its label', () => {
    const own = rows.filter(({ name }) => name !== 'shortCircuit.survives')
    expect(own.map(({ label }) => label)).toEqual(answer.figures.map(({ label }) => label))
  })
  it('carry the very numbers of the designs', () => {
    const { designs } = answer.comparison
    expect(row('heat').cells.map(({ value }) => value!.at)).toEqual(designs.map(({ figures }) => figures!.heat.worst))
    expect(row('loadRegulation').cells[1]!.text).toBe(formatQuantity(0.018, 'fraction'))
    expect(row('partCount').cells.map(({ text }) => text)).toEqual(['3', '5', '11'])
  })
  it('give no worst case, no best and no failing one before the corners are proven', () => {
    const first = figureRows(sampleAnswer({ stage: 'first' }))
    expect(first.map(({ name }) => name)).toEqual(rows.map(({ name }) => name))
    for (const { name, cells } of first) {
      expect(cells.some(({ isBest, isFailing }) => isBest || isFailing)).toBe(false)
      const isNominal = name === 'efficiency' || name === 'partCount'
      expect(cells.map(({ value }) => value !== undefined)).toEqual([isNominal, isNominal, isNominal])
    }
  })
  it('make the best bold by its descriptor and never a failing one', () => {
    expect(row('efficiency').cells.map(({ isBest }) => isBest)).toEqual([false, false, true])
    expect(row('heat').cells.map(({ isBest }) => isBest)).toEqual([false, false, true])
    // the narrowest output range is the best one
    expect(row('output').cells.map(({ isBest }) => isBest)).toEqual([false, false, true])
    for (const { cells } of rows) for (const cell of cells) expect(cell.isBest && cell.isFailing).toBe(false)
  })
  it('invert what is beyond its limit, and only that', () => {
    expect(row('output').cells.map(({ isFailing }) => isFailing)).toEqual([true, false, false])
    expect(row('loadRegulation').cells.map(({ isFailing }) => isFailing)).toEqual([true, false, false])
    expect(row('outputResistance').cells.some(({ isFailing }) => isFailing)).toBe(false)
  })
  it('draw all values and limits of a row on one domain that holds them', () => {
    for (const { domain, cells, limit } of rows) {
      const ends = cells.flatMap(({ value }) => (value ? [value.low ?? value.at, value.high ?? value.at] : []))
      for (const x of [...ends, limit?.low, limit?.high]) {
        if (x === undefined) continue
        expect(x).toBeGreaterThanOrEqual(domain.min)
        expect(x).toBeLessThanOrEqual(domain.max)
      }
    }
  })
  it('keep a place for a design without a circuit and drop a figure that none has', () => {
    const partial = sampleAnswer({ verdicts: { shunt: 'unbuilt' } })
    partial.figures = [
      ...partial.figures,
      { name: 'cost', label: 'Cost', unit: '', better: 'less', help: '', matters: '' },
    ]
    const made = figureRows(partial)
    expect(made.map(({ name }) => name)).not.toContain('cost')
    expect(made[0]!.cells[0]).toEqual({ text: 'no circuit', isBest: false, isFailing: false })
  })
  it('say in words who outlives a short, failing only where that is required', () => {
    expect(row('shortCircuit.survives').cells.map(({ text }) => text)).toEqual(['no', 'no', 'yes'])
    expect(row('shortCircuit.survives').cells.some(({ isFailing }) => isFailing)).toBe(false)
    const asked = sampleAnswer()
    const { requirements } = asked.comparison
    asked.comparison.requirements = { ...requirements, limits: { ...requirements.limits, survivesShort: true } }
    const fate = figureRows(asked).find(({ name }) => name === 'shortCircuit.survives')!
    expect(fate.cells.map(({ isFailing }) => isFailing)).toEqual([true, true, false])
  })
  it('read a figure by name or by path', () => {
    const { figures } = answer.comparison.designs[1]!
    expect(readFigure(figures, 'efficiency')).toEqual({ at: 0.421 })
    expect(readFigure(figures, 'efficiency.worst')).toEqual({ at: 0.33 })
    expect(readFigure(figures, 'output')).toEqual({ at: 5.01, low: 4.72, high: 5.27 })
    expect(readFigure(figures, 'outputRipple')).toBeUndefined()
  })
  it('write no more digits than a figure has, and say why a design is without it', () => {
    const assumed = sampleAnswer()
    const cost = {
      name: 'cost',
      label: 'Cost',
      unit: 'EUR',
      better: 'less',
      help: '',
      matters: '',
      digits: 2,
      absent: 'a price is missing',
    } as const
    assumed.figures = [cost]
    assumed.comparison.designs[0]!.figures!.cost = 1.9139
    const [priced] = figureRows(assumed)
    expect(priced!.cells.map(({ text }) => text.replace('\u202F', ' '))).toEqual([
      '1.9 EUR',
      'a price is missing',
      'a price is missing',
    ])
  })
  it('write the unit of a range once where both ends share it', () => {
    expect(rangeText(4.65, 5.35, 'V')).toBe('4.65–5.35\u202FV')
    expect(rangeText(0.9, 1.2, 'V')).toBe('900\u202FmV–1.20\u202FV')
  })
})

describe('FigureTable', () => {
  it('prints every cell and says in words what fails', () => {
    const wrapper = mount(FigureTable, { props: { answer, revision: 3 } })
    const cells = wrapper.findAll('tbody td').map((cell) => cell.text())
    const expected = rows.flatMap((r) => r.cells.map((c) => c.text))
    expect(cells).toHaveLength(expected.length)
    for (const [i, text] of expected.entries()) expect(cells[i]).toContain(text)
    expect(wrapper.findAll('.failing').map((f) => f.text())).toEqual([
      '4.55–5.60\u202FV falls short',
      '3.62\u202F% falls short',
    ])
    expect(wrapper.attributes('data-revision')).toBe('3')
  })
})

describe('points', () => {
  it('give the contributions of the ranking, whose sum is the score', () => {
    const table = pointsTable(answer)
    expect(table.rows.map(({ criterion }) => criterion)).toEqual(['efficiency', 'heat', 'partCount', 'loadRegulation'])
    expect(table.rows.reduce((sum, { most }) => sum + most, 0)).toBeCloseTo(100, 9)
    const total = table.rows.reduce((sum, { cells }) => sum + cells[1]!.points!, 0)
    expect(total).toBeCloseTo(74, 9)
    expect(table.totals.map(({ points }) => points)).toEqual([38, 74, 71])
  })
  it('show nothing where nothing is weighted, and no bar for what is not ranked', () => {
    const bare = sampleAnswer()
    bare.comparison.weights = {}
    expect(
      mount(PointsPanel, { props: { answer: bare } })
        .find('table')
        .exists(),
    ).toBe(false)
    const unranked = sampleAnswer()
    unranked.comparison.ranking = unranked.comparison.ranking.filter(({ topology }) => topology !== 'shunt')
    const wrapper = mount(PointsPanel, { props: { answer: unranked } })
    expect(wrapper.findAll('tbody tr:first-child td').map((c) => c.find('.bar').exists())).toEqual([false, true, true])
  })
})

describe('parts', () => {
  it('list every part with value code, role and use', () => {
    const design = answer.comparison.designs[2]!
    const wrapper = mount(PartList, { props: { design } })
    expect(wrapper.findAll('li')).toHaveLength(design.partCount)
    expect(wrapper.text()).toContain('2k7')
    expect(wrapper.text()).toContain('feedback divider, top')
    expect(wrapper.text()).not.toMatch(/NaN|undefined/)
  })
  it('mark a part beyond its derated rating', () => {
    const wrapper = mount(PartList, { props: { design: answer.comparison.designs[0]! } })
    expect(wrapper.findAll('.over')).toHaveLength(1)
  })
  it('put the most used rating first and know which are heat', () => {
    const uses = ratingUses(answer.comparison.designs[1]!.parts[0]!)
    expect(uses.map(({ quantity }) => quantity)).toEqual(['junction', 'voltage', 'current'])
    expect(uses[0]).toMatchObject({ use: 96 / 150, isHeat: true })
    expect(uses[1]!.isHeat).toBe(false)
  })
  it('measure a least current the other way round, and leave out a rating that is a range', () => {
    const reference = { id: 'D1', role: '', margin: 0.4 }
    const uses = ratingUses({
      ...reference,
      ratings: { minimumCurrent: 0.001, commonMode: 12 },
      stress: { minimumCurrent: 0.004, commonMode: 3 },
    })
    expect(uses).toHaveLength(1)
    expect(uses[0]!.use).toBe(0.25)
  })
  it('write values as they are printed on parts', () => {
    const blank = { id: 'X', role: '', ratings: {}, stress: {}, margin: 1 }
    expect(partText({ ...blank, value: 4700, unit: 'Ω', partNumber: 'MF 0.25 W' })).toEqual({
      main: '4k7',
      more: 'MF 0.25 W',
    })
    expect(partText({ ...blank, value: 10e-6, unit: 'F' }).main).toBe('10.0\u202FµF')
    // a part number names the value already
    expect(partText({ ...blank, value: 4.3, unit: 'V', partNumber: 'BZX55C4V3' })).toEqual({
      main: 'BZX55C4V3',
      more: '',
    })
  })
})
