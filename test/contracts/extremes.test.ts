/** The corners that a proof finds really are the extremes: nothing drawn from inside the tolerances lies beyond them. */
import { describe, expect, test } from 'vitest'
import { setBoard } from '../../engine/analyses/prepare.ts'
import { sizeAll, type Study } from '../../engine/index.ts'
import { randomOf } from '../../engine/random/index.ts'
import { isUnbuilt } from '../../engine/sizing/size.ts'
import { copyState, newWorkspace, SETTLED, solvePoint } from '../../engine/solve/index.ts'
import { proveAgain } from '../fixtures/proofs/whole.ts'
import { exampleStudies } from '../fixtures/studies/examples.ts'

const SAMPLES = 1000
const PATIENCE = 120_000

describe.each(exampleStudies())('$title', (study: Study) => {
  const sized = sizeAll(study).flatMap((one) => (isUnbuilt(one) ? [] : [one]))

  test.each(sized)(
    `$variant.name: ${SAMPLES} boards and conditions from inside never pass the worst corners`,
    { timeout: PATIENCE },
    ({ proof }) => {
      const { prepared } = proof.observer
      const { input, load, ambient } = study.requirements
      const start = newWorkspace(prepared.circuit)
      expect(solvePoint(prepared.circuit, start, input.nominal, load.nominal, ambient.nominal, SETTLED)).toBe(0)
      const ws = newWorkspace(prepared.circuit)
      const board = new Float64Array(proof.design.tolerances.length)
      const beyond: string[] = []
      for (let k = 0; k < SAMPLES; k++) {
        const random = randomOf(7, k)
        const inside = (range: { min: number; max: number }) => range.min + (range.max - range.min) * random()
        for (let j = 0; j < board.length; j++) board[j] = 2 * random() - 1
        setBoard(prepared, ws, board)
        copyState(start, ws)
        const code = solvePoint(prepared.circuit, ws, inside(input), inside(load), inside(ambient), SETTLED)
        if (code !== 0) {
          if (proof.unsolved.length === 0) beyond.push(`sample ${k}: outcome ${code}`)
          continue
        }
        const output = ws.voltages[prepared.output]!
        const heat = [...prepared.heatParts].reduce((sum, part) => sum + ws.power[part]!, 0)
        if (output < proof.output.lowest.value - 1e-6) beyond.push(`sample ${k}: output ${output} V`)
        if (output > proof.output.highest.value + 1e-6) beyond.push(`sample ${k}: output ${output} V`)
        if (heat > proof.heat.value * (1 + 1e-6)) beyond.push(`sample ${k}: heat ${heat} W`)
      }
      expect(beyond).toEqual([])
    },
  )

  test.each(sized)(
    '$variant.name: a wider input never lowers the worst heat of the same board',
    { timeout: PATIENCE },
    ({ proof }) => {
      const { input } = study.requirements
      const wider = { ...study.requirements, input: { ...input, min: input.min * 0.99, max: input.max * 1.05 } }
      expect(proveAgain(proof, wider).heat.value).toBeGreaterThanOrEqual(proof.heat.value)
    },
  )
})
