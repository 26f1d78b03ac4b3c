import { describe, expect, test } from 'vitest'
import {
  type Change,
  compile,
  FROZEN,
  newWorkspace,
  responder,
  SETTLED,
  solvePoint,
} from '../../../engine/solve/index.ts'
import { FEEDBACK, FEEDBACK_OPTIONS, FOLLOWER, FOLLOWER_OPTIONS, MIRRORED_FOLLOWER } from './circuits.ts'

const STEP = 1e-3

const scaled =
  (slot: number, nominal: number, by: number): Change =>
  (point, t) => {
    point.parameters[slot] = nominal * (1 + by * t)
    point.stale = true
  }

describe.each([
  ['a follower', FOLLOWER, FOLLOWER_OPTIONS, 24, 0.04, ['Rs.ohms', 'D1.BV', 'D1.RS', 'Q1.IS', 'Q1.BF']],
  ['a mirrored follower', MIRRORED_FOLLOWER, FOLLOWER_OPTIONS, -24, 0.04, ['Rs.ohms', 'D1.BV', 'Q1.BF']],
  ['a loop of high gain', FEEDBACK, FEEDBACK_OPTIONS, 12, 0.1, ['R1.ohms', 'R3.ohms', 'U2.VREF', 'U1.A0', 'Q1.IS']],
] as const)('%s', (_, netlist, options, volts, amperes, parameters) => {
  const guess = netlist === MIRRORED_FOLLOWER ? { in: -24, b: -11.7, out: -11 } : options.guess
  const circuit = compile(netlist, { ...options, guess })
  const changes: [string, Change][] = [
    ...parameters.map((name): [string, Change] => {
      const [element, parameter] = name.split('.') as [string, string]
      const slot = circuit.slot(element, parameter)
      return [name, scaled(slot, circuit.parameters[slot]!, 0.05)]
    }),
    ['the input', (point, t) => (point.input = volts * (1 + 0.1 * t))],
    ['the load', (point, t) => (point.load = amperes * (1 + 0.1 * t))],
  ]
  const solved = () => {
    const ws = newWorkspace(circuit)
    expect(solvePoint(circuit, ws, volts, amperes, 25, SETTLED)).toBe(0)
    return ws
  }
  /** A point whose parameters, input and load the change has moved, solved whole with temperatures held. */
  const moved = (change: Change, t: number) => {
    const ws = solved()
    const point = Object.assign(ws, { input: volts, load: amperes })
    change(point, t)
    expect(solvePoint(circuit, ws, point.input, point.load, 25, FROZEN)).toBe(0)
    return ws
  }

  test.each(changes)('answers a change of %s as the difference of two whole solves does', (_name, change) => {
    const { voltages, currents, power } = responder(circuit, solved())!(change)
    const above = moved(change, STEP)
    const below = moved(change, -STEP)
    for (const [found, up, down] of [
      [voltages, above.voltages, below.voltages],
      [currents, above.currents, below.currents],
      [power, above.power, below.power],
    ] as const) {
      const largest = Math.max(...found.map(Math.abs))
      found.forEach((value, k) =>
        // solves are good to about 1e-11 V
        expect(Math.abs(value - (up[k]! - down[k]!) / (2 * STEP))).toBeLessThan(1e-5 * largest + 1e-11 / STEP),
      )
    }
  })

  test('answers the same after other changes: nothing of them is left behind', () => {
    const respond = responder(circuit, solved())!
    const first = respond(changes[0]![1])
    for (const [, change] of changes.slice(1)) respond(change)
    expect(respond(changes[0]![1])).toEqual(first)
  })

  test('answers nothing to a change of nothing', () => {
    const { voltages, power } = responder(circuit, solved())!(() => {})
    expect(Math.max(...voltages.map(Math.abs), ...power.map(Math.abs))).toBeLessThan(1e-6)
  })
})

test('an amplifier on its rail has no derivatives, and says so', () => {
  const circuit = compile(FEEDBACK, FEEDBACK_OPTIONS)
  const ws = newWorkspace(circuit)
  // far too little input for 6 V out
  expect(solvePoint(circuit, ws, 4, 0.01, 25, SETTLED)).toBe(0)
  expect(responder(circuit, ws)).toBeUndefined()
})
