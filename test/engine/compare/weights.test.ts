/**
 * How far weights may move, and which designs are dominated. No published case: the closed form is held against the ranking
 * itself, and against sums by hand.
 */
import { expect, test } from 'vitest'
import { dominationsOf } from '../../../engine/compare/dominated.ts'
import { type Ranked, rank } from '../../../engine/compare/ranking.ts'
import { weightLimits } from '../../../engine/compare/weights.ts'
import type { Figures } from '../../../engine/figures/index.ts'
import { randomOf } from '../../../engine/random/index.ts'
import { FIGURE_NAMES } from '../../../engine/requirements/index.ts'
import type { Weights } from '../../../engine/requirements/study.ts'

const NAMES = ['shunt', 'series-pass', 'feedback'] as const

interface Values {
  heat: number
  partCount: number
  loadRegulation?: number
  efficiency?: number
  cost?: number
  meets?: boolean
}

const ranked = (values: readonly Values[]): Ranked[] =>
  values.map(({ heat, partCount, loadRegulation = 0.02, efficiency = 0.5, cost, meets = true }, k) => ({
    topology: NAMES[k]!,
    meets,
    figures: {
      heat: { worst: heat, nominal: heat },
      efficiency: { fullLoad: efficiency, nominal: efficiency, worst: efficiency },
      partCount,
      loadRegulation: { volts: 1, fraction: loadRegulation, frozen: loadRegulation, settled: loadRegulation },
      ...(cost === undefined ? {} : { cost }),
    } as unknown as Figures,
  }))

/** How far outside a limit the ranking is asked again. */
const OUTSIDE = 1e-6

const firstOf = (designs: readonly Ranked[], weights: Weights) => rank(designs, weights)[0]!.topology

test('a limit by hand: half the heat and twice the parts are level at equal weights', () => {
  const designs = ranked([
    { heat: 2, partCount: 3 },
    { heat: 1, partCount: 6 },
  ])
  const { leader, limits } = weightLimits(designs, { heat: 2, partCount: 5 })
  expect(leader).toBe('shunt')
  expect(limits.find(({ figure }) => figure === 'heat')).toEqual({
    figure: 'heat',
    weight: 2,
    from: 0,
    to: 5,
    above: 'series-pass',
  })
  expect(limits.find(({ figure }) => figure === 'partCount')).toEqual({
    figure: 'partCount',
    weight: 5,
    from: 2,
    to: 10,
    below: 'series-pass',
  })
})

test('the ranking changes just outside every limit, to the design that is named, and nowhere inside', () => {
  const random = randomOf(7, 1)
  const between = (low: number, high: number) => low + (high - low) * random()
  let crossed = 0
  for (let k = 0; k < 400; k++) {
    const designs = ranked(
      NAMES.map(() => ({
        heat: between(0.1, 6),
        partCount: Math.round(between(3, 14)),
        loadRegulation: between(0.0001, 0.1),
        efficiency: between(0.1, 0.7),
        ...(random() < 0.8 ? { cost: between(0.3, 4) } : {}),
        meets: random() < 0.8,
      })),
    )
    const weights = Object.fromEntries(
      ['heat', 'partCount', 'loadRegulation', 'efficiency'].map((name) => [name, Math.round(between(0, 10))]),
    )
    if (Object.values(weights).every((weight) => weight === 0)) continue
    const { leader, limits } = weightLimits(designs, weights)
    expect(leader).toBe(firstOf(designs, weights))
    for (const { figure, weight, from, to, below, above } of limits) {
      expect(from).toBeLessThanOrEqual(weight)
      expect(to).toBeGreaterThanOrEqual(weight)
      const at = (value: number) => firstOf(designs, { ...weights, [figure]: value })
      for (const share of [1e-6, 0.25, 0.5, 0.75, 1 - 1e-6]) expect(at(from + share * (to - from))).toBe(leader)
      // without a successor the limit is the end of what a weight may be
      expect([from === 0 || below !== undefined, to === 10 || above !== undefined]).toEqual([true, true])
      const beyond = [
        ...(below && from > OUTSIDE ? [{ successor: below, first: at(from - OUTSIDE) }] : []),
        ...(above && to < 10 - OUTSIDE ? [{ successor: above, first: at(to + OUTSIDE) }] : []),
      ]
      crossed += beyond.length
      for (const { successor, first } of beyond) expect(first).toBe(successor)
    }
  }
  expect(crossed).toBeGreaterThan(300)
})

