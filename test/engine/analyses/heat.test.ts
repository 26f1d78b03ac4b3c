/** The heat of proven designs: what must hold of every part, and how it moves when the requirements do. */
import { beforeAll, describe, expect, test } from 'vitest'
import { type Heat, type PartHeat, heatOf } from '../../../engine/analyses/heat/index.ts'
import { loopGain } from '../../../engine/analyses/heat/loopGain.ts'
import { resistanceOf, temperaturesOf } from '../../../engine/analyses/heat/path.ts'
import { ratingsOf } from '../../../engine/analyses/ratings.ts'
import type { Proof } from '../../../engine/analyses/prove.ts'
import { sizeAll } from '../../../engine/compare/compare.ts'
import { DERATING } from '../../../engine/parts/derating/index.ts'
import { findTransistor, soaCurrent } from '../../../engine/parts/transistor/index.ts'
import { checkStudy, type Study } from '../../../engine/requirements/index.ts'
import { isUnbuilt } from '../../../engine/sizing/size.ts'
import { FROZEN, newWorkspace, SETTLED, solvePoint } from '../../../engine/solve/index.ts'
import { proveAgain } from '../../fixtures/proofs/whole.ts'

/** Invented: a rail that all three topologies can build, with a short that two of them do not outlive. */
function study(changes: Partial<Study['requirements']> = {}): Study {
  const checked = checkStudy({
    format: 'wattfork-study',
    version: 1,
    requirements: {
      input: { min: 17, nominal: 22, max: 27 },
      output: { voltage: 9, tolerance: 0.15 },
      load: { min: 0.004, nominal: 0.03, max: 0.06 },
      ambient: { min: -10, nominal: 25, max: 50 },
      ...changes,
    },
  })
  if (!checked.ok) throw new Error(checked.issues.map(({ message }) => message).join('; '))
  return checked.study
}

const proofsOf = (of: Study): Proof[] => sizeAll(of).flatMap((one) => (isUnbuilt(one) ? [] : [one.proof]))

function heat(proof: Proof): Heat {
  const job = heatOf(proof)
  for (;;) {
    const step = job.next()
    if (step.done) return step.value
  }
}

const STUDIES: readonly Study[] = [
  study(),
  study({ derating: 'nasa-eee-inst-002' }),
  study({ parts: { resistorSeries: 'E24', resistorTolerance: 0.01, mounting: 'surface-mount' } }),
  study({ limits: { survivesShort: true } }),
]

let all: { proof: Proof; heat: Heat }[] = []
beforeAll(() => {
  all = STUDIES.flatMap(proofsOf).map((proof) => ({ proof, heat: heat(proof) }))
}, 120_000)

const seriesPass = () => all.find(({ proof }) => proof.design.topology === 'series-pass')!

const everyPart = (): { proof: Proof; part: PartHeat }[] =>
  all.flatMap(({ proof, heat: { parts } }) => parts.map((part) => ({ proof, part })))

describe('every part that dissipates', () => {
  test('is listed once, and nothing else is', () => {
    expect(all.length).toBe(12)
    for (const {
      proof,
      heat: { parts },
    } of all) {
      const warm = proof.design.parts.filter(({ thermalResistance }) => thermalResistance !== undefined)
      expect(parts.map(({ part }) => part)).toEqual(warm.map(({ id }) => id))
    }
  })

  test('has a path that begins where its heat arises, ends at the ambient, and sums to what the solver used', () => {
    for (const { part } of everyPart()) {
      expect(part.path[0]!.from).toMatch(/^(junction|body)$/u)
      expect(part.path.at(-1)!.to).toBe('ambient')
      for (let k = 1; k < part.path.length; k++) expect(part.path[k]!.from).toBe(part.path[k - 1]!.to)
      for (const { kelvinPerWatt, source } of part.path) {
        expect(kelvinPerWatt).toBeGreaterThan(0)
        expect(source).not.toBe('')
      }
      expect(resistanceOf(part.path)).toBeCloseTo(part.thermalResistance, 9)
    }
  })

  test('has temperatures that agree with the solved point: θ·P above the ambient, falling all the way', () => {
    for (const { part } of everyPart()) {
      expect(part.nodes[0]!.temperature).toBeCloseTo(part.hottest, 3)
      expect(part.nodes.at(-1)).toEqual({ at: 'ambient', temperature: part.condition.ambient })
      for (let k = 1; k < part.nodes.length; k++)
        expect(part.nodes[k]!.temperature).toBeLessThanOrEqual(part.nodes[k - 1]!.temperature)
    }
  })

  test('is no hotter at any corner of nominal parts than at its own worst corner', () => {
    for (const { proof, part } of everyPart()) {
      const { observer, conditions } = proof
      const nominal = new Int8Array(proof.design.tolerances.length)
      const index = observer.prepared.circuit.part(part.part)
      const temperatures = [...conditions.corners, ...conditions.unloaded]
        .map((at) => observer.observe(nominal, at, SETTLED))
        .filter(({ outcome }) => outcome === 0)
        .map(({ junction }) => junction[index]!)
      expect(Math.max(...temperatures)).toBeLessThanOrEqual(part.hottest + 1e-3)
    }
  })

  test('is at least as hot as the rating of its junction says', () => {
    for (const {
      proof,
      heat: { parts },
    } of all)
      for (const rating of ratingsOf(proof).filter(({ quantity }) => quantity === 'junction'))
        expect(parts.find(({ part }) => part === rating.part)!.hottest).toBeGreaterThan(rating.stress - 1e-3)
  })

  test('settles: the loop from temperature to heat and back has a gain below 1', () => {
    const gains = everyPart().flatMap(({ part }) => (part.loopGain === undefined ? [] : [part.loopGain]))
    expect(gains.length).toBeGreaterThan(40)
    for (const gain of gains) expect(gain).toBeLessThan(1)
  })
})

