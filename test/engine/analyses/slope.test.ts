/** The slopes by which the search chooses what to solve, against differences of whole solves. Definition of a derivative; no other source. */
import { beforeAll, describe, expect, test } from 'vitest'
import { sizeAll } from '../../../engine/index.ts'
import type { Observation } from '../../../engine/analyses/observation.ts'
import type { Observer, Read } from '../../../engine/analyses/observe.ts'
import { setBoard } from '../../../engine/analyses/prepare.ts'
import { COLD, SETTLED, type ThermalCode, copyState, newWorkspace, solvePoint } from '../../../engine/solve/index.ts'
import { isUnbuilt } from '../../../engine/sizing/size.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'

/** Half the distance over which whole solves are compared, in units of a tolerance: well above what a solve leaves open. */
const H = 0.01
/** Share of the largest effect by which the two may differ: curvature over 2 H, and heat that returns as heat once more. */
const NEAR = 0.02

/** Milliseconds that sizing may take on a busy machine. */
const PATIENCE = 60_000

interface Case {
  readonly name: string
  readonly observer: Observer
  readonly conditions: readonly number[]
  readonly tolerances: number
}

const read = { output: (s: Observation) => s.output, heat: (s: Observation) => s.heat }

/** The change of one reading for each unit of every tolerance, from the nominal board. */
function slopesOf({ observer, tolerances }: Case, of: Read, condition: number, mode: ThermalCode): Float64Array {
  const into = new Float64Array(tolerances)
  observer.slopes(of, new Int8Array(tolerances), condition, mode, into)
  return into
}

/** Output in volts and heat in watts of a board of any real entries. */
function solved({ observer }: Case, board: Float64Array, condition: number, mode: ThermalCode) {
  const { prepared } = observer
  const { circuit } = prepared
  const { input, load, ambient } = observer.conditions[condition]!
  const ws = newWorkspace(circuit)
  copyState(observer.solve(new Int8Array(board.length), condition, mode).ws, ws)
  setBoard(prepared, ws, board)
  expect(solvePoint(circuit, ws, input, load, ambient, mode)).toBe(0)
  return {
    output: ws.voltages[prepared.output]!,
    heat: [...prepared.heatParts].reduce((sum, part) => sum + ws.power[part]!, 0),
  }
}

const cases: Case[] = []
beforeAll(() => {
  for (const study of exampleStudies())
    for (const one of sizeAll(study))
      if (!isUnbuilt(one))
        cases.push({
          name: `${study.title}, ${one.variant.name}`,
          observer: one.proof.observer,
          conditions: [one.proof.conditions.nominal, one.proof.conditions.corners.at(-1)!],
          tolerances: one.proof.design.tolerances.length,
        })
}, PATIENCE)

describe('a slope', () => {
  test.each([
    ['settled', SETTLED],
    ['cold', COLD],
  ] as const)('agrees with the difference of two whole solves, %s', (_, mode) => {
    expect(cases.length).toBe(9)
    const off: string[] = []
    for (const one of cases)
      for (const condition of one.conditions) {
        const slopes = {
          output: slopesOf(one, read.output, condition, mode),
          heat: slopesOf(one, read.heat, condition, mode),
        }
        const rows = Array.from({ length: one.tolerances }, (__, j) => {
          const at = (u: number) => {
            const board = new Float64Array(one.tolerances)
            board[j] = u
            return solved(one, board, condition, mode)
          }
          // a tolerance may be wider on one side: the slope is that of the upper one
          const [zero, plus] = [at(0), at(H)]
          return (['output', 'heat'] as const).map((what) => ({
            what,
            slope: slopes[what][j]!,
            upper: (plus[what] - zero[what]) / H,
          }))
        })
        for (const k of [0, 1]) {
          const largest = Math.max(...rows.map((row) => Math.abs(row[k]!.upper)))
          rows.forEach((row, j) => {
            const { what, slope, upper } = row[k]!
            if (!(Math.abs(slope - upper) <= NEAR * largest + 1e-9))
              off.push(`${one.name}: ${what} by tolerance ${j}: ${slope}, solved ${upper}`)
          })
        }
      }
    expect(off).toEqual([])
  })

  test('of a frozen point keeps the temperatures of its own board', () => {
    // the base current of a hot pass transistor: frozen and cold slopes differ by more than they may differ from solves
    const differ = cases.filter((one) => {
      const [frozen, cold] = ([1, 2] as const).map((mode) => slopesOf(one, read.output, one.conditions[1]!, mode))
      return frozen!.some((slope, j) => Math.abs(slope - cold![j]!) > 0.05 * Math.abs(cold![j]!))
    })
    expect(differ.length).toBeGreaterThan(0)
  })
})
