/** Conservation of power is the check: what enters is what leaves. Data are invented. */
import { describe, expect, it } from 'vitest'
import { designColumns } from '../../../web/charts/columns.ts'
import { balanceAt, largestInput } from '../../../web/panels/flow/balance.ts'
import { flowShapes, FULL_THICKNESS, HAIRLINE, scaleFor, TOP, WIDTH } from '../../../web/panels/flow/geometry.ts'
import { keyWatts } from '../../../web/panels/lane/flowKey.ts'
import { sampleAnswer } from '../../fixtures/answers/sample.ts'

const answer = sampleAnswer()
const columns = designColumns(answer)
/** Half of what is drawn of a strand: hairlines are thicker than their watts. */
const half = (thickness: number) => Math.max(thickness, HAIRLINE) / 2
const scale = scaleFor(largestInput(columns, 8.6, 13.8))

describe('balance', () => {
  it('splits the input power into the load and the heat of every part', () => {
    const [shunt] = columns
    const balance = balanceAt(shunt!, 11)!
    const heat = balance.strands.reduce((sum, { watts }) => sum + watts, 0)
    expect(balance.load + heat).toBeCloseTo(balance.input, 12)
    // straight from the curves, at a swept point
    const { axis, columns: curve } = answer.curves[0]!.byInput
    const i = axis.findIndex((v) => v >= 11)
    const at = balanceAt(shunt!, axis[i]!)!
    expect(at.input).toBeCloseTo(axis[i]! * curve['inputCurrent']![i]!, 12)
    expect(at.load).toBeCloseTo(curve['output']![i]! * 0.12, 12)
  })
  it('puts the parts beyond the third together and loses none of their heat', () => {
    const feedback = columns[2]!
    expect(feedback.shares.map(({ label }) => label)).toEqual(['Q1', 'R4', 'U1', '4 others'])
    const { columns: curve } = answer.curves[2]!.byInput
    expect(feedback.input['stack3']![50]).toBeCloseTo(curve['heat']![50]!, 12)
  })
  it('is undefined outside the sweep and beside a failed point', () => {
    const failed = sampleAnswer()
    const { byInput } = failed.curves[1]!
    for (const column of Object.values(byInput.columns)) column[40] = Number.NaN
    byInput.outcome[40] = 1
    const [, seriesPass] = designColumns(failed)
    expect(balanceAt(seriesPass!, byInput.axis[40]!)).toBeUndefined()
    expect(balanceAt(seriesPass!, byInput.axis[39]! + 0.01)).toBeUndefined()
    expect(balanceAt(seriesPass!, byInput.axis[39]!)).toBeDefined()
    expect(balanceAt(seriesPass!, 99)).toBeUndefined()
  })
})

describe('flow geometry', () => {
  const volts = [8.6, 9.9, 11, 13.8]
  const cases = columns.flatMap((design) => volts.map((v) => [design.topology, v, balanceAt(design, v)!] as const))

  it.each(cases)('%s at %s V: thicknesses add up to the input', (_name, _v, balance) => {
    const { load, strands } = flowShapes(balance, scale)
    const total = strands.reduce((sum, { thickness }) => sum + thickness, load.thickness)
    expect(total).toBeCloseTo(balance.input * scale, 9)
    expect(total).toBeLessThanOrEqual(FULL_THICKNESS + 1e-9)
  })
  it.each(cases)('%s at %s V: strands touch at the gate and none cross', (_name, _v, balance) => {
    const { load, strands } = flowShapes(balance, scale)
    let edge = TOP + load.thickness
    for (const strand of strands) {
      expect(strand.top).toBeCloseTo(edge, 9)
      edge += strand.thickness
    }
    for (const [i, upper] of strands.entries()) {
      const lower = strands[i + 1]
      if (!lower) continue
      // the upper one turns down to the right of all that lies below it
      expect(upper.centre - half(upper.thickness)).toBeGreaterThan(lower.centre + half(lower.thickness))
      expect(upper.watts).toBeGreaterThanOrEqual(lower.watts)
    }
    const rightmost = strands[0]!
    expect(rightmost.centre + rightmost.thickness / 2).toBeLessThan(WIDTH)
  })
  it('draws one watt equally thick in every design', () => {
    for (const [, , balance] of cases) {
      const { strands } = flowShapes(balance, scale)
      for (const { thickness, watts } of strands) expect(thickness).toBeCloseTo(watts * scale, 12)
    }
  })
  it('draws a hairline where a strand is thinner than one, and keeps its label', () => {
    const { strands } = flowShapes(balanceAt(columns[2]!, 11)!, scale)
    const thin = strands.filter(({ isHairline }) => isHairline)
    expect(thin.map(({ label }) => label)).toContain('U1')
    for (const { thickness } of thin) expect(thickness).toBeLessThan(HAIRLINE)
  })
  it('survives no watts at all', () => {
    expect(scaleFor(0)).toBe(0)
    const { strands } = flowShapes({ input: 0, load: 0, strands: [{ label: 'R1', watts: 0, shade: 0 }] }, 0)
    expect(strands[0]!.path).not.toContain('NaN')
    expect(keyWatts(0)).toBe(0)
  })
  it('keys a round number of watts that is thick enough to see', () => {
    expect(keyWatts(12)).toBe(2)
    expect(keyWatts(14)).toBe(1)
    expect(keyWatts(400)).toBe(0.05)
  })
})