test('the loop gain is how much of a forced warming comes back as heat', () => {
  // θ·(P(T + 1) - P(T - 1)) / 2, all else held, by a frozen solve at temperatures that are set by hand.
  const {
    proof,
    heat: { parts },
  } = seriesPass()
  const { observer } = proof
  const { circuit } = observer.prepared
  for (const part of parts) {
    const at = observer.condition(part.condition.input, part.condition.load, part.condition.ambient)
    const nominal = new Int8Array(proof.design.tolerances.length)
    const gain = loopGain(observer, part.part, part.thermalResistance, nominal, at)!
    const index = circuit.part(part.part)
    const watts = [-1, 1].map((kelvin) => {
      const ws = newWorkspace(circuit)
      ws.junction.set(observer.observe(nominal, at, SETTLED).junction)
      ws.junction[index]! += kelvin
      expect(solvePoint(circuit, ws, part.condition.input, part.condition.load, part.condition.ambient, FROZEN)).toBe(0)
      return ws.power[index]!
    })
    expect(gain).toBeCloseTo((part.thermalResistance * (watts[1]! - watts[0]!)) / 2, 4)
  }
})

const sunk = () => everyPart().filter(({ part }) => part.sink && !part.sink.bare && part.sink.needed !== undefined)

describe('the heatsink', () => {
  test('that is needed just keeps the derated junction at the corner that asks most', () => {
    expect(sunk().length).toBeGreaterThan(3)
    for (const { proof, part } of sunk()) {
      const { heatsinkFactor } = DERATING[proof.requirements.derating]
      const stretches = part.path.filter(({ to }) => to === 'case' || to === 'sink')
      if (stretches.length < 2) continue
      const whole = resistanceOf(stretches) + part.sink!.needed! * heatsinkFactor
      expect(whole).toBeCloseTo(part.sink!.allowed, 6)
      // the hottest corner cannot ask for less cooling than the one that asks most
      const there = (part.allowed! - part.condition.ambient) / part.heat
      expect(whole).toBeLessThanOrEqual(there * (1 + 1e-6))
    }
  })

  test('that is the smallest serves, and where it is fitted the junction keeps its limit', () => {
    const smallest = sunk().flatMap(({ part: { sink } }) => (sink!.smallest ? [{ ...sink!, ...sink!.smallest }] : []))
    expect(smallest.length).toBeGreaterThan(0)
    for (const { thermalResistance, needed } of smallest) expect(thermalResistance).toBeLessThanOrEqual(needed!)
    const fitted = sunk().flatMap(({ part }) => (part.fitted ? [{ ...part, fitted: part.fitted }] : []))
    expect(fitted.length).toBeGreaterThan(0)
    for (const part of fitted)
      expect(part.hottest <= part.allowed!).toBe(part.fitted.thermalResistance <= part.sink!.needed! * (1 + 1e-3))
  })

  test('must be larger where the ambient is hotter, for a heavier load, and for a higher input', () => {
    const { proof } = seriesPass()
    const { requirements } = proof
    const asked = (changed: Partial<Study['requirements']>): number => {
      return heat(proveAgain(proof, { ...requirements, ...changed })).parts.find(({ part }) => part === 'Q1')!.sink!
        .allowed
    }
    const { ambient, load, input } = requirements
    const rising = [
      [35, 50, 65].map((max) => asked({ ambient: { ...ambient, max } })),
      [0.04, 0.05, 0.06].map((max) => asked({ load: { ...load, max } })),
      [23, 25, 27].map((max) => asked({ input: { ...input, max } })),
    ]
    for (const [small, middle, large] of rising) {
      expect(middle!).toBeLessThan(small!)
      expect(large!).toBeLessThan(middle!)
    }
  }, 60_000)
})

