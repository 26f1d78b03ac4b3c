/** Faults of the example studies against hand reckoning: Ohm's law and Kirchhoff's laws, no source needed. */
import { beforeAll, describe, expect, test } from 'vitest'
import { breakDesign } from '../../../engine/analyses/faults/broken.ts'
import { type Fault, type FaultName, type Faults, type Line, faultsOf } from '../../../engine/analyses/faults/index.ts'
import { latchUpOn } from '../../../engine/analyses/faults/loadLine.ts'
import { fuseFor, fuseOutcome } from '../../../engine/analyses/faults/protection.ts'
import type { Proof } from '../../../engine/analyses/prove.ts'
import { sizeAll } from '../../../engine/index.ts'
import { isUnbuilt, needOf } from '../../../engine/sizing/size.ts'
import { FAULTS } from '../../../engine/topologies/faults.ts'
import { chooserFor, isRefusal, type SizedDesign, TOPOLOGIES } from '../../../engine/topologies/index.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'

const EXAMPLES = exampleStudies()

interface Case {
  proof: Proof
  faults: Faults
}

function finish<T>(job: Generator<void, T>): T {
  for (;;) {
    const step = job.next()
    if (step.done) return step.value
  }
}

let cases: Case[][]
beforeAll(() => {
  cases = EXAMPLES.map((study) =>
    sizeAll(study).map((sized) => {
      if (isUnbuilt(sized)) throw new Error('every example can be built')
      return { proof: sized.proof, faults: finish(faultsOf(sized.proof)) }
    }),
  )
}, 120_000)

const faultOf = ({ faults }: Case, name: FaultName): Fault | undefined =>
  faults.list.find(({ fault }) => fault === name)
const all = (name: FaultName): { one: Case; fault: Fault }[] =>
  cases.flat().flatMap((one) => {
    const fault = faultOf(one, name)
    return fault ? [{ one, fault }] : []
  })

const shunts = (): Case[] => cases.map((designs) => designs[0]!)
const ohmsOf = ({ proof }: Case, id: string): number => proof.design.parts.find((part) => part.id === id)!.value!

/** Requirements for which a first candidate of the variant can be built. */
const needFor = (variant: string) => {
  const { requirements } = EXAMPLES[0]!
  if (variant === 'fixed reference IC') return needOf({ ...requirements, output: { voltage: 5, tolerance: 0.1 } })
  if (!variant.includes('foldback')) return needOf(requirements)
  return needOf({
    ...requirements,
    input: { ...requirements.input, min: 22.5, nominal: 23, max: 24 },
    output: { voltage: 15, tolerance: 0.08 },
    load: { ...requirements.load, max: 1.5 },
  })
}

describe('which faults a design has', () => {
  const always: FaultName[] = ['output-shorted', 'load-removed', 'reference-open', 'reference-shorted']
  const divided: FaultName[] = ['divider-upper-open', 'divider-lower-open']
  const wanted = (topology: string, variant: string): FaultName[] => [
    ...always,
    ...(topology === 'shunt' ? [] : (['pass-shorted'] as const)),
    ...(variant === 'transistor-boosted' ? (['shunt-open'] as const) : []),
    ...(topology === 'feedback' || variant === 'adjustable reference IC' ? divided : []),
  ]

  test.each(TOPOLOGIES.flatMap(({ name, variants }) => variants.map((variant) => ({ name, variant }))))(
    '$name, $variant.name has just those that its parts allow',
    ({ name, variant }) => {
      const need = needFor(variant.name)
      const candidates = variant.candidates(need)
      if (isRefusal(candidates)) throw new Error(candidates.because)
      const built = candidates.map((c) => c.build(variant.working.run(c.givens(), chooserFor(need)), {}))
      const design = built.find((each) => !isRefusal(each)) as SizedDesign
      const has = FAULTS.filter((kind) => breakDesign(design, kind, 21)).map((kind) => kind.name)
      expect(has.toSorted()).toEqual(wanted(name, variant.name).toSorted())
    },
  )

  test('a part that opens takes its elements along, one that shorts keeps them beside a milliohm; boards stay as they are', () => {
    for (const { proof } of cases.flat())
      for (const kind of FAULTS) {
        const broken = breakDesign(proof.design, kind, proof.requirements.input.nominal)
        if (!broken?.part) continue
        const { part, design, removed, added } = broken
        const left = design.netlist.elements.filter((e) => e.part === part.id)
        expect(left.map(({ id }) => id)).toEqual(
          kind.how === 'opened'
            ? []
            : [...proof.design.netlist.elements.filter((e) => e.part === part.id), ...added].map(({ id }) => id),
        )
        expect(added.length).toBe(kind.how === 'shorted' ? 1 : 0)
        expect(removed.length > 0).toBe(kind.how === 'opened')
        expect(design.tolerances.map(({ id }) => id)).toEqual(proof.design.tolerances.map(({ id }) => id))
        expect(design.parts.find(({ id }) => id === part.id)!.limits).toEqual([])
      }
  })
})

