/** Hand values and what the solved circuit has beside them. Bounds of how far they may lie apart are common practice, no source. */
import { describe, expect, test } from 'vitest'
import { handValuesOf } from '../../../engine/analyses/handValues/index.ts'
import type { HandValue } from '../../../engine/analyses/handValues/index.ts'
import type { Proof } from '../../../engine/analyses/prove.ts'
import { cornerOf } from '../../../engine/analyses/point.ts'
import { isUnbuilt, needOf, sizeVariant } from '../../../engine/sizing/size.ts'
import { TOPOLOGIES } from '../../../engine/topologies/index.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'

function valuesOf(proof: Proof): HandValue[] {
  const job = handValuesOf(proof)
  for (;;) {
    const step = job.next()
    if (step.done) return step.value
  }
}

const cases = exampleStudies().flatMap((study) =>
  TOPOLOGIES.flatMap(({ name, variants }) =>
    variants.flatMap((variant) => {
      const sized = sizeVariant(variant, needOf(study.requirements))
      return isUnbuilt(sized) ? [] : [{ title: `${study.title}, ${name}, ${variant.name}`, proof: sized.proof }]
    }),
  ),
)

/** Without a reason in the circuit a hand value lies within this of the solved one; worst cases are bounds and lie further off. */
const NEAR: Record<string, number> = { Vout_nom: 0.05, Vz: 0.12, Vbe: 0.25, Vbe_amp: 0.25, V_cmp: 0.12 }

describe.each(cases)('$title', ({ proof }) => {
  const values = valuesOf(proof)
  const lines = proof.design.worked.lines()
  const hand = (symbol: string) => lines.find((line) => line.symbol === symbol)!.value
  const solved = (symbol: string) => values.find((value) => value.symbol === symbol)?.solved

  test('every solved value belongs to a line of the working, is a number and says why it differs', () => {
    expect(values.length).toBeGreaterThan(2)
    for (const value of values) {
      expect(lines.some(({ symbol }) => symbol === value.symbol)).toBe(true)
      expect(Number.isFinite(value.solved), value.symbol).toBe(true)
      expect(value.because, value.symbol).toMatch(/^[A-Z].*\.$/u)
      expect(value.because, value.symbol).not.toMatch(/NaN|undefined|—/u)
    }
  })

  test('voltages by hand lie near those solved, unless the loop is said to be open', () => {
    const far = values
      .filter(({ symbol, solved: value }) => Math.abs(value / hand(symbol) - 1) > (NEAR[symbol] ?? Infinity))
      .filter(({ because }) => !because.includes('does not regulate'))
    // the junction of an amplifier that is off is the reason itself
    const isOpen = values.some(({ because }) => because.includes('does not regulate'))
    expect(far.map(({ symbol }) => symbol)).toEqual(isOpen ? ['Vbe_amp'] : [])
  })

  test('what follows from them does so when solved: the output is what its drops leave', () => {
    const output = solved('Vout_nom')
    const { elements } = proof.design.netlist
    const hasSense = elements.some(({ nodes }) => nodes.some((node) => node === 'sense'))
    const [vz, vbe] = [solved('Vz'), solved('Vbe')]
    if (output === undefined || vz === undefined || vbe === undefined || hasSense) return
    const sign = proof.design.topology === 'shunt' ? 1 : -1
    // Kirchhoff's voltage law, exact but for the residual that the solver leaves
    expect(output).toBeCloseTo(vz + sign * vbe, 6)
  })

  test('a solved output at nominal is the one of the figures', () => {
    const value = values.find(({ symbol }) => symbol === 'Vout_nom')
    if (!value) return
    const { input, load, ambient } = proof.requirements
    expect(value.condition).toEqual({ input: input.nominal, load: load.nominal, ambient: ambient.nominal })
    const condition = proof.observer.condition(input.nominal, load.nominal, ambient.nominal)
    const board = new Int8Array(proof.design.tolerances.length)
    const corner = cornerOf(proof.observer, { value: 0, board, condition, mode: 0 })
    expect(value.solved).toBeCloseTo(corner!.point.output, 9)
  })
})