test('every part of one design is hotter in a hotter place', () => {
  const { proof } = seriesPass()
  const { observer, requirements } = proof
  const nominal = new Int8Array(proof.design.tolerances.length)
  const at = (ambient: number) =>
    observer.observe(nominal, observer.condition(requirements.input.max, requirements.load.max, ambient), SETTLED)
  for (const { id, thermalResistance } of proof.design.parts) {
    if (thermalResistance === undefined) continue
    const index = observer.prepared.circuit.part(id)
    const temperatures = [-20, 0, 20, 40, 60].map((ambient) => at(ambient).junction[index]!)
    for (let k = 1; k < temperatures.length; k++) expect(temperatures[k]!).toBeGreaterThan(temperatures[k - 1]!)
  }
})

const areas = () => all.flatMap(({ proof, heat: { safeAreas } }) => safeAreas.map((area) => ({ proof, area })))

describe('the safe operating area', () => {
  test('falls with voltage, shrinks when the case is hotter, and the policy leaves no more than the maker', () => {
    expect(areas().length).toBeGreaterThan(6)
    for (const { area } of areas()) {
      const [maker, hot, policy] = area.envelopes
      for (const { amperes, volts } of area.envelopes) {
        expect(amperes.length).toBe(volts.length)
        for (let k = 1; k < amperes.length; k++) {
          expect(volts[k]!).toBeGreaterThan(volts[k - 1]!)
          expect(amperes[k]!).toBeLessThanOrEqual(amperes[k - 1]! * (1 + 1e-9))
        }
      }
      const row = findTransistor(area.partNumber)!
      const full = (of: typeof hot) => of!.volts.map((v) => soaCurrent(row, v, maker!.caseTemperature))
      hot!.amperes.forEach((i, k) => expect(i).toBeLessThanOrEqual(full(hot)[k]! * (1 + 1e-9)))
      policy!.amperes.forEach((i, k) =>
        expect(i).toBeLessThanOrEqual(soaCurrent(row, policy!.volts[k]!, policy!.caseTemperature) * (1 + 1e-9)),
      )
      expect(policy!.volts.at(-1)!).toBeLessThanOrEqual(row.VCEO)
    }
  })

  test('has the working points in it, the worst of them where the rating has it', () => {
    for (const { proof, area } of areas()) {
      const rating = ratingsOf(proof).find((r) => r.part === area.part && r.quantity === 'safeArea')!
      const worst = area.points.find(({ of }) => of === 'worst')!
      expect(worst.amperes).toBeCloseTo(rating.stress, 9)
      expect(worst.allowed).toBeCloseTo(rating.allowed!, 5)
      const use = ({ amperes, allowed }: typeof worst) => amperes / allowed
      for (const point of area.points.filter(({ of }) => of === 'corner'))
        expect(use(point)).toBeLessThanOrEqual(use(worst) + 1e-6)
    }
  })
})

test('a short without a settled temperature is reported as thermal runaway of the part that heats up most', () => {
  // The single follower has no limiter: tens of watts at a few tens of kelvin per watt.
  const [, follower] = all.slice(0, 3)
  expect(follower!.proof.design.topology).toBe('series-pass')
  expect(follower!.proof.shortCircuit.settles).toBe(false)
  expect(follower!.heat.runaway.length).toBeGreaterThan(0)
  for (const runaway of follower!.heat.runaway) expect(runaway).toMatchObject({ part: 'Q1', shorted: true })
  expect(all[0]!.proof.design.topology).toBe('shunt')
  expect(all[0]!.heat.runaway).toEqual([])
})

test('resistors work below the line of their policy, and the line falls with the ambient', () => {
  for (const {
    heat: { resistors },
  } of all)
    for (const { points, share, power, derateFrom, zeroPowerAt } of resistors) {
      expect(zeroPowerAt).toBeGreaterThan(derateFrom)
      for (const { ambient, allowed } of points) {
        const left = Math.min(1, Math.max(0, (zeroPowerAt - ambient) / (zeroPowerAt - derateFrom)))
        expect(allowed).toBeCloseTo(power * share * left, 9)
      }
    }
})

test('temperatures along a path are linear in the heat', () => {
  const path = everyPart().find(({ part }) => part.path.length === 3)!.part.path
  const rise = (watts: number) => temperaturesOf(path, watts, 20).map(({ temperature }) => temperature - 20)
  rise(3).forEach((kelvin, k) => expect(kelvin).toBeCloseTo(3 * rise(1)[k]!, 9))
})
