/**
 * What every device owes the solver, checked over its whole range: derivatives that are those of its currents, currents
 * that add up to nothing, numbers that stay finite. No outside source is needed: each is checked against itself.
 */
import { describe, expect, test } from 'vitest'
import type { ElementKind } from '../../../engine/devices/elements.ts'
import { DEVICES } from '../../../engine/devices/index.ts'
import {
  deviceAt,
  OP_AMP,
  POWER_TRANSISTOR,
  REFERENCE_DIODE,
  SHUNT_REFERENCE,
  TWO_TERMINAL_REFERENCE,
} from './samples.ts'

interface Case {
  readonly title: string
  readonly kind: ElementKind
  readonly values: object
  readonly states: readonly (readonly number[])[]
  /** Step of the difference in volts: far below the device's own scale, far above rounding. */
  readonly step: number
}

/** All combinations of the given values. */
function grid(...axes: readonly (readonly number[])[]): number[][] {
  return axes.reduce<number[][]>((rows, axis) => rows.flatMap((row) => axis.map((v) => [...row, v])), [[]])
}

const JUNCTION = [-30, -6, -0.7, -0.1, -0.02, 0, 0.02, 0.1, 0.31, 0.52, 0.64, 0.78, 0.97, 1.4]
const transistor = grid(JUNCTION, JUNCTION).map(([vbe, vbc]) => [1.3 - vbc!, 1.3, 1.3 - vbe!])

const CASES: readonly Case[] = [
  {
    title: 'resistor',
    kind: 'resistor',
    values: { ohms: 470, tc1: 1e-4 },
    step: 1e-3,
    states: grid([-20, 0, 3], [0, 9]),
  },
  {
    title: 'fixed current source',
    kind: 'current-source',
    values: { value: 1e-6, doublesEvery: 10 },
    step: 1e-3,
    states: grid([-1, 0, 5], [0]),
  },
  {
    title: 'diode from deep breakdown to far forward',
    kind: 'diode',
    values: REFERENCE_DIODE,
    step: 1e-6,
    states: [
      -60, -13, -12.2, -11.9, -11.7, -11.5, -11, -8, -3, -1, -0.3, -0.05, 0, 0.05, 0.3, 0.6, 0.75, 0.9, 2.5, 20,
    ].map((v) => [v + 0.4, 0.4]),
  },
  {
    title: 'soft low-voltage diode',
    kind: 'diode',
    values: { ...REFERENCE_DIODE, BV: 2.7, NBV: 9, tc: -1.5e-3 },
    step: 1e-6,
    states: [-9, -4, -2.7, -2, -1, -0.2, 0, 0.2, 0.7].map((v) => [v, 0]),
  },
  { title: 'npn, all four regions', kind: 'npn', values: POWER_TRANSISTOR, step: 1e-6, states: transistor },
  {
    title: 'pnp, all four regions',
    kind: 'pnp',
    values: POWER_TRANSISTOR,
    step: 1e-6,
    states: transistor.map((row) => row.map((v) => -v)),
  },
  { title: 'npn of two parameters', kind: 'npn', values: { IS: 1e-14, BF: 100 }, step: 1e-6, states: transistor },
  {
    title: 'amplifier in its linear range, on its rails and in current limit',
    kind: 'amplifier',
    values: OP_AMP,
    step: 2e-9,
    states: grid(
      [-3, -1e-3, -1e-4, -2.1e-3, -2e-3, -1.95e-3, 0, 1e-4, 2],
      [2.5],
      [0, 2, 2.51, 4.7, 30],
      [0, 0.5, 5, 31],
      [-0.2, 0],
    ).map(([x, m, ...rest]) => [m! + x!, m!, ...rest]),
  },
  {
    title: 'shunt reference through its knee and its saturation',
    kind: 'reference',
    values: SHUNT_REFERENCE,
    step: 1e-8,
    states: grid(
      [-0.8, 0, 0.4, 1.5, 1.7, 2.495, 5, 33],
      [0],
      [-0.5, 0, 1.2, 2.47, 2.48, 2.4925, 2.4948, 2.495, 2.5, 3, 12],
    ),
  },
  {
    title: 'two-terminal reference',
    kind: 'reference',
    values: TWO_TERMINAL_REFERENCE,
    step: 1e-8,
    states: [-1, 0, 0.5, 2, 2.499, 2.4999, 2.5, 2.5005, 2.51, 12].map((v) => [v, 0, v]),
  },
]
const TEMPERATURES = [-55, 25, 85, 175]

describe.each(CASES)('$title', ({ kind, values, states, step }) => {
  const n = DEVICES[kind].terminals

  test.each(TEMPERATURES)('has the derivatives of its own currents at %d degC', (celsius) => {
    const device = deviceAt(kind, values, celsius)
    for (const state of states) {
      const here = device.at(...state)
      // a current may be the difference of larger ones, so rounding is that of the largest at any terminal
      const largest = Math.max(...here.subarray(0, n).map(Math.abs))
      const steepest = Math.max(...here.subarray(n).map(Math.abs))
      for (let s = 0; s < n; s += 1) {
        const above = device.at(...state.map((v, k) => (k === s ? v + step : v)))
        const below = device.at(...state.map((v, k) => (k === s ? v - step : v)))
        // the difference of the two voltages as stored, not as meant: rounding of 30 V is not small beside a step
        const width = state[s]! + step - (state[s]! - step)
        for (let t = 0; t < n; t += 1) {
          const analytic = here[n + n * t + s]!
          const numeric = (above[t]! - below[t]!) / width
          // truncation, with the slope at both sides to judge how curved it is, and rounding of current and voltage
          const curved = Math.abs(above[n + n * t + s]! - below[n + n * t + s]!)
          const rounding = (8 * Number.EPSILON * (largest + steepest * 35)) / width
          const allowed = 2e-7 * Math.abs(analytic) + 0.51 * curved + rounding + 1e-18
          expect(
            Math.abs(numeric - analytic),
            `d i${t}/d v${s} at [${state.join(', ')}]: ${analytic} but differences give ${numeric}`,
          ).toBeLessThanOrEqual(allowed)
        }
      }
    }
  })

  test.each(TEMPERATURES)('lets out what it takes in at %d degC, to rounding', (celsius) => {
    const device = deviceAt(kind, values, celsius)
    for (const state of states) {
      const out = device.at(...state)
      let sum = 0
      let largest = 0
      for (let t = 0; t < n; t += 1) {
        sum += out[t]!
        largest = Math.max(largest, Math.abs(out[t]!))
      }
      expect(Math.abs(sum), `at [${state.join(', ')}]`).toBeLessThanOrEqual(8 * Number.EPSILON * largest)
    }
  })

  test('knows no ground: shifting all its terminals shifts no current', () => {
    const device = deviceAt(kind, values, 25)
    for (const state of states) {
      const out = device.at(...state)
      const steepest = Math.max(...out.subarray(n).map(Math.abs))
      for (let t = 0; t < n; t += 1) {
        let sum = 0
        for (let s = 0; s < n; s += 1) sum += out[n + n * t + s]!
        expect(Math.abs(sum)).toBeLessThanOrEqual(1e-13 * steepest)
      }
    }
  })

  test('stays finite at voltages that no circuit has', () => {
    for (const celsius of [-200, 25, 700]) {
      const device = deviceAt(kind, values, celsius)
      for (const state of states) {
        for (const factor of [1, -1, 50, -50, 1e4]) {
          const out = device.at(...state.map((v) => v * factor))
          expect(out.every(Number.isFinite), `${celsius} degC, [${state.join(', ')}] times ${factor}`).toBe(true)
        }
      }
    }
  })
})
