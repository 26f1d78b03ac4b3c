/** The words and pictures of heat and ratings, from details that are invented. */
import { describe, expect, it } from 'vitest'
import { mount } from '@vue/test-utils'
import type { Heat, PartHeat } from '../../../engine/analyses/heat/index.ts'
import type { RatingUse } from '../../../engine/analyses/ratings.ts'
import HeatTable from '../../../web/panels/heat/HeatTable.vue'
import { ladderAxis, ladderSteps } from '../../../web/panels/heat/ladder.ts'
import {
  apart,
  cornerWords,
  heatFinding,
  runawayWords,
  sinkWords,
  tightest,
  touchWords,
} from '../../../web/panels/heat/words.ts'
import RatingTable from '../../../web/panels/ratings/RatingTable.vue'
import { barOf, policyNumber, ratingFinding } from '../../../web/panels/ratings/words.ts'
import { sampleDesign } from '../../fixtures/answers/sample.ts'

const plain = (text: string) => text.replaceAll('\u202F', ' ')
const source = 'a sheet'

function pass(changes: Partial<PartHeat> = {}): PartHeat {
  return {
    part: 'Q1',
    role: 'pass transistor',
    partNumber: 'BD139-16',
    package: 'TO-126',
    heat: 2,
    hottest: 110,
    allowed: 125,
    maximum: 150,
    thermalResistance: 30,
    path: [
      { from: 'junction', to: 'case', kelvinPerWatt: 10, source, confidence: 'read' },
      { from: 'case', to: 'ambient', kelvinPerWatt: 20, source, confidence: 'derived' },
    ],
    nodes: [
      { at: 'junction', temperature: 110 },
      { at: 'case', temperature: 90 },
      { at: 'ambient', temperature: 50 },
    ],
    condition: { input: 30, load: 0.08, ambient: 50 },
    overrides: {},
    loopGain: 0.02,
    surface: {
      at: 'case',
      material: 'metal',
      temperature: 90,
      atMost: false,
      limit: { material: 'metal', temperature: 70, meaning: 'burns', source: 'EN 563', confidence: 'read' },
    },
    sink: { allowed: 37.5, bare: false, needed: 20, smallest: { partNumber: 'clip', thermalResistance: 18, source } },
    ...changes,
  }
}

const heat = (parts: PartHeat[], changes: Partial<Heat> = {}): Heat => ({
  parts,
  runaway: [],
  safeAreas: [],
  resistors: [],
  ...changes,
})
const series = (parts: PartHeat[], changes: Partial<Heat> = {}) => ({
  design: sampleDesign('series-pass', 'meets'),
  heat: heat(parts, changes),
})

describe('words of heat', () => {
  it('names corners by what differs: no load, a short', () => {
    expect(plain(cornerWords({ input: 30, load: 0, ambient: -5 }))).toBe('30.0 V in, no load, −5.0 °C')
    expect(plain(cornerWords({ input: 9, load: 1000, ambient: 25 }))).toContain('shorted output')
  })

  it('finds that junctions keep their limit, or by how much one does not', () => {
    expect(plain(heatFinding([series([pass()])]))).toMatch(
      /^Every junction keeps .*Q1 of the series-pass design, 110 °C of 125 °C/u,
    )
    const hot = pass({ hottest: 129 })
    expect(plain(heatFinding([series([hot])]))).toMatch(/^Q1 of the series-pass design gets 4\.00 K hotter/u)
    expect(heatFinding([{ design: sampleDesign('shunt', 'falls-short'), heat: undefined }])).toMatch(/^Nothing/u)
  })

  it('puts thermal runaway in service before everything else', () => {
    const runaway = [{ part: 'Q1', condition: { input: 30, load: 0.08, ambient: 50 }, shorted: false }]
    const one = series([pass()], { runaway })
    expect(heatFinding([one])).toMatch(/no temperature settles, thermal runaway/u)
    expect(runawayWords(one)).toMatch(/Q1 runs away thermally.*cannot be built/u)
    const short = series([pass()], { runaway: [{ ...runaway[0]!, shorted: true }] })
    expect(runawayWords(short)).toMatch(/settle at every corner.*output shorted none does.*not required/su)
  })

  it('shows the part with the least room first', () => {
    const cool = pass({ part: 'Q2', hottest: 60 })
    expect(tightest([cool, pass()])!.part).toBe('Q1')
    const body = { ...pass({ part: 'R1', hottest: 200 }) }
    delete body.allowed
    expect(tightest([body, cool])!.part).toBe('Q2')
  })

  it('warns of a surface with its limit and where that comes from', () => {
    expect(plain(touchWords(pass())!)).toMatch(
      /^The case of Q1, metal tab, reaches 90 °C at 30\.0 V in.*From 70 °C: burns \(EN 563\)/u,
    )
    expect(
      touchWords(pass({ surface: { at: 'case', material: 'metal', temperature: 50, atMost: false } })),
    ).toBeUndefined()
  })

  it('says what heatsink is needed, that none is, or that none is enough', () => {
    expect(plain(sinkWords(pass()).main)).toBe('≤ 20.0 K/W')
    expect(sinkWords(pass({ sink: { allowed: 200, bare: true } })).main).toBe('none')
    expect(sinkWords(pass({ sink: { allowed: 5, bare: false, needed: -6, because: 'too hot' } }))).toEqual({
      main: 'none is enough',
      more: 'too hot',
    })
  })

  it('tells values apart that three figures would show as one', () => {
    expect(apart(125.09, 125, '°C').map(plain)).toEqual(['125.1 °C', '125.0 °C'])
    expect(apart(1, 1, 'V').map(plain)).toEqual(['1.00 V', '1.00 V'])
  })
})

