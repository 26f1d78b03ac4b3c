/**
 * A voltage divider has a spread that can be written down. Sources: variance of a uniform variable, (b - a)²/12; variance of
 * a sum of independent ones; first-order propagation for the resistors (JCGM 100:2008, 5.1.2), and the exact moments by
 * integrating over both resistors, done here apart from the engine.
 */
import { describe, expect, test } from 'vitest'
import type { Netlist } from '../../engine/devices/elements.ts'
import type { Tolerance } from '../../engine/parts/define.ts'
import type { Draw, Method, SpreadProblem } from '../../engine/analyses/spread/problem.ts'
import { samplerOf } from '../../engine/analyses/spread/samples.ts'
import { percentileOf, solvedInOrder, statisticsOf } from '../../engine/analyses/spread/statistics.ts'
import { rootSumSquareAt } from '../../engine/analyses/spread/worstCase.ts'

const UPPER = 14_000
const LOWER = 10_000
const RATIO = LOWER / (UPPER + LOWER)
const BOARDS = 20_000
const METHODS: readonly Method[] = ['random', 'even']

const netlist: Netlist = {
  ground: '0',
  elements: [
    { id: 'input', kind: 'voltage-source', nodes: ['in', '0'], part: 'input', value: 12 },
    { id: 'R1', kind: 'resistor', nodes: ['in', 'out'], part: 'R1', ohms: UPPER },
    { id: 'R2', kind: 'resistor', nodes: ['out', '0'], part: 'R2', ohms: LOWER },
    { id: 'load', kind: 'current-source', nodes: ['out', '0'], part: 'load', value: 0 },
  ],
}

const resistance = (part: string, tolerance: number): Tolerance => ({
  id: `${part}.resistance`,
  part,
  label: 'resistance',
  effects: [{ element: part, parameter: 'ohms', how: 'scale', low: 1 - tolerance, high: 1 + tolerance }],
})

const problemOf = (tolerance: number, input: readonly [number, number], load: readonly [number, number]) =>
  ({
    netlist,
    thermalResistance: {},
    guess: { in: 12, out: 5 },
    output: 'out',
    tolerances: tolerance > 0 ? [resistance('R1', tolerance), resistance('R2', tolerance)] : [],
    input: { min: input[0], nominal: (input[0] + input[1]) / 2, max: input[1] },
    load: { min: load[0], nominal: (load[0] + load[1]) / 2, max: load[1] },
    ambient: { min: 25, nominal: 25, max: 25 },
  }) satisfies SpreadProblem

function run(problem: SpreadProblem, draw: Partial<Draw>) {
  const samples = samplerOf(problem, { seed: 3, method: 'random', distribution: 'uniform', ...draw }).take(0, BOARDS)
  const sorted = solvedInOrder(samples)
  const statistics = statisticsOf(samples, sorted, { low: 4.9, high: 5.1 })
  expect(statistics.solved).toBe(BOARDS)
  return { sorted, statistics, mean: statistics.mean!, deviation: statistics.standardDeviation! }
}

/** Standard errors of a mean and of a standard deviation; a normal one's kurtosis is on the safe side of ours. */
const errorOfMean = (deviation: number) => deviation / Math.sqrt(BOARDS)
const errorOfDeviation = (deviation: number) => deviation / Math.sqrt(2 * BOARDS)

/** Mean and standard deviation of f over the square -1 to 1, with Simpson's rule. */
function integrated(f: (u: number, v: number) => number, density: (u: number) => number) {
  const n = 200
  const weights = Array.from({ length: n + 1 }, (_, k) => {
    const u = -1 + (2 * k) / n
    return { u, w: ((k === 0 || k === n ? 1 : k % 2 === 1 ? 4 : 2) * 2 * density(u)) / (3 * n) }
  })
  const moment = (power: number, about: number) =>
    weights.reduce((sum, a) => sum + weights.reduce((s, b) => s + a.w * b.w * (f(a.u, b.u) - about) ** power, 0), 0)
  const mean = moment(1, 0)
  return { mean, deviation: Math.sqrt(moment(2, mean)) }
}