test('every figure that may be weighed and that a design has gets a limit', () => {
  const designs = ranked([
    { heat: 1, partCount: 3, cost: 1 },
    { heat: 2, partCount: 5 },
  ])
  const figures = weightLimits(designs, { heat: 1 }).limits.map(({ figure }) => figure)
  expect(figures.toSorted()).toEqual(['cost', 'efficiency', 'heat', 'loadRegulation', 'partCount'])
  expect(FIGURE_NAMES).toEqual(expect.arrayContaining(figures))
})

test('a design that alone meets leads whatever is weighed', () => {
  const designs = ranked([
    { heat: 1, partCount: 3, meets: false },
    { heat: 9, partCount: 9, meets: true },
  ])
  const { leader, isSettled, limits } = weightLimits(designs, { heat: 3 })
  expect({ leader, isSettled }).toEqual({ leader: 'series-pass', isSettled: true })
  expect(limits.every(({ from, to, above, below }) => from === 0 && to === 10 && !above && !below)).toBe(true)
})

test('without any weight there is no leader to unseat', () => {
  const designs = ranked([
    { heat: 1, partCount: 3 },
    { heat: 2, partCount: 2 },
  ])
  expect(weightLimits(designs, {})).toEqual({ isSettled: false, limits: [] })
  expect(weightLimits(designs, { heat: 0 })).toEqual({ isSettled: false, limits: [] })
})

test('a dominated design is named with who dominates it and in what', () => {
  const designs = ranked([
    { heat: 6, partCount: 5, loadRegulation: 0.02, efficiency: 0.2 },
    { heat: 1, partCount: 5, loadRegulation: 0.04, efficiency: 0.4 },
    { heat: 2, partCount: 9, loadRegulation: 0.01, efficiency: 0.4 },
  ])
  expect(dominationsOf(designs, { heat: 1, partCount: 1 })).toEqual([
    {
      topology: 'shunt',
      by: 'series-pass',
      over: 'weighed',
      better: ['heat'],
      level: ['partCount'],
    },
    {
      topology: 'feedback',
      by: 'series-pass',
      over: 'weighed',
      better: ['heat', 'partCount'],
      level: [],
    },
  ])
  // in all figures the series-pass moves further under load: it dominates neither
  expect(dominationsOf(designs, { heat: 1, partCount: 1, loadRegulation: 1, efficiency: 1 })).toEqual([])
})

test('what is worse in every figure is dominated over all of them, and listed once', () => {
  const designs = ranked([
    { heat: 1, partCount: 3, loadRegulation: 0.01, efficiency: 0.5 },
    { heat: 2, partCount: 4, loadRegulation: 0.02, efficiency: 0.4 },
  ])
  expect(dominationsOf(designs, { heat: 1 }).map(({ topology, over }) => `${topology} ${over}`)).toEqual([
    'series-pass all',
  ])
})

test('a design that falls short does not dominate one that meets, and a finer figure than counts is level', () => {
  const better = { heat: 1, partCount: 3, loadRegulation: 0.0001 }
  const worse = { heat: 2, partCount: 3, loadRegulation: 0.0009 }
  expect(dominationsOf(ranked([{ ...better, meets: false }, worse]), { heat: 1 })).toEqual([])
  expect(dominationsOf(ranked([better, worse]), { loadRegulation: 1, heat: 1 })[0]!.level).toContain('loadRegulation')
})

test('no weighting of the figures puts a dominated design first', () => {
  const random = randomOf(3, 5)
  let dominated = 0
  for (let k = 0; k < 200; k++) {
    const designs = ranked(
      NAMES.map(() => ({
        heat: Math.ceil(4 * random()),
        partCount: Math.ceil(4 * random()),
        loadRegulation: 0.01 * Math.ceil(4 * random()),
        efficiency: 0.1 * Math.ceil(4 * random()),
      })),
    )
    for (const { topology, by, over } of dominationsOf(designs, {})) {
      expect(over).toBe('all')
      dominated++
      for (let trial = 0; trial < 20; trial++) {
        const weights = Object.fromEntries(FIGURE_NAMES.map((name) => [name, 10 * random()]))
        const order = rank(designs, weights).map((entry) => entry.topology)
        expect(order.indexOf(by)).toBeLessThan(order.indexOf(topology))
      }
    }
  }
  expect(dominated).toBeGreaterThan(20)
})
