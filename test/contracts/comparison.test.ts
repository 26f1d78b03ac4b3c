/** What must hold of every comparison, whatever the requirements. */
import { beforeAll, describe, expect, test } from 'vitest'
import { type Comparison, compare, type Design, FIGURES, type Point, type Study } from '../../engine/index.ts'
import { exampleStudies } from '../fixtures/studies/examples.ts'
import { generateStudy } from '../fixtures/studies/generate.ts'
import { achievedAgain } from './shortfall.ts'

/** Besides the examples: studies in which every topology and both verdicts occur. */
const STUDIES: readonly Study[] = [...exampleStudies(), ...[3, 9, 17, 31].map((k) => generateStudy(20, k))]

const pointsOf = (design: Design): Point[] => [
  ...(design.operatingPoints ?? []),
  ...Object.values(design.worst ?? {}).flatMap(({ point, against }) => (against ? [point, against] : [point])),
  ...design.shortfalls.flatMap(({ corner }) => (corner ? [corner.point] : [])),
]

/** Paths of everything that JSON cannot carry: NaN, Infinity, undefined, functions. */
function unprintable(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path]
  if (value === null || value === undefined || typeof value === 'function') return [path]
  if (typeof value !== 'object') return []
  return Object.entries(value).flatMap(([key, inner]) => unprintable(inner, `${path}.${key}`))
}

/** Amperes that do not balance, by node. */
function imbalance(design: Design, point: Point): { node: string; excess: number }[] {
  const sum = new Map<string, number>()
  const size = new Map<string, number>()
  for (const element of design.circuit!.elements) {
    element.nodes.forEach((node, k) => {
      const current = point.currents[element.id]![k]!
      sum.set(node, (sum.get(node) ?? 0) + current)
      size.set(node, Math.max(size.get(node) ?? 0, Math.abs(current)))
    })
  }
  return [...sum].flatMap(([node, total]) => {
    const excess = Math.abs(total) - (1e-9 + 1e-6 * size.get(node)!)
    return excess > 0 ? [{ node, excess }] : []
  })
}

const powerOf = (design: Design, point: Point, wanted: (id: string) => boolean): number =>
  design
    .circuit!.elements.filter(({ id }) => wanted(id))
    .reduce(
      (sum, { id, nodes }) =>
        sum + nodes.reduce((part, node, k) => part + point.nodeVoltages[node]! * point.currents[id]![k]!, 0),
      0,
    )

const heatOf = (point: Point): number => Object.values(point.heat).reduce((sum, watts) => sum + watts, 0)

const distinct = (range: { min: number; nominal: number; max: number }): number[] => [
  ...new Set([range.min, range.nominal, range.max]),
]

/** The one number of a figure that is ranked, as the published format names it. */
function headline({ figures }: Design, name: string): number | undefined {
  if (figures === undefined) return undefined
  if (name === 'efficiency') return figures.efficiency.fullLoad
  if (name === 'heat') return figures.heat.worst
  if (name === 'loadRegulation') return figures.loadRegulation.fraction
  return name === 'partCount' ? figures.partCount : undefined
}

