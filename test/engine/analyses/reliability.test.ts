/** Failure rates of whole designs: where the numbers are taken from, what they add up to, what moves them. */
import { beforeAll, describe, expect, it } from 'vitest'
import { billOf } from '../../../engine/analyses/bill/index.ts'
import { reliabilityOf } from '../../../engine/analyses/reliability/index.ts'
import type { Proof } from '../../../engine/analyses/prove.ts'
import { designOf } from '../../../engine/compare/design.ts'
import { rank } from '../../../engine/compare/ranking.ts'
import { figuresOf } from '../../../engine/figures/index.ts'
import { sizeAll } from '../../../engine/index.ts'
import type { Assumptions } from '../../../engine/requirements/study.ts'
import { type Sized, isUnbuilt } from '../../../engine/sizing/size.ts'
import { SHUNT, studyWith } from './studies.ts'

const FIXED = studyWith({}).assumptions
let sized: Sized[] = []
let proofs: Proof[] = []
let hot: Proof[] = []

const built = (requirements: object): Sized[] => {
  const all = sizeAll(studyWith(requirements)).flatMap((one) => (isUnbuilt(one) ? [] : [one]))
  expect(all).toHaveLength(3)
  return all
}
const fitOf = (proof: Proof, assumptions: Partial<Assumptions> = {}): number =>
  reliabilityOf(proof, { ...FIXED, ...assumptions }).fit!

beforeAll(() => {
  sized = built({})
  proofs = sized.map(({ proof }) => proof)
  hot = built({ ambient: { min: -20, nominal: 50, max: 50 } }).map(({ proof }) => proof)
}, 60_000)

describe('the failure rate of a design', () => {
  it('is the sum of its parts, and the figure is the same in 10⁹ hours', () => {
    for (const proof of proofs) {
      const { parts, perMillionHours, fit, mtbfHours } = reliabilityOf(proof, FIXED)
      expect(parts.map(({ part }) => part)).toEqual(proof.design.parts.map(({ id }) => id))
      const sum = parts.reduce((total, { sheet }) => total + (sheet?.perMillionHours ?? 0), 0)
      expect(perMillionHours).toBeCloseTo(sum, 12)
      expect(fit).toBeCloseTo(1e3 * sum, 9)
      expect(mtbfHours! * sum).toBeCloseTo(1e6, 3)
      expect(figuresOf(proof, FIXED)!.failureRateFit).toBe(fit)
      expect(parts.reduce((total, { share }) => total + (share ?? 0), 0)).toBeCloseTo(1, 12)
    }
  })

  it('gives every part a sheet but the heatsink, which says why not', () => {
    for (const proof of proofs) {
      for (const { part, sheet, without } of reliabilityOf(proof, FIXED).parts) {
        const isHeatsink = proof.design.parts.find(({ id }) => id === part)!.role.startsWith('heatsink')
        expect([sheet === undefined, without !== undefined], part).toEqual([isHeatsink, isHeatsink])
      }
    }
  })

  it('takes stress and temperature from the printed nominal point, warmed up', () => {
    const { parts, condition } = reliabilityOf(proofs[SHUNT]!, FIXED)
    const design = designOf('shunt', sized[SHUNT]!, FIXED)
    const point = design.operatingPoints!.find(
      (p) => p.condition.input === condition.input && p.condition.load === condition.load,
    )!
    const { model, factors } = parts.find(({ part }) => part === 'R1')!.sheet!
    const valueOf = (symbol: string) => factors.find((f) => f.symbol === symbol)!.value
    const rated = design.parts.find(({ id }) => id === 'R1')!.ratings['power']!
    const heat = point.heat['R1']!
    expect(valueOf('π_P')).toBeCloseTo(heat ** 0.39, 9)
    // the stress column is the handbook's own for the style that the sheet names
    const [a, b] = model.endsWith('wirewound') ? [0.54, 2.04] : [0.71, 1.1]
    expect(valueOf('π_S')).toBeCloseTo(a * Math.exp((b * heat) / rated), 9)
    const exponent = (-0.08 / 8.617e-5) * (1 / (point.junction['R1']! + 273) - 1 / 298)
    expect(valueOf('π_T')).toBeCloseTo(Math.exp(exponent), 9)
  })

  it('is higher in a hotter place', () => {
    expect(hot).toHaveLength(3)
    hot.forEach((proof, k) => expect(fitOf(proof)).toBeGreaterThan(fitOf(proofs[k]!)))
  })

  it('moves with environment and quality', () => {
    for (const proof of proofs) {
      const calm = fitOf(proof, { environment: 'ground-benign' })
      expect(calm).toBeLessThan(fitOf(proof) / 2)
      // every quality factor falls by 8 or by 10
      const ratio = calm / fitOf(proof, { environment: 'ground-benign', quality: 'military' })
      expect(ratio).toBeGreaterThanOrEqual(8 - 1e-9)
      expect(ratio).toBeLessThanOrEqual(10 + 1e-9)
    }
  })

  it('is plain data that JSON and a structured clone carry whole, as the bill is', () => {
    for (const proof of proofs) {
      const details = [reliabilityOf(proof, FIXED), billOf(proof.design, FIXED)]
      expect(JSON.parse(JSON.stringify(details))).toStrictEqual(details)
      expect(structuredClone(details)).toStrictEqual(details)
    }
  })

  it('says what such a figure is good for', () => {
    expect(reliabilityOf(proofs[SHUNT]!, FIXED).remarks.join(' ')).toMatch(/comparing designs.*Not for forecasting/su)
  })
})

describe('cost and area of a design', () => {
  it('are figures, and move with a price of the study', () => {
    const dear = { ...FIXED, prices: { 'electrolytic-100u': 2 } }
    for (const proof of proofs) {
      const bill = billOf(proof.design, FIXED)
      const figures = figuresOf(proof, FIXED)!
      expect([figures.cost, figures.boardArea]).toEqual([bill.cost.total, bill.area.total])
      expect(figuresOf(proof, dear)!.cost! - figures.cost!).toBeCloseTo(1.95, 9)
    }
  })

  it('are no figures where something is missing, not a zero', () => {
    const [first, ...rest] = proofs[SHUNT]!.design.parts
    const { partNumber: _, ...nameless } = first!
    const proof = { ...proofs[SHUNT]!, design: { ...proofs[SHUNT]!.design, parts: [nameless, ...rest] } }
    const figures = figuresOf(proof, FIXED)!
    expect(['cost' in figures, 'boardArea' in figures]).toEqual([false, false])
  })

  it('can be weighed: the cheapest leads', () => {
    const ranked = sized.map(({ proof, variant }, k) => ({
      topology: (['shunt', 'series-pass', 'feedback'] as const)[k]!,
      variant,
      meets: true,
      figures: figuresOf(proof, FIXED)!,
    }))
    const cheapest = ranked.toSorted((a, b) => a.figures.cost! - b.figures.cost!)[0]!
    const [first] = rank(ranked, { cost: 1 })
    expect(first).toMatchObject({ topology: cheapest.topology, score: 100 })
  })
})
