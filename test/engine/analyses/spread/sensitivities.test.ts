import { describe, expect, test } from 'vitest'
import { setBoard } from '../../../../engine/analyses/prepare.ts'
import type { Proof } from '../../../../engine/analyses/prove.ts'
import { type SensitiveFigure, sensitivitiesOf } from '../../../../engine/analyses/spread/sensitivities.ts'
import { sizeAll } from '../../../../engine/index.ts'
import { isUnbuilt } from '../../../../engine/sizing/size.ts'
import { copyState, newWorkspace, SETTLED, solvePoint } from '../../../../engine/solve/index.ts'
import { exampleStudies } from '../../../fixtures/studies/examples.ts'

/** How far each source is moved, of the way to its limit: small enough for the curvature, large enough for the solver's 1e-5 K. */
const STEP = 0.02

const ENVIRONMENT = ['input', 'load', 'ambient'] as const

/** So much of the way from nominal to the end of a range that its sign names. */
const along = (range: { min: number; nominal: number; max: number }, t: number) =>
  range.nominal + Math.abs(t) * ((t < 0 ? range.min : range.max) - range.nominal)

/** Whole solves of moved boards: the figures at one entry a tolerance and shares of the way from nominal to the ends of the environment. */
function solverOf({ observer, design, requirements }: Proof) {
  const { prepared } = observer
  const { circuit } = prepared
  const start = newWorkspace(circuit)
  const { input, load, ambient } = requirements
  solvePoint(circuit, start, input.nominal, load.nominal, ambient.nominal, SETTLED)
  const ws = newWorkspace(circuit)
  return (name: SensitiveFigure, source: string, t: number): number => {
    const board = new Float64Array(design.tolerances.length)
    const j = design.tolerances.findIndex(({ id }) => id === source)
    if (j >= 0) board[j] = t
    const moved = { input: 0, load: 0, ambient: 0 }
    for (const each of ENVIRONMENT) if (each === source) moved[each] = t
    const solve = (amperes: number) => {
      setBoard(prepared, ws, board)
      copyState(start, ws)
      const volts = along(input, moved.input)
      expect(solvePoint(circuit, ws, volts, amperes, along(ambient, moved.ambient), SETTLED)).toBe(0)
      const heat = [...prepared.heatParts].reduce((sum, part) => sum + ws.power[part]!, 0)
      const given = volts * -ws.currents[prepared.inputTerminal]!
      return { output: ws.voltages[prepared.output]!, heat, efficiency: 1 - heat / given }
    }
    if (name === 'loadRegulation') return solve(load.min).output - solve(load.max).output
    return solve(along(load, moved.load))[name]
  }
}

describe.each(exampleStudies())('$title', (study) => {
  const sized = sizeAll(study).flatMap((one) => (isUnbuilt(one) ? [] : [one]))

  test.each(sized)(
    '$variant.name: every slope agrees with the finite difference of whole solves',
    { timeout: 60_000 },
    ({ proof }) => {
      const { figures } = sensitivitiesOf(proof)
      const solve = solverOf(proof)
      const names = Object.keys(figures) as SensitiveFigure[]
      expect(names.toSorted()).toEqual(['efficiency', 'heat', 'loadRegulation', 'output'])
      for (const name of names) {
        const { sources, nominal } = figures[name]!
        // temperatures settle to 1e-5 K, worth 2e-8 V of a junction in either solve
        expect(Math.abs(solve(name, '', 0) - nominal)).toBeLessThan(4e-8)
        const largest = Math.max(...sources.flatMap(({ toHigh, toLow }) => [Math.abs(toHigh), Math.abs(toLow)]))
        expect(largest).toBeGreaterThan(0)
        for (const { source, toHigh, toLow } of sources) {
          // one-sided, of second order: (4·F(h) - F(2h) - 3·F(0))/(2h)
          const slope = (side: 1 | -1) =>
            (4 * solve(name, source, side * STEP) - solve(name, source, 2 * side * STEP) - 3 * solve(name, source, 0)) /
            (2 * STEP)
          // 0.1 % of itself, 0.05 % of the figure's largest slope, and what solves that agree to some 1e-10 leave of their difference
          const near = (value: number) => 1e-3 * Math.abs(value) + 5e-4 * largest + 4e-10 / (2 * STEP)
          const said = `${name} by ${source}`
          expect(Math.abs(toHigh - slope(1)), `${said}: ${toHigh} and ${slope(1)}`).toBeLessThan(near(toHigh))
          expect(Math.abs(toLow - slope(-1)), `${said}: ${toLow} and ${slope(-1)}`).toBeLessThan(near(toLow))
        }
      }
    },
  )

  test.each(sized)('$variant.name: shares are sorted and nearly add up to one', ({ proof }) => {
    for (const { sources } of Object.values(sensitivitiesOf(proof).figures)) {
      const shares = sources.map(({ share }) => share)
      expect(shares).toEqual(shares.toSorted((a, b) => b - a))
      const sum = shares.reduce((all, share) => all + share, 0)
      expect(sum).toBeGreaterThan(0.98)
      expect(sum).toBeLessThanOrEqual(1 + 1e-12)
    }
  })
})
