/**
 * Three scenarios that were sized by hand and solved in a general-purpose circuit solver before this engine was written:
 * half-maximum diode impedances, middle tempco, 25 °C. Agreement to a few per cent is asked for, by name of the scenario.
 * Their numbers come from no publication; they are an independent calculation of our own.
 */
import { beforeAll, describe, expect, test } from 'vitest'
import { type Comparison, type Design, type Point, checkStudy, compare } from '../../engine/index.ts'

function comparisonOf(requirements: object): Comparison {
  const checked = checkStudy({ format: 'wattfork-study', version: 1, title: 'hand-checked', requirements })
  if (!checked.ok) throw new Error(checked.issues.map((i) => i.message).join('; '))
  return compare(checked.study)
}

const expectNear = (value: number | undefined, wanted: number, share: number): void => {
  expect(value).toBeDefined()
  expect(Math.abs(value! / wanted - 1)).toBeLessThan(share)
}

const partOf = (design: Design, id: string) => design.parts.find((part) => part.id === id)!
const at = (design: Design, input: number, load: number): Point =>
  design.operatingPoints!.find((p) => p.condition.input === input && p.condition.load === load)!

describe('S1, shunt: 22.8/24/25.2 V to 12 V within 12 %, 2/2.5/3 mA, 0/25/50 °C, survives a short', () => {
  let design: Design
  let nominal: Point
  beforeAll(() => {
    design = comparisonOf({
      input: { min: 22.8, nominal: 24, max: 25.2 },
      output: { voltage: 12, tolerance: 0.12 },
      load: { min: 0.002, nominal: 0.0025, max: 0.003 },
      ambient: { min: 0, nominal: 25, max: 50 },
      limits: { survivesShort: true },
    }).designs[0]!
    nominal = at(design, 24, 0.0025)
  })

  test('takes a BZX55C12 behind 2k0 and meets', () => {
    expect(design.variant).toBe('plain diode')
    expect(partOf(design, 'D1').partNumber).toBe('BZX55C12')
    expect(partOf(design, 'R1').value).toBe(2000)
    expect(design.verdict).toBe('meets')
  })

  test('stands at 12.09 V, 3.46 mA and 42 mW in the diode, 71 mW in Rs, 143 mW in, 21 %', () => {
    expectNear(nominal.output, 12.09, 0.005)
    expectNear(Math.abs(nominal.currents['D1']![0]!), 3.46e-3, 0.03)
    expectNear(nominal.heat['D1'], 0.042, 0.03)
    expectNear(nominal.heat['R1'], 0.071, 0.03)
    expectNear(24 * nominal.inputCurrent, 0.143, 0.03)
    expectNear(nominal.efficiency, 0.21, 0.03)
  })

  test('moves 44 mV from 2 to 3 mA, settled', () => {
    expectNear(at(design, 24, 0.002).output - at(design, 24, 0.003).output, 0.044, 0.05)
  })

  // The band stated (11.14 to 13.24 V) is that of settled temperatures; ours counts the cold start as well, at 0 °C and 11.02 V.
  test('reaches 13.24 V at most; the unloaded diode takes 80 mW and the shorted Rs 0.32 W', () => {
    expectNear(design.figures!.output.highest, 13.24, 0.005)
    expect(design.figures!.output.lowest).toBeLessThan(11.14)
    expect(design.worst!['output.lowest']!.thermal).toBe('cold')
    expectNear(partOf(design, 'D1').stress['power'], 0.08, 0.03)
    expectNear(design.figures!.shortCircuit!.heat, 0.32, 0.03)
  })
})

describe('S2, series-pass: 18/24/30 V to 12 V within 15 %, 5/40/80 mA, 0/25/50 °C', () => {
  let comparison: Comparison
  let design: Design
  let nominal: Point
  beforeAll(() => {
    const study = checkStudy({
      format: 'wattfork-study',
      version: 1,
      title: 'hand-checked',
      requirements: {
        input: { min: 18, nominal: 24, max: 30 },
        output: { voltage: 12, tolerance: 0.15 },
        load: { min: 0.005, nominal: 0.04, max: 0.08 },
        ambient: { min: 0, nominal: 25, max: 50 },
      },
    })
    if (!study.ok) throw new Error('invalid')
    comparison = compare(study.study, { 'series-pass': { D1: '1N4743A', R1: 1300, Q1: 'BD139-10' } })
    design = comparison.designs[1]!
    nominal = at(design, 24, 0.04)
  })

  test('with a 1N4743A, 1k3 and a BD139 on 28 K/W: 12.46 V, 1.158 W in, 0.66 W of heat, 0.46 W in the pass transistor, 43 %', () => {
    expect(partOf(design, 'HS1').value).toBe(28)
    // 0.27 V lower here: our 1N4743A is taken to hold its voltage at 55 °C, as its sheet measures in thermal equilibrium.
    expectNear(nominal.output, 12.46, 0.03)
    expectNear(24 * nominal.inputCurrent, 1.158, 0.02)
    expectNear(
      Object.values(nominal.heat).reduce((a, b) => a + b, 0),
      0.66,
      0.04,
    )
    expectNear(nominal.heat['Q1'], 0.46, 0.03)
    expectNear(nominal.efficiency, 0.43, 0.03)
  })

  test('reaches from 11.02 to 13.70 V', () => {
    expectNear(design.figures!.output.lowest, 11.02, 0.03)
    expectNear(design.figures!.output.highest, 13.7, 0.03)
  })

  test('does not survive a short, and a plain shunt cannot take the heat', () => {
    expect(design.figures!.shortCircuit!.survives).toBe(false)
    expect(comparison.designs[0]!.verdict).toBe('falls-short')
  })
})

describe('S3, feedback: 9.5/12/15 V to 6 V within 3 %, 5/100/200 mA, -10/25/50 °C, E96', () => {
  let design: Design
  let nominal: Point
  beforeAll(() => {
    design = comparisonOf({
      input: { min: 9.5, nominal: 12, max: 15 },
      output: { voltage: 6, tolerance: 0.03 },
      load: { min: 0.005, nominal: 0.1, max: 0.2 },
      ambient: { min: -10, nominal: 25, max: 50 },
      parts: { resistorSeries: 'E96' },
    }).designs[2]!
    nominal = at(design, 12, 0.1)
  })

  test('takes an operational amplifier, a 2.5 V reference and 14k over 10k, and meets', () => {
    expect(design.variant).toBe('operational amplifier')
    expect(partOf(design, 'R1').value).toBe(14000)
    expect(partOf(design, 'R2').value).toBe(10000)
    expect(design.verdict).toBe('meets')
    expect(design.notEvaluated).toContain('loopStability')
  })

  test('stands at 6.000 V with 1.223 W in, 0.623 W of heat, 0.605 W in the pass transistor, 49 %', () => {
    expectNear(nominal.output, 6, 0.001)
    expectNear(12 * nominal.inputCurrent, 1.223, 0.02)
    expectNear(
      Object.values(nominal.heat).reduce((a, b) => a + b, 0),
      0.623,
      0.03,
    )
    expectNear(nominal.heat['Q1'], 0.605, 0.02)
    expectNear(nominal.efficiency, 0.49, 0.02)
  })

  test('asks at most 1.8 W of the pass transistor and moves less than 1 mV with the load', () => {
    expectNear(design.worst!['heat.worst']!.point.heat['Q1'], 1.8, 0.05)
    expect(design.figures!.loadRegulation.volts).toBeLessThan(1e-3)
  })

  test('works down to about 8.4 V of input, cold', () => {
    expectNear(design.figures!.minimumInput, 8.4, 0.05)
  })
})
