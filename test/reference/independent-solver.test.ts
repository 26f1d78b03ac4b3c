/** Our solver against the independent one: same elements, same temperatures, same models, so agreement to a millionth. */
import { describe, expect, test } from 'vitest'
import { disagreements, PUBLISHED, SAME_MODEL } from './independent/agreement.ts'
import { CIRCUITS } from './independent/circuits.ts'
import { solveIndependently } from './independent/solver.ts'
import { solveOurs } from './own/solver.ts'

describe.each(CIRCUITS)('$name', ({ netlist, situation }) => {
  test('both solvers, started without knowing of each other, find the same voltages and currents', async () => {
    const theirs = await solveIndependently(netlist, situation)
    const ours = solveOurs(netlist, situation)
    expect(disagreements(ours, theirs, SAME_MODEL)).toEqual([])
  })

  test('they agree from dropout to twice the input, from 1 % of the load to four times the load, from -40 to 125 °C', async () => {
    const { input, load } = situation.condition
    const found: string[] = []
    let points = 0
    for (const factor of [0.4, 0.75, 1, 2]) {
      for (const share of [0.01, 1, 4]) {
        for (const ambient of [-40, 25, 125]) {
          const condition = { input: input * factor, load: load * share, ambient }
          const { near, overrides } = situation
          const here = { condition, ...(near && { near }), ...(overrides && { overrides }) }
          const ours = solveOurs(netlist, here)
          const theirs = await solveIndependently(netlist, { ...here, near: ours.nodeVoltages })
          points++
          for (const one of disagreements(ours, theirs, PUBLISHED)) found.push(`${JSON.stringify(condition)}: ${one}`)
        }
      }
    }
    expect(found).toEqual([])
    expect(points).toBe(36)
  })
})
