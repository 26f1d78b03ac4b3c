import { expect, test } from 'vitest'
import { referenceModel, REFERENCES, findReference } from '../../engine/parts/shunt-reference/index.ts'

// Sources: the regulation lines of onsemi LM285/D Rev.4 (2003), TI SNVS749F (2013) and TI SLOS456P (2025), as named in the rows; the
// LM4040 figures from memory of the sheet. None was used for the model, which rests on the dynamic impedance.
const REGULATION = [
  ['LM385Z-1.2', 1e-3, 20e-3, 20e-3],
  ['LM385BZ-2.5', 1e-3, 20e-3, 20e-3],
  ['LM336Z-2.5', 0.4e-3, 10e-3, 10e-3],
  ['LM4040A25IDBZ', 1e-3, 15e-3, 6e-3],
  ['LM4040A50IDBZ', 1e-3, 15e-3, 8e-3],
] as const

/** Volts by which a two-terminal model rises between two currents: y = ZD·(I - IKMIN), V = Vr + W·ln(e^(y/W) - 1), W = 0.2 mV. */
function riseOf(partNumber: string, from: number, to: number): number {
  const { ZD, IKMIN } = referenceModel(findReference(partNumber)!)
  const W = 0.2e-3
  const voltage = (current: number): number => W * Math.log(Math.expm1((ZD * (current - IKMIN)) / W))
  return voltage(to) - voltage(from)
}

test.each(REGULATION)('%s rises from %f A to %f A by no more than %f V', (partNumber, from, to, most) => {
  const rise = riseOf(partNumber, from, to)
  expect(rise).toBeLessThan(most)
  // And not by so much less that the model would flatter the part: typical parts use a tenth of the limit at least.
  expect(rise).toBeGreaterThan(most / 10)
})

test('at its knee the LM4040 is softer in the macro-model than on its sheet, by under 0.03 % of its voltage', () => {
  // TI SLOS456P, from memory: 0.3 mV typical, 0.8 mV at most from the minimum current to 1 mA. The macro-model's turn-on is 0.2 mV
  // wide for every part, so the last microamperes cost more than they should: 0.85 mV.
  const rise = riseOf('LM4040A25IDBZ', 75e-6, 1e-3)
  expect(rise).toBeGreaterThan(0.3e-3)
  expect(rise - 0.3e-3).toBeLessThan(0.0003 * 2.5)
})

/** Half of the grade's spread at 25 degC over nominal. */
function width(partNumber: string): number {
  const { vref } = REFERENCES.find((r) => r.partNumber === partNumber)!
  return (vref.max - vref.min) / 2 / vref.nominal
}

test('grades are as wide as their per cent', () => {
  // TI SLOS456P: A 0.1, B 0.2, C 0.5, D 1 %; Motorola TL431/D: B 0.5 %, A 1 %.
  for (const code of ['25', '41', '50']) {
    expect(width(`LM4040A${code}IDBZ`)).toBeCloseTo(0.001, 4)
    expect(width(`LM4040B${code}IDBZ`)).toBeCloseTo(0.002, 4)
    expect(width(`LM4040C${code}IDBZ`)).toBeCloseTo(0.005, 3)
    expect(width(`LM4040D${code}IDBZ`)).toBeCloseTo(0.01, 3)
  }
  expect(width('TL431BCLP')).toBeCloseTo(0.005, 3)
  expect(width('TL431ACLP')).toBeCloseTo(0.01, 3)
})
