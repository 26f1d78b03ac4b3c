/** What a wider input range costs. No published case: every point is held against a whole comparison of its own. */
import { beforeAll, expect, test } from 'vitest'
import { type Comparison, type Study, compare, tradeOf } from '../../../engine/index.ts'
import { type InputEnd, type Trade, tradeAxis } from '../../../engine/explore/trade.ts'
import { studyWith } from '../analyses/studies.ts'

const PATIENCE = 120_000

const study = studyWith({})

function run(of: Study, end: InputEnd): { trade: Trade; told: number[]; firstPoints: number[]; total: number } {
  const job = tradeOf(of, end)
  const told: number[] = []
  const firstPoints: number[] = []
  for (;;) {
    const step = job.next()
    if (step.done) return { trade: step.value, told, firstPoints, total: told.length }
    told.push(step.value.done)
    if (step.value.point) firstPoints.push(step.value.point.input)
  }
}

const withInput = (of: Study, input: Partial<Study['requirements']['input']>): Study => ({
  ...of,
  requirements: { ...of.requirements, input: { ...of.requirements.input, ...input } },
})

const highestOf = ({ designs, requirements: { input, load } }: Comparison, k: number) =>
  designs[k]!.operatingPoints!.find(({ condition: c }) => c.input === input.max && c.load === load.max)!.efficiency

let top: ReturnType<typeof run>
let bottom: ReturnType<typeof run>
beforeAll(() => {
  top = run(study, 'max')
  bottom = run(study, 'min')
}, PATIENCE)

test('the points go by a round step, hold the range as it is, and stay valid studies', () => {
  expect(top.trade).toMatchObject({ end: 'max', present: 27, step: 1 })
  expect(top.trade.points.map(({ input }) => input)).toEqual([22, 23, 24, 25, 26, 27, 28, 29, 30, 31, 32, 33, 34])
  expect(bottom.trade.points.map(({ input }) => input)).toEqual([13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25])
  // an odd end keeps its own value, and the step stays round
  const odd = tradeAxis(withInput(study, { min: 13.7, nominal: 14, max: 14.4 }), 'max')
  expect(odd.step).toBe(1)
  expect(odd.inputs).toEqual([14.4, 15.4, 16.4, 17.4, 18.4, 19.4, 20.4, 21.4])
})

test('it tells how far it is and hands out the range as it is first', () => {
  expect(top.told).toEqual(Array.from({ length: 39 }, (_, k) => k + 1))
  expect(top.firstPoints.slice(0, 3)).toEqual([27, 26, 28])
})

test('each point is what a whole comparison of that range says', { timeout: PATIENCE }, () => {
  const check = (trade: Trade, volts: number, changed: Study) => {
    const whole = compare(changed)
    const point = trade.points.find(({ input }) => input === volts)!
    whole.designs.forEach((design, k) => {
      const own = point.designs[k]!
      expect(own.topology).toBe(design.topology)
      expect(own.variant).toBe(design.variant)
      expect(own.meets).toBe(design.verdict === 'meets')
      expect(own.heat).toBe(design.figures!.heat.worst)
      expect(own.efficiency).toBe(design.figures!.efficiency.fullLoad)
      expect(own.efficiencyAtHighest).toBe(highestOf(whole, k))
      const sinks = design.parts.filter(({ role }) => role.startsWith('heatsink'))
      expect(own.heatsink?.thermalResistance).toBe(
        sinks.length > 0 ? Math.min(...sinks.map((s) => s.value!)) : undefined,
      )
    })
  }
  check(top.trade, 27, study)
  check(top.trade, 34, withInput(study, { max: 34 }))
  // the nominal input goes with the end that passes it
  check(top.trade, 23, withInput(study, { max: 23, nominal: 23 }))
  check(bottom.trade, 16, withInput(study, { min: 16 }))
})

test('marginal costs are finite differences of whole comparisons', { timeout: PATIENCE }, () => {
  const now = compare(study)
  const wider = compare(withInput(study, { max: 28 }))
  const narrower = compare(withInput(study, { min: 21 }))
  const outward = top.trade.costs.filter(({ direction }) => direction === 'outward')
  expect(outward).toHaveLength(3)
  outward.forEach(({ topology, from, to, heatPerVolt, efficiencyPerVolt, changesVariant, changedParts }, k) => {
    expect([topology, from, to]).toEqual([now.designs[k]!.topology, 27, 28])
    expect(heatPerVolt).toBeCloseTo(wider.designs[k]!.figures!.heat.worst - now.designs[k]!.figures!.heat.worst, 12)
    expect(efficiencyPerVolt).toBeCloseTo(highestOf(wider, k) - highestOf(now, k), 12)
    expect(changesVariant).toBe(wider.designs[k]!.variant !== now.designs[k]!.variant)
    const types = ({ designs }: Comparison) =>
      new Map(designs[k]!.parts.filter(({ role }) => !role.startsWith('heatsink')).map((p) => [p.id, p.partNumber]))
    const [before, after] = [types(now), types(wider)]
    expect(changedParts).toEqual([...before.keys()].filter((id) => before.get(id) !== after.get(id)))
  })
  bottom.trade.costs
    .filter(({ direction }) => direction === 'inward')
    .forEach(({ from, to, heatPerVolt }, k) => {
      expect([from, to]).toEqual([20, 21])
      // a narrower range is a volt less: what it saves, a volt more costs
      expect(heatPerVolt).toBeCloseTo(
        now.designs[k]!.figures!.heat.worst - narrower.designs[k]!.figures!.heat.worst,
        12,
      )
    })
})

test('a volt on top costs a series-pass design its full load current in watts, and what its drive adds', () => {
  const cost = top.trade.costs.find((c) => c.topology === 'series-pass' && c.direction === 'outward')!
  const { max } = study.requirements.load
  expect(cost.changesVariant).toBe(false)
  expect(cost.heatPerVolt).toBeGreaterThan(max)
  expect(cost.heatPerVolt).toBeLessThan(1.6 * max)
})

test('a topology that cannot be built at some input has no numbers there', { timeout: PATIENCE }, () => {
  const narrow = studyWith({ input: { min: 10.6, nominal: 11, max: 11.5 }, output: { voltage: 9, tolerance: 0.05 } })
  const { trade } = run(narrow, 'min')
  expect(JSON.parse(JSON.stringify(trade))).toEqual(trade)
  const unbuilt = trade.points.flatMap(({ designs }) => designs.filter(({ heat }) => heat === undefined))
  expect(unbuilt.length).toBeGreaterThan(0)
  for (const design of unbuilt) {
    expect(design.meets).toBe(false)
    expect(design.missed).toBeGreaterThan(0)
    expect(design.efficiency).toBeUndefined()
  }
})

test('pins count at every point', { timeout: PATIENCE }, () => {
  const pins = { 'series-pass': { R1: 1234 } }
  const job = tradeOf({ ...study, pins }, 'max')
  for (let step = job.next(); !step.done; step = job.next()) {
    if (!step.value.point) continue
    const whole = compare(withInput({ ...study, pins }, { max: step.value.point.input }))
    expect(step.value.point.designs[1]!.heat).toBeCloseTo(whole.designs[1]!.figures!.heat.worst, 12)
    expect(step.value.point.designs[1]!.heat).not.toBeCloseTo(
      top.trade.points.find(({ input }) => input === step.value!.point!.input)!.designs[1]!.heat!,
      3,
    )
    return
  }
})