describe('what the load sees', () => {
  test('a shorted shunt draws the highest input over the lowest series resistor', () => {
    for (const one of shunts()) {
      const { input, ambient } = one.proof.requirements
      const row = one.proof.design.tolerances.find(({ id }) => id.startsWith('R1.'))!
      const spread = Math.max(...row.effects.map(({ high, low }) => Math.max(Math.abs(1 - low), Math.abs(high - 1))))
      const { loadCurrent } = faultOf(one, 'output-shorted')!
      const ohms = ohmsOf(one, 'R1')
      expect(loadCurrent!.value).toBeGreaterThan(input.max / ohms)
      // the rest is its temperature coefficient, a few hundred ppm/K over some hundred kelvin at most
      expect(loadCurrent!.value).toBeLessThan((input.max / ohms / (1 - spread)) * (1 + 5e-4 * (200 + ambient.max)))
    }
  })

  test('an open reference of a plain shunt leaves the input less the drop of the lightest load', () => {
    const one = shunts().find(({ proof }) => proof.design.variant === 'plain diode')!
    const { input, load } = one.proof.requirements
    const { output } = faultOf(one, 'reference-open')!
    expect(output!.highest).toBeGreaterThan(input.max - load.min * ohmsOf(one, 'R1') * 1.001)
    expect(output!.highest).toBeLessThan(input.max - load.min * ohmsOf(one, 'R1') * 0.97)
  })

  test('a shorted pass transistor puts the whole input on the load, less the sense resistor and what a limiter diverts', () => {
    const found = all('pass-shorted')
    expect(found.length).toBe(6)
    for (const { one, fault } of found) {
      expect(fault.output!.highest).toBeLessThanOrEqual(one.proof.requirements.input.max)
      expect(fault.added).toEqual([expect.objectContaining({ kind: 'resistor', ohms: 1e-3, part: 'Q1' })])
    }
    const unlimited = found.filter(({ one }) => !one.faults.loadLine!.isLimited)
    expect(unlimited.length).toBe(4)
    for (const { one, fault } of unlimited) {
      const { input, load } = one.proof.requirements
      expect(fault.output!.highest).toBeCloseTo(input.max - load.min * 1e-3, 3)
    }
  })

  test('an open upper divider resistor drives the output up, an open lower one down to the reference', () => {
    for (const { one, fault } of all('divider-upper-open')) {
      const { input } = one.proof.requirements
      expect(fault.output!.highest).toBeGreaterThan(one.faults.band.high)
      expect(fault.output!.highest).toBeLessThan(input.max)
    }
    for (const { one, fault } of all('divider-lower-open')) {
      const { worked, variant } = one.proof.design
      const held = variant.startsWith('operational') ? worked.value('Vref') : worked.value('V_cmp')
      expect(fault.output!.highest).toBeLessThan(one.faults.band.low)
      expect(Math.abs((fault.output!.lowest + fault.output!.highest) / 2 / held - 1)).toBeLessThan(0.15)
    }
  })

  test('a shorted output is at least what the comparison says of the nominal board', () => {
    for (const one of cases.flat()) {
      const { current } = one.proof.shortCircuit
      const { loadCurrent } = faultOf(one, 'output-shorted')!
      expect(loadCurrent!.value).toBeGreaterThanOrEqual(current.value * (1 - 1e-6))
    }
  })
})

describe('what it does to the parts', () => {
  test('a part counts as over its rating only above what its maker allows, and the corner shows the stress', () => {
    const over = cases.flat().flatMap(({ faults }) => faults.list.flatMap((fault) => fault.over))
    expect(over.length).toBeGreaterThan(10)
    for (const { stress, allowed, factor = stress / allowed } of over) {
      expect(stress).toBeGreaterThan(allowed)
      expect(stress).toBeCloseTo(factor * allowed, 6)
    }
    const heated = over.filter(({ quantity }) => quantity === 'power' || quantity === 'heat')
    for (const { stress, part, corner } of heated) expect(corner.point.heat[part]).toBeCloseTo(stress, 6)
    const hot = over.filter(({ quantity }) => quantity === 'junction')
    for (const { stress, part, corner } of hot) expect(corner.point.junction[part]).toBeCloseTo(stress, 3)
  })

  test('where no temperature settles the fault is not survived, and somewhere it is', () => {
    const faults = cases.flat().flatMap(({ faults: { list } }) => list)
    const burning = faults.filter(({ settles }) => !settles)
    expect(burning.length).toBeGreaterThan(0)
    for (const { survives, runaways } of burning) {
      expect(survives).toBe(false)
      expect(runaways.length).toBeGreaterThan(0)
    }
    expect(faults.some(({ survives }) => survives)).toBe(true)
  })

  test('a limiter put into an unlimited design holds the short near the threshold over its sense resistor', () => {
    const added = cases.flat().flatMap((one) => {
      const fault = faultOf(one, 'output-shorted')!
      return fault.protection.limiter?.added ? [{ fault, added: fault.protection.limiter.added }] : []
    })
    expect(added.length).toBeGreaterThan(0)
    for (const { fault, added: limiter } of added) {
      const threshold = limiter.current * limiter.sense
      expect(threshold).toBeGreaterThan(0.5)
      expect(threshold).toBeLessThan(1)
      expect(limiter.current).toBeLessThan(fault.loadCurrent!.value / 3)
    }
  })
})

