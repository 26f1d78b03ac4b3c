/** The map of heat. No published case: it is held against the operating points of the comparison and the swept curves. */
import { expect, test } from 'vitest'
import { curvesOf } from '../../../engine/analyses/curves.ts'
import { type HeatMap, heatMapOf } from '../../../engine/analyses/heatMap.ts'
import { SETTLED } from '../../../engine/solve/index.ts'
import { sizeAll } from '../../../engine/index.ts'
import { isUnbuilt } from '../../../engine/sizing/size.ts'
import { studyWith } from './studies.ts'

const PATIENCE = 60_000

function finish<T>(job: Generator<unknown, T>): T {
  for (;;) {
    const step = job.next()
    if (step.done) return step.value
  }
}

const at = ({ points }: HeatMap, input: number, load: number) =>
  points.find((p) => Math.abs(p.input - input) < 1e-9 && Math.abs(p.load - load) < 1e-12)

test('it covers the required ranges and holds each point of its grid once, in order', { timeout: PATIENCE }, () => {
  const study = studyWith({})
  for (const sized of sizeAll(study)) {
    if (isUnbuilt(sized)) throw new Error('this study is one that all three meet')
    const map = finish(heatMapOf(sized.proof))
    const { input, load } = study.requirements
    expect(map.inputs[0]).toBeLessThan(input.min)
    expect(map.inputs.at(-1)).toBeGreaterThan(input.max)
    expect(map.loads[0]).toBe(0)
    expect(map.loads.at(-1)).toBeCloseTo(1.25 * load.max, 12)
    expect(map.points).toHaveLength(map.inputs.length * map.loads.length)
    const order = map.loads.flatMap((amperes) => map.inputs.map((volts) => `${volts} ${amperes}`))
    expect(map.points.map((point) => `${point.input} ${point.load}`)).toEqual(order)
  }
})

test('its points are those of the swept curves and of single solves', { timeout: PATIENCE }, () => {
  // the nominal input and the full load lie on the map's own axes
  const study = studyWith({ input: { min: 20, nominal: 23.5, max: 27 } })
  for (const sized of sizeAll(study)) {
    if (isUnbuilt(sized)) throw new Error('this study is one that all three meet')
    const { proof } = sized
    const map = finish(heatMapOf(proof))
    const board = new Int8Array(proof.design.tolerances.length)
    const { observer } = proof
    for (const [row, column] of [
      [0, 0],
      [4, 12],
      [16, 12],
      [20, 24],
    ] as const) {
      const input = map.inputs[column]!
      const load = map.loads[row]!
      const seen = observer.observe(board, observer.condition(input, load, 25), SETTLED)
      expect(seen.outcome).toBe(0)
      const point = at(map, input, load)!
      expect(point.heat).toBeCloseTo(seen.heat, 8)
      expect(point.output).toBeCloseTo(seen.output, 6)
    }
    const { byInput } = curvesOf(observer.prepared, study.requirements)
    const full = map.loads[16]!
    expect(full).toBeCloseTo(study.requirements.load.max, 12)
    // each fourth point of the curve is a column of the map
    map.inputs.forEach((volts, k) => {
      expect(byInput.axis[4 * k]).toBeCloseTo(volts, 9)
      expect(at(map, volts, full)!.heat).toBeCloseTo(byInput.columns['heat']![4 * k]!, 8)
    })
  }
})

test('a point without a solution is left out and the map stays plain data', { timeout: PATIENCE }, () => {
  const [first] = sizeAll(studyWith({}))
  if (!first || isUnbuilt(first)) throw new Error('this study is one that all three meet')
  const { proof } = first
  // an ambient beyond all sense: every part runs away
  const hot = { ...proof.requirements, ambient: { ...proof.requirements.ambient, nominal: 5000 } }
  const map = finish(heatMapOf({ ...proof, requirements: hot }))
  expect(map.points.length).toBeLessThan(map.inputs.length * map.loads.length)
  expect(JSON.parse(JSON.stringify(map))).toEqual(map)
})