describe('the ladder', () => {
  it('falls from the junction to the ambient on an axis that holds the limit', () => {
    const axis = ladderAxis([pass()])
    expect(axis.max).toBeGreaterThanOrEqual(125)
    const steps = ladderSteps(pass(), axis)
    expect(steps.map(({ place }) => place)).toEqual(['junction', 'case', 'ambient'])
    expect(steps[2]!.top).toBe(steps[2]!.foot)
    expect(plain(steps[0]!.stretch!.fall)).toBe('20.0 K')
  })

  it('and its table show a part that is too hot inverted', () => {
    const wrapper = mount(HeatTable, { props: { designs: [series([pass({ hottest: 125.09 })])] } })
    expect(plain(wrapper.find('.over').text())).toBe('125.1 °C')
    expect(
      mount(HeatTable, { props: { designs: [series([pass()])] } })
        .find('.over')
        .exists(),
    ).toBe(false)
  })
})

describe('ratings', () => {
  const rating = (changes: Partial<RatingUse> = {}): RatingUse => ({
    part: 'Q1',
    quantity: 'junction',
    unit: '°C',
    sense: 'max',
    rating: 150,
    allowed: 125,
    stress: 110,
    margin: 0.12,
    condition: { input: 30, load: 0.08, ambient: 50 },
    thermal: 'settled',
    ...changes,
  })
  const rated = (ratings: RatingUse[]) => [{ design: sampleDesign('series-pass', 'meets'), ratings, policy: undefined }]

  it('are summed up by the tightest, and by how many are not kept', () => {
    expect(plain(ratingFinding(rated([rating()])))).toMatch(/^All 1 ratings are kept.*110 °C of 125 °C allowed/u)
    const over = rating({ stress: 125.09, margin: -0.0007 })
    expect(plain(ratingFinding(rated([rating(), over])))).toMatch(
      /^1 of 2 ratings is not kept.*125\.1 °C of 125\.0 °C/u,
    )
  })

  it('have a bar that ends at what the maker allows, also where least is what counts', () => {
    expect(barOf(rating())).toEqual({ use: 110 / 150, allowed: 125 / 150 })
    const least = rating({ quantity: 'minimumCurrent', sense: 'min', rating: 1e-3, allowed: 1e-3, stress: 4e-3 })
    expect(barOf(least)).toEqual({ use: 0.25, allowed: 1 })
    const wrapper = mount(RatingTable, {
      props: { designs: rated([rating(), rating({ quantity: 'voltage', unit: 'V' })]) },
    })
    expect(wrapper.findAll('.bar i.heat')).toHaveLength(1)
    expect(wrapper.findAll('.tick')).toHaveLength(2)
  })

  it('are derated by numbers in words', () => {
    const origin = { source, confidence: 'read' } as const
    expect(plain(policyNumber({ factor: 'resistorPower', value: 0.5, ...origin }))).toBe('50 %')
    expect(policyNumber({ factor: 'heatsinkFactor', value: 1.15, ...origin })).toBe('× 1.15')
    expect(policyNumber({ factor: 'transistorJunction', junction: { margin: 40, ceiling: 110 }, ...origin })).toBe(
      'the lowest of 40 K below its maximum and 110 °C',
    )
    expect(policyNumber({ factor: 'diodeJunction', junction: {}, ...origin })).toBe("the maker's maximum")
  })
})