describe('fuse and crowbar', () => {
  // Rated currents and the two multiples: IEC 60127, from memory.
  test.each([
    [0.02, 0.032],
    [0.075, 0.1],
    [0.08, 0.125],
    [0.9, 1.25],
    [7, 10],
  ])('a full load of %d A takes a fuse of %d A', (fullLoad, rating) => {
    expect(fuseFor(fullLoad)!.rating).toBe(rating)
  })

  test('beyond 7.5 A there is no miniature fuse', () => {
    expect(fuseFor(7.6)).toBeUndefined()
  })

  test('it is sure to open from 2.1 times its rating, sure to hold up to 1.5 times', () => {
    const fuse = fuseFor(0.075)!
    expect(fuseOutcome(fuse, 0.22, 1)).toBe('blows')
    expect(fuseOutcome(fuse, 0.2, 1)).toBe('may blow')
    expect(fuseOutcome(fuse, 0, 0.16)).toBe('may blow')
    expect(fuseOutcome(fuse, 0, 0.14)).toBe('holds')
  })

  test('a crowbar is there just where the load sees more than it fires at, and shorts the supply behind a shorted transistor', () => {
    for (const { faults } of cases.flat())
      for (const { part, output, protection } of faults.list) {
        const fires = part !== undefined && output!.highest > faults.band.high * 1.15
        expect(protection.crowbar !== undefined).toBe(fires)
      }
    const behind = all('pass-shorted').flatMap(({ fault: { protection } }) => protection.crowbar ?? [])
    expect(behind.map(({ fuse }) => fuse)).toEqual(behind.map(() => 'blows'))
  })
})

const lineOf = (amperes: number[]): Line => ({
  input: 10,
  ambient: 25,
  board: {},
  volts: [5, 4, 3, 2, 1, 0.5, 0],
  amperes,
})

describe('load lines', () => {
  test('a line that stays above the load does not latch up; one that dips below rests where they cross', () => {
    expect(latchUpOn(lineOf([0, 1, 1, 1, 1, 1, 1]), 0.9, 4.5)).toBeUndefined()
    // at 0.5 V the load draws 0.9 A and the line gives 0.5 A; at 0 V it gives 0.4 A and nothing is drawn
    const found = latchUpOn(lineOf([0, 1.2, 1, 0.8, 0.6, 0.5, 0.4]), 0.9, 4.5)!
    expect(found.rests).toBeCloseTo(0.25, 2)
    expect(found.widest.volts).toBe(0.5)
    expect(found.widest.delivered).toBe(0.5)
  })

  test('every example runs from no load to the short without a point missing near either end', () => {
    for (const { proof, faults } of cases.flat()) {
      const { nominal, least, most, unsolved } = faults.loadLine!
      expect(unsolved).toBeLessThanOrEqual(3)
      expect(nominal.amperes[0]).toBe(0)
      expect(nominal.volts[0]).toBeGreaterThan(proof.requirements.output.voltage * 0.8)
      expect(Math.min(...nominal.volts)).toBeLessThan(0.1)
      expect(Math.max(...least.amperes)).toBeLessThanOrEqual(Math.max(...most.amperes))
    }
  })

  test('a limited design delivers little more into the short than at full load; an unlimited follower several times as much', () => {
    for (const { proof, faults } of cases.flat()) {
      if (proof.design.topology === 'shunt') continue
      const { isLimited, nominal } = faults.loadLine!
      const times = nominal.amperes.at(-1)! / proof.requirements.load.max
      // the third example limits at some ten milliamperes for a load of three
      expect(isLimited ? times < 15 : times > 5).toBe(true)
    }
  })
})

test('the detail is plain data: JSON gives it back unchanged', () => {
  for (const { faults } of cases.flat()) expect(JSON.parse(JSON.stringify(faults))).toEqual(faults)
})

test('the cautions carry the numbers of the design', () => {
  for (const one of cases.flat()) {
    const shorted = faultOf(one, 'pass-shorted')
    if (!shorted) continue
    const said = one.faults.cautions.find((text) => text.includes('the load sees up to'))!
    const worst = Math.max(...one.faults.list.flatMap(({ part, output }) => (part ? [output!.highest] : [])))
    expect(said).toContain(worst.toPrecision(3))
  }
})
