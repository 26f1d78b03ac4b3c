/** Pinned values and parts: taken as they are, the rest sized around them, and what each of them costs. */
import { describe, expect, test } from 'vitest'
import { stressesOn, useUnder } from '../../../engine/analyses/alternatives/stresses.ts'
import {
  compare,
  createSizer,
  type Design,
  inspect,
  type PinsByTopology,
  sizeAll,
  type Study,
} from '../../../engine/index.ts'
import { isUnbuilt } from '../../../engine/sizing/size.ts'
import { preferredNearest } from '../../../engine/units/index.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'

const PATIENCE = { timeout: 60_000 }

const STUDIES = exampleStudies()
const study = STUDIES.find(({ title }) => title.startsWith('Peat'))!
const pinned = (pins: PinsByTopology): Study => ({ ...study, pins })
const designOf = (pins: PinsByTopology, k: number): Design => compare(pinned(pins)).designs[k]!
const part = (design: Design, id: string) => design.parts.find((each) => each.id === id)

function finish<T>(job: Generator<unknown, T>): T {
  for (;;) {
    const step = job.next()
    if (step.done) return step.value
  }
}

describe('a pin', () => {
  test(
    'of a value off the preferred series is taken as it is, and its partner in the divider follows',
    PATIENCE,
    () => {
      const free = compare(study).designs[2]!
      const design = designOf({ feedback: { R1: 4801 } }, 2)
      expect(part(design, 'R1')!.value).toBe(4801)
      // the pinned upper resistor over the ratio that the working asks for, at the nearest preferred value
      const ratio = design.derivation.find(({ symbol }) => symbol === 'ratio')!.value
      expect(part(design, 'R2')!.value).toBe(preferredNearest(4801 / ratio, study.requirements.parts.resistorSeries))
      expect(part(design, 'R2')!.value).not.toBe(part(free, 'R2')!.value)
      expect(design.verdict).toBe('meets')
      const line = design.derivation.find(({ symbol }) => symbol === 'R1')!
      expect(line).toMatchObject({ formula: 'pinned', source: 'pinned in the study', value: 4801 })
      expect(design.derivation.find(({ symbol }) => symbol === 'R2')!.formula).not.toBe('pinned')
      expect(design.variantBecause).toMatch(/ Pinned: R1 to 4\.801\u202FkΩ\.$/u)
    },
  )

  test.each([
    ['shunt', 0, { D1: '1N4731A' }, 'D1'],
    ['series-pass', 1, { Q1: 'TIP31C' }, 'Q1'],
    ['series-pass', 1, { HS1: 'Boyd 5750' }, 'HS1'],
    ['series-pass', 1, { R1: 'RR03 1 %' }, 'R1'],
    ['feedback', 2, { C1: 'Nichicon PW 56.0\u202FµF 50\u202FV' }, 'C1'],
    ['feedback', 2, { U2: 'LM4040C25ILP' }, 'U2'],
  ] as const)('of a part number in %s is held to: %#', PATIENCE, (topology, k, pins, id) => {
    expect(part(designOf({ [topology]: pins }, k), id)!.partNumber).toBe(Object.values(pins)[0])
  })

  test('of a diode’s or a capacitor’s value leaves the choice of the part', PATIENCE, () => {
    const design = designOf({ shunt: { D1: 4.7, C1: 220e-6 } }, 0)
    expect(part(design, 'D1')!.value).toBe(4.7)
    expect(part(design, 'C1')!.value).toBe(220e-6)
  })

  test('that only a fuller variant has makes it that variant', PATIENCE, () => {
    expect(designOf({ shunt: { U1: 'TL431CLP' } }, 0).variant).toBe('adjustable reference IC')
  })

  test('of a capacitor below the hand rule says so', PATIENCE, () => {
    expect(part(designOf({ feedback: { C1: 1e-6 } }, 2), 'C1')!.note).toMatch(/^pinned below the [\d.]+\u202FµF/u)
  })

  test('with which nothing can be built is named in the shortfall', PATIENCE, () => {
    const design = designOf({ feedback: { R7: 100 } }, 2)
    expect(design.circuit).toBeUndefined()
    expect(design.shortfalls).toHaveLength(1)
    expect(design.shortfalls[0]!.because).toMatch(/^Nothing can be built with R7 to 100\u202FΩ pinned: /u)
  })

  test('is part of what the sizer remembers a study by', PATIENCE, () => {
    const sizer = createSizer()
    const values = [study, pinned({ 'series-pass': { R1: 555 } }), study].map((each) => {
      const sized = finish(sizer.proven(each))[1]!
      return isUnbuilt(sized) ? undefined : sized.proof.design.parts.find(({ id }) => id === 'R1')!.value
    })
    expect(values[1]).toBe(555)
    expect(values[0]).not.toBe(555)
    expect(values[2]).toBe(values[0])
  })
})