describe.each(METHODS)('a divider of exact resistors, %s boards', (method) => {
  test('between two ends of its input has the mean and deviation of a uniform variable', () => {
    const { mean, deviation, sorted } = run(problemOf(0, [10, 14], [0, 0]), { method })
    const exact = (RATIO * 4) / Math.sqrt(12)
    expect(Math.abs(mean - RATIO * 12)).toBeLessThan(4 * errorOfMean(exact))
    expect(Math.abs(deviation - exact)).toBeLessThan(4 * errorOfDeviation(exact))
    for (const share of [0.05, 0.5, 0.95]) {
      const error = (RATIO * 4 * Math.sqrt(share * (1 - share))) / Math.sqrt(BOARDS)
      expect(Math.abs(percentileOf(sorted, share) - RATIO * (10 + 4 * share))).toBeLessThan(4 * error)
    }
  })

  test('under input and load adds their variances', () => {
    const { mean, deviation } = run(problemOf(0, [10, 14], [0, 200e-6]), { method })
    const parallel = (UPPER * LOWER) / (UPPER + LOWER)
    const exact = Math.hypot((RATIO * 4) / Math.sqrt(12), (parallel * 200e-6) / Math.sqrt(12))
    expect(Math.abs(mean - (RATIO * 12 - parallel * 100e-6))).toBeLessThan(4 * errorOfMean(exact))
    expect(Math.abs(deviation - exact)).toBeLessThan(4 * errorOfDeviation(exact))
  })
})

describe.each(METHODS)('a divider of 1 %% resistors, %s boards', (method) => {
  const output = (t: number) => (u: number, v: number) => {
    // the engine's law of a tolerance: to its limit in equal ratios
    const scaled = (ohms: number, x: number) => ohms * (x < 0 ? 1 - t : 1 + t) ** Math.abs(x)
    return (12 * scaled(LOWER, v)) / (scaled(UPPER, u) + scaled(LOWER, v))
  }
  const gaussian = (u: number) => (3 / Math.sqrt(2 * Math.PI) / 0.9973002039367398) * Math.exp(-4.5 * u * u)

  test.each([
    ['uniform', () => 0.5, Math.sqrt(1 / 3)],
    // variance of a normal distribution cut off at 3 sigma: 1 - 2·3·φ(3)/(1 - 2·Φ(-3)) = 0.97334
    ['normal', gaussian, Math.sqrt(0.97334) / 3],
  ] as const)(
    '%s within its limits has the integrated moments, which are nearly the first-order ones',
    (distribution, density, unit) => {
      const { mean, deviation } = run(problemOf(0.01, [12, 12], [0, 0]), { method, distribution })
      const exact = integrated(output(0.01), density)
      expect(Math.abs(mean - exact.mean)).toBeLessThan(4 * errorOfMean(exact.deviation))
      expect(Math.abs(deviation - exact.deviation)).toBeLessThan(4 * errorOfDeviation(exact.deviation))
      // dV/V = (1 - ratio)·(dR2/R2 - dR1/R1); curvature is worth a per cent of a per cent
      const firstOrder = 12 * RATIO * (1 - RATIO) * 0.01 * Math.SQRT2 * unit
      expect(Math.abs(exact.deviation / firstOrder - 1)).toBeLessThan(1e-3)
    },
  )

  test('lies within the corners at which one resistor is highest and the other lowest', () => {
    const { statistics } = run(problemOf(0.01, [12, 12], [0, 0]), { method })
    expect(statistics.lowest!).toBeGreaterThan(output(0.01)(1, -1))
    expect(statistics.highest!).toBeLessThan(output(0.01)(-1, 1))
  })

  test('has the root-sum-square reach of two equal effects', () => {
    const board = (entries: Int8Array) => output(0.01)(entries[0]!, entries[1]!)
    const { nominal, down, up } = rootSumSquareAt(2, board)!
    expect(nominal).toBeCloseTo(5, 12)
    const each = 12 * RATIO * (1 - RATIO) * 0.01
    expect(down / (each * Math.SQRT2)).toBeCloseTo(1, 2)
    expect(up / (each * Math.SQRT2)).toBeCloseTo(1, 2)
    // three standard deviations of a normal spread with its limits at 3 sigma
    expect(up / (3 * integrated(output(0.01), gaussian).deviation)).toBeCloseTo(1 / Math.sqrt(0.97334), 2)
  })
})
