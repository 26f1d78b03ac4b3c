/**
 * Every transistor model in use against its own data sheet: gain over current and temperature, VBE and its slope,
 * saturation. The sheets are named by the rows (`source`); typical values were read from plots to about ±10 %.
 */
import { describe, expect, test } from 'vitest'
import {
  findTransistor,
  TRANSISTORS,
  type TransistorModel,
  type TransistorRow,
  vbeAt,
} from '../../engine/parts/index.ts'
import { outlierPair, outliers } from '../fixtures/transistor-models/cards.ts'
import { type Allowance, brokenLimits, compareTypical, misses } from './transistor-sheets.ts'

/**
 * Gain at 25 °C: the reading error of 10 % and half as much for the curve's shape. Elsewhere: the published equations move
 * gain over temperature by nearly one factor at all currents, the plotted curves do not. VBE 30 mV, of which 10 mV reading
 * error. Slope: 0.3 mV/K. VCEsat: 0.12 V, the
 * resolution of those plots at their low end, or 20 %.
 */
const USUAL: Allowance = { gain: 0.15, gainElsewhere: 0.3, vbe: 0.03, slope: 0.0003, saturation: 0.12 }

const ALLOWANCES: Readonly<Record<string, Allowance>> = {
  // its normalised curve was scaled by an assumed 200 at 10 mA: ±15 % by itself
  '2N3904': { ...USUAL, gain: 0.25 },
}

/**
 * VBE at the gain group's test point for the sheets that print no typical value, V: from memory of such silicon, wide.
 */
const VBE_FROM_MEMORY: Readonly<Record<string, readonly [Ic: number, volts: number]>> = {
  'BC337-16': [0.1, 0.75],
  'BC337-25': [0.1, 0.75],
  'BC337-40': [0.1, 0.75],
  'BD139-10': [0.15, 0.72],
  'BD139-16': [0.15, 0.72],
  P2N2222A: [0.15, 0.8],
}

/** Everything that is wrong with a model, in the words of the row's sheet. */
function complaints(row: TransistorRow, model: TransistorModel): string[] {
  const found = [
    ...misses(compareTypical(row, model, ALLOWANCES[row.partNumber] ?? USUAL)),
    ...brokenLimits(row, model),
  ]
  const known = VBE_FROM_MEMORY[row.partNumber]
  if (known) {
    const [Ic, volts] = known
    const vbe = vbeAt(model, Ic, 2, 25)
    if (!(Math.abs(vbe - volts) <= 0.06)) found.push(`VBE at ${Ic} A: ${vbe}, silicon of this size has ${volts}`)
  }
  return found
}

describe.each(TRANSISTORS.map((row) => [row.partNumber, row] as const))('%s', (_, row) => {
  test(`the model meets its sheet (${row.source})`, () => {
    expect(complaints(row, row.model)).toEqual([])
  })

  test('the model has a finite Early voltage, knee current and base leakage', () => {
    for (const m of 'driver' in row.model ? [row.model.driver, row.model.output] : [row.model]) {
      for (const value of [m.VAF, m.IKF, m.ISE]) {
        expect(value).toBeGreaterThan(0)
        expect(value).toBeLessThan(Infinity)
      }
    }
  })
})

test('the sheets of the fitted power transistors are compared at three temperatures and at many points', () => {
  for (const name of ['TIP31C', 'TIP41C', 'MJE3055T', '2N3055']) {
    const row = findTransistor(name)!
    const compared = compareTypical(row, row.model, USUAL)
    expect(compared.length).toBeGreaterThanOrEqual(18)
    for (const Tj of [-55, 25, 150])
      expect(compared.filter((c) => c.what.includes(` ${Tj} °C`)).length).toBeGreaterThan(1)
  }
})

// Cards of public libraries that miss their own sheets: whoever puts one in its row's place must be told.
test.each([
  ['BC337-25', outliers.BC337],
  ['TIP31C', outliers.TIP31C],
  ['MJE3055T', outliers.MJE3055T],
  ['2N3055', outliers.Q2N3055],
  ['2N3055', outliers.Q2N3055ST],
  ['TIP120', outlierPair],
  ['TIP122', outlierPair],
])('a published card of the %s that misses the sheet would be found out', (name, card) => {
  expect(complaints(findTransistor(name)!, card).length).toBeGreaterThan(0)
})

test('a BD139 whose VBE is a quarter of a volt low, as one public card has it, would be found out', () => {
  const row = findTransistor('BD139-16')!
  if ('driver' in row.model) throw new Error('a BD139 is one transistor')
  const shift = Math.exp(0.25 / 0.025693)
  const low = { ...row.model, IS: row.model.IS * shift, ISE: row.model.ISE! * shift ** (1 / row.model.NE!) }
  expect(complaints(row, low)).toEqual([expect.stringMatching(/^VBE at 0.15 A: 0.4/)])
})

test('at large currents the slope of VBE errs to the steep side and by less than 0.8 mV/K', () => {
  // the ohmic drop of silicon grows with temperature, that of the model does not; onsemi TIP31A/D and TIP41A/D, both at 3 A
  for (const name of ['TIP31C', 'TIP41C']) {
    const row = findTransistor(name)!
    const p = row.points.dVBEdT.find((point) => point.Ic === 3)!
    const slope = (vbeAt(row.model, 3, 2, 150) - vbeAt(row.model, 3, 2, 25)) / 125
    expect(slope).toBeLessThan(p.typ)
    expect(slope).toBeGreaterThan(p.typ - 0.0008)
  }
})