describe('the cost of a pin', () => {
  test('is the difference to the design without this one pin, all others kept', PATIENCE, () => {
    const pins = { shunt: { R1: 20, D1: '1N4731A' } }
    const [shunt] = finish(inspect(pinned(pins), ['pinCost'], createSizer()))
    const both = designOf(pins, 0)
    for (const [id, rest] of [
      ['R1', { D1: '1N4731A' }],
      ['D1', { R1: 20 }],
    ] as const) {
      const cost = shunt!.pinCost!.find((each) => each.part === id)!
      const without = designOf({ shunt: rest } as unknown as PinsByTopology, 0)
      const change = (name: string) => cost.figures.find(({ figure }) => figure === name)?.change
      expect(change('heat')).toBeCloseTo(both.figures!.heat.worst - without.figures!.heat.worst, 9)
      expect(change('partCount')).toBe(both.partCount - without.partCount)
      expect(change('cost')).toBeCloseTo(both.figures!.cost! - without.figures!.cost!, 9)
      expect(change('loadRegulation')).toBeCloseTo(
        both.figures!.loadRegulation.fraction - without.figures!.loadRegulation.fraction,
        9,
      )
    }
  })

  test('is one sentence with its numbers', PATIENCE, () => {
    const [shunt, , feedback] = finish(
      inspect(pinned({ shunt: { R1: 10 }, feedback: { R7: 100, R1: 10e3 } }), ['pinCost'], createSizer()),
    )
    expect(shunt!.pinCost![0]!.sentence).toMatch(
      /^Pinning R1 to 10\u202FΩ costs [\d.]+\u202FEUR, [\d.]+\u202FW of heat and [\d.]+ percentage points of efficiency.*; without it R1 would be 24\.9\u202FΩ\.$/u,
    )
    expect(feedback!.pinCost!.map(({ sentence }) => sentence)).toEqual([
      'Pinning R7 to 100\u202FΩ leaves nothing that can be built; without it the operational amplifier variant, which has no R7, would be taken and every requirement would be met.',
      'Pinning R1 to 10\u202FkΩ is not alone in the way: without it nothing can be built either.',
    ])
  })

  test('is an empty list where nothing is pinned', PATIENCE, () => {
    expect(finish(inspect(study, ['pinCost'], createSizer()))).toEqual([
      { pinCost: [] },
      { pinCost: [] },
      { pinCost: [] },
    ])
  })
})

describe('alternatives', () => {
  const sized = sizeAll(study)
  const comparison = compare(study)

  test(
    'are judged as the present part is: its own ratings under its own stresses give its own margin',
    PATIENCE,
    () => {
      for (const [k, each] of sized.entries()) {
        if (isUnbuilt(each)) continue
        for (const { limits, id, thermalResistance } of each.proof.design.parts) {
          const { margin } = useUnder(stressesOn(each.proof, id), {
            limits,
            ...(thermalResistance === undefined ? {} : { thermalResistance }),
          })
          const stated = part(comparison.designs[k]!, id)!.margin
          expect(Math.abs(margin - stated), `${comparison.designs[k]!.topology} ${id}`).toBeLessThan(1e-3)
        }
      }
    },
  )

  const details = finish(inspect(study, ['alternatives'], createSizer()))

  test('are at most eight a part, smallest first, none of them the part itself', () => {
    for (const [k, { alternatives = [] }] of details.entries()) {
      expect(alternatives.map((each) => each.part)).toEqual(comparison.designs[k]!.parts.map(({ id }) => id))
      for (const { part: id, rows, of } of alternatives) {
        expect(rows.length).toBeLessThanOrEqual(8)
        expect(of).toBeGreaterThanOrEqual(rows.length)
        expect(rows.map(({ area = Infinity }) => area)).toEqual(
          rows.map(({ area = Infinity }) => area).toSorted((a, b) => a - b),
        )
        expect(rows.map(({ partNumber }) => partNumber)).not.toContain(part(comparison.designs[k]!, id)!.partNumber)
        for (const { margin } of rows) expect(margin).toBeGreaterThanOrEqual(0)
      }
    }
  })

  test('meet their ratings when they are pinned and proven', PATIENCE, () => {
    // a diode and a transistor, whose junctions move with the part
    for (const id of ['D1', 'Q1']) {
      const [first] = details[1]!.alternatives!.find((each) => each.part === id)!.rows
      const proven = part(designOf({ 'series-pass': { [id]: first!.partNumber } }, 1), id)!
      expect(proven.partNumber).toBe(first!.partNumber)
      expect(proven.margin).toBeGreaterThan(0)
      // another part moves the stresses: the estimate is no proof, but it is near one
      expect(Math.abs(proven.margin - first!.margin)).toBeLessThan(0.1)
    }
  })
})