describe.each(STUDIES)('$title', (study) => {
  let comparison: Comparison
  let built: Design[]
  beforeAll(() => {
    comparison = compare(study)
    built = comparison.designs.filter((design) => design.circuit !== undefined)
  }, 120_000)

  test('there are always three designs, in one order', () => {
    expect(comparison.designs.map(({ topology }) => topology)).toEqual(['shunt', 'series-pass', 'feedback'])
  })

  test('it is plain data: JSON and a structured clone carry all of it', () => {
    expect(unprintable(comparison)).toEqual([])
    expect(structuredClone(comparison)).toEqual(comparison)
    expect(JSON.parse(JSON.stringify(comparison))).toEqual(comparison)
  })

  test('the same study gives the same comparison', { timeout: 120_000 }, () => {
    expect(JSON.stringify(compare(structuredClone(study)))).toBe(JSON.stringify(comparison))
  })

  test('currents balance at every node of every point', () => {
    const found = built.flatMap((design) => pointsOf(design).flatMap((point) => imbalance(design, point)))
    expect(found).toEqual([])
  })

  test('the powers of all elements sum to nothing: what the input gives is taken', () => {
    for (const design of built) {
      for (const point of pointsOf(design)) {
        const given = point.condition.input * point.inputCurrent
        expect(Math.abs(powerOf(design, point, () => true))).toBeLessThanOrEqual(1e-6 * Math.abs(given) + 1e-9)
      }
    }
  })

  test('heat by part sums to input power less output power', () => {
    for (const design of built) {
      for (const point of pointsOf(design)) {
        const input = point.condition.input * point.inputCurrent
        const output = powerOf(design, point, (id) => id === 'load')
        expect(Math.abs(heatOf(point) - (input - output))).toBeLessThanOrEqual(1e-6 * Math.abs(input) + 1e-9)
        expect(Math.abs(point.efficiency * input - output)).toBeLessThanOrEqual(1e-6 * Math.abs(input) + 1e-9)
      }
    }
  })

  test('operating points are every distinct combination of lowest, nominal and highest', () => {
    const { input, load, ambient } = comparison.requirements
    const expected = distinct(input).flatMap((v) => distinct(load).map((i) => `${v} ${i} ${ambient.nominal}`))
    for (const design of built) {
      const there = design.operatingPoints!.map(({ condition: c }) => `${c.input} ${c.load} ${c.ambient}`)
      expect(new Set(there).size).toBe(there.length)
      expect(expected).toEqual(expect.arrayContaining(there))
      // what is missing was said to have no solution
      expect(expected.length - there.length).toBeLessThanOrEqual(design.unsolved.length)
    }
  })

  test('solving the corner of a shortfall again gives what it says was achieved', () => {
    for (const design of built) {
      for (const shortfall of design.shortfalls) {
        if (shortfall.corner === undefined) continue
        const again = achievedAgain(design, shortfall, comparison.requirements)
        const near = again.map((value) => Math.abs(value / shortfall.achieved - 1))
        expect(Math.min(...near), `${design.topology}: ${shortfall.requirement}, again ${again.join()}`).toBeLessThan(
          1e-3,
        )
      }
    }
  })

  test('a design that meets has no corner outside any limit, one that falls short says where', () => {
    const { output, limits } = comparison.requirements
    for (const design of comparison.designs) {
      expect(design.verdict === 'meets').toBe(design.shortfalls.length === 0)
    }
    for (const design of comparison.designs.filter(({ verdict }) => verdict === 'meets')) {
      const figures = design.figures!
      expect(figures.output.lowest).toBeGreaterThanOrEqual(output.voltage * (1 - output.tolerance) * (1 - 1e-9))
      expect(figures.output.highest).toBeLessThanOrEqual(output.voltage * (1 + output.tolerance) * (1 + 1e-9))
      expect(figures.loadRegulation.fraction).toBeLessThanOrEqual(limits.loadRegulation ?? Infinity)
      expect(figures.lineRegulation.fraction).toBeLessThanOrEqual(limits.lineRegulation ?? Infinity)
      expect(figures.outputRipple ?? 0).toBeLessThanOrEqual(limits.outputRipple ?? Infinity)
      expect(!limits.survivesShort || figures.shortCircuit?.survives === true).toBe(true)
      for (const part of design.parts) expect(part.margin).toBeGreaterThanOrEqual(-1e-9)
      for (const point of design.operatingPoints!) {
        expect(point.output).toBeGreaterThanOrEqual(figures.output.lowest - 1e-9)
        expect(point.output).toBeLessThanOrEqual(figures.output.highest + 1e-9)
      }
    }
  })

  test('every worst figure is the one of its own corner', () => {
    for (const { figures, worst } of built) {
      if (figures === undefined || worst === undefined) continue
      expect(worst['output.lowest']!.point.output).toBeCloseTo(figures.output.lowest, 6)
      expect(worst['output.highest']!.point.output).toBeCloseTo(figures.output.highest, 6)
      expect(heatOf(worst['heat.worst']!.point)).toBeCloseTo(figures.heat.worst, 6)
      expect(worst['efficiency.worst']!.point.efficiency).toBeCloseTo(figures.efficiency.worst, 6)
    }
  })

  test('the ranking follows from weights and figures by the published rule', () => {
    const { designs, ranking, weights } = comparison
    const total = Object.values(weights).reduce((sum, weight) => sum + weight, 0)
    const met = designs.filter(({ verdict }) => verdict === 'meets')
    const yardsticks = met.length > 0 ? met : designs
    for (const { topology, score, contributions } of ranking) {
      const own = designs.find((design) => design.topology === topology)!
      for (const [name, points] of Object.entries(contributions)) {
        const { better, resolution = 0 } = FIGURES.find((figure) => figure.name === name)!
        const values = yardsticks.flatMap((design) => {
          const value = headline(design, name)
          return value === undefined ? [] : [Math.max(value, resolution)]
        })
        const mine = headline(own, name)
        const best = better === 'less' ? Math.min(...values) : Math.max(...values)
        const value = Math.max(mine ?? NaN, resolution)
        const ratio = better === 'less' ? best / value : value / best
        const share = mine === undefined ? 0 : Math.min(1, ratio)
        expect(points).toBeCloseTo((100 * weights[name]! * share) / total, 9)
      }
      expect(Object.keys(contributions).length).toBeGreaterThan(0)
      expect(score).toBeCloseTo(
        Object.values(contributions).reduce((sum, points) => sum + points, 0),
        9,
      )
    }
    const meets = (topology: string) => designs.find((design) => design.topology === topology)!.verdict === 'meets'
    ranking.slice(1).forEach((entry, k) => {
      const above = ranking[k]!
      expect(meets(entry.topology) && !meets(above.topology)).toBe(false)
      const isBehind = meets(entry.topology) !== meets(above.topology) || entry.score <= above.score
      expect(isBehind).toBe(true)
    })
    expect(ranking.map(({ topology }) => topology).toSorted()).toEqual(['feedback', 'series-pass', 'shunt'])
  })
})
