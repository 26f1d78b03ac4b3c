/**
 * Failure rates against MIL-HDBK-217F Notice 2 (28 February 1995): printed table values beside the equations that they were
 * made from, and worked examples. The handbook was read in transcriptions, not in its print.
 */
import { describe, expect, it } from 'vitest'
import { capacitorSheet } from '../../engine/analyses/reliability/capacitor.ts'
import { diodeSheet } from '../../engine/analyses/reliability/diode.ts'
import { circuitSheet } from '../../engine/analyses/reliability/linearCircuit.ts'
import { resistorSheet } from '../../engine/analyses/reliability/resistor.ts'
import type { Sheet } from '../../engine/analyses/reliability/sheet.ts'
import { transistorSheet } from '../../engine/analyses/reliability/transistor.ts'

const GB = 'ground-benign'
const GF = 'ground-fixed'

const resistor = (use: Partial<Parameters<typeof resistorSheet>[0]>): Sheet =>
  resistorSheet({ style: 'film', temperature: 25, power: 1, rated: 1, quality: 'military', environment: GB, ...use })
const capacitor = (use: Partial<Parameters<typeof capacitorSheet>[0]>): Sheet =>
  capacitorSheet({
    style: 'electrolytic',
    temperature: 25,
    farads: 1e-6,
    voltage: 0,
    rated: 1,
    quality: 'military',
    environment: GB,
    ...use,
  })
const transistor = (use: Partial<Parameters<typeof transistorSheet>[0]>): Sheet =>
  transistorSheet({ temperature: 25, rated: 1, voltage: 0, vceo: 1, quality: 'military', environment: GB, ...use })
const diode = (use: Partial<Parameters<typeof diodeSheet>[0]>): Sheet =>
  diodeSheet({ temperature: 25, quality: 'military', environment: GB, ...use })

const factor = ({ factors }: Sheet, symbol: string): number => factors.find((f) => f.symbol === symbol)!.value

/** Half a unit in the last digit printed. */
const within = (printed: string): number => 0.5 * 10 ** -(printed.split('.')[1]?.length ?? 0)
const expectPrinted = (value: number, printed: string) =>
  expect(Math.abs(value - Number(printed)), `${value} for ${printed}`).toBeLessThanOrEqual(within(printed) + 1e-12)

describe('table values of the handbook', () => {
  // [what, the printed figure, what the equation gives to three figures, ours]
  it.each([
    [
      'π_T of resistors, column 1, 70 °C',
      '2.8',
      '2.78',
      factor(resistor({ style: 'composition', temperature: 70 }), 'π_T'),
    ],
    ['π_T of resistors, column 2, 70 °C', '1.5', '1.50', factor(resistor({ temperature: 70 }), 'π_T')],
    ['π_S of resistors, column 1, half the rating', '1.2', '1.23', factor(resistor({ power: 0.5 }), 'π_S')],
    [
      'π_S of resistors, column 2, half the rating',
      '1.5',
      '1.50',
      factor(resistor({ style: 'wirewound', power: 0.5 }), 'π_S'),
    ],
    ['π_P of 0.125 W', '0.44', '0.444', factor(resistor({ power: 0.125 }), 'π_P')],
    ['π_V of capacitors, column 1, 0.8', '5.2', '5.21', factor(capacitor({ voltage: 0.8 }), 'π_V')],
    ['π_V of capacitors, column 3, 0.5', '1.6', '1.58', factor(capacitor({ style: 'ceramic', voltage: 0.5 }), 'π_V')],
    ['π_C of capacitors, column 2, 40 µF', '2.3', '2.34', factor(capacitor({ farads: 40e-6 }), 'π_C')],
    ['π_T of capacitors, column 2, 70 °C', '6.0', '5.98', factor(capacitor({ temperature: 70 }), 'π_T')],
  ])('%s is %s, %s by the equation', (_, printed, exact, ours) => {
    expectPrinted(ours, printed)
    expectPrinted(ours, exact)
  })

  it.each([
    ['π_T of resistors, column 1, 125 °C', '7.08', factor(resistor({ style: 'composition', temperature: 125 }), 'π_T')],
    ['π_P of 1 W', '1.0', factor(resistor({ power: 1 }), 'π_P')],
    ['π_T of a reference diode at 100 °C', '3.67', factor(diode({ temperature: 100 }), 'π_T')],
    ['π_T of a reference diode at 150 °C', '6.75', factor(diode({ temperature: 150 }), 'π_T')],
    ['π_T of a transistor at 100 °C', '4.16', factor(transistor({ temperature: 100 }), 'π_T')],
    ['π_S of a transistor at half its voltage', '0.212', factor(transistor({ voltage: 0.5 }), 'π_S')],
    ['π_R of a transistor rated 40 W', '3.92', factor(transistor({ rated: 40 }), 'π_R')],
  ])('%s is %s', (_, printed, ours) => expectPrinted(ours, printed))

  it('π_P of 10 W is printed as 2.5 where the equation gives 2.45', () => {
    const ours = factor(resistor({ power: 10, rated: 10 }), 'π_P')
    expectPrinted(ours, '2.45')
    expectPrinted(ours, '2.5')
  })
})

describe('worked examples, failures in 10⁶ hours', () => {
  it.each([
    [
      'a film resistor, 0.25 W of 0.5 W, 70 °C, level M, ground benign',
      '0.00399',
      resistor({ temperature: 70, power: 0.25, rated: 0.5 }),
    ],
    [
      'a wirewound resistor, 2 W of 5 W, 125 °C, commercial, ground fixed',
      '0.336',
      resistor({ style: 'wirewound', temperature: 125, power: 2, rated: 5, quality: 'commercial', environment: GF }),
    ],
    [
      'an aluminium electrolytic of 100 µF at half its voltage, 70 °C, commercial, ground benign',
      '0.029',
      capacitor({ temperature: 70, farads: 100e-6, voltage: 0.5, quality: 'commercial' }),
    ],
    ['a reference diode at 100 °C, JANTX, bonded, ground benign', '0.00733', diode({ temperature: 100 })],
    ['the same in plastic, ground fixed', '0.352', diode({ temperature: 100, quality: 'commercial', environment: GF })],
    [
      'a pass transistor rated 40 W, linear, half its voltage, 100 °C, plastic, ground benign',
      '0.0307',
      transistor({ temperature: 100, rated: 40, voltage: 0.5, quality: 'commercial' }),
    ],
    [
      'an operational amplifier to 100 transistors, 8 pins, 70 °C, commercial, ground benign, mature',
      '0.294',
      circuitSheet({ temperature: 70, pins: 8, transistors: 100, quality: 'commercial', environment: GB }),
    ],
  ])('%s: %s', (_, printed, { perMillionHours }) => expectPrinted(perMillionHours, printed))
})

describe('what other transcriptions have wrong', () => {
  it('does not give a reference diode the temperature constant of the general-purpose diodes', () => {
    // exp(3091 (1/298 - 1/373)) = 8.05: the two constants are swapped in one transcription
    expect(factor(diode({ temperature: 100 }), 'π_T')).toBeLessThan(4)
  })

  it('gives a reference diode no stress factor: one transcription does', () => {
    expect(factor(diode({}), 'π_S')).toBe(1)
  })

  it('does not take 0.13 W for the line of 0.125 W: the equation gives 0.451 there', () => {
    const ours = factor(resistor({ power: 0.13 }), 'π_P')
    expectPrinted(ours, '0.451')
    expect(Math.abs(ours - 0.44)).toBeGreaterThan(0.005)
  })

  it('has the consolidated model of Notice 2: the base rate of a resistor does not move with temperature or load', () => {
    const rates = [resistor({ temperature: 25, power: 0.1 }), resistor({ temperature: 125, power: 1 })].map((sheet) =>
      factor(sheet, 'λ_b'),
    )
    expect(rates).toEqual([0.0037, 0.0037])
  })

  it('refuses a linear circuit beyond the largest class of the table', () => {
    expect(() =>
      circuitSheet({ temperature: 25, pins: 8, transistors: 10_001, quality: 'commercial', environment: GB }),
    ).toThrow(/10001/)
  })
})

describe('the sheet', () => {
  it('multiplies to its rate, prints the equation and the numbers that went in', () => {
    const sheet = resistor({ temperature: 70, power: 0.25, rated: 0.5 })
    expect(sheet.factors.reduce((product, { value }) => product * value, 1)).toBeCloseTo(sheet.perMillionHours, 15)
    expect(sheet.formula).toBe('λ_b · π_T · π_P · π_S · π_Q · π_E')
    expect(sheet.factors.find(({ symbol }) => symbol === 'π_P')).toMatchObject({
      formula: 'P^0.39',
      substituted: '0.2500^0.39',
    })
  })

  it('marks what is from memory and what is our assumption', () => {
    const { factors } = circuitSheet({
      temperature: 70,
      pins: 8,
      transistors: 20,
      quality: 'commercial',
      environment: GB,
    })
    const marked = factors.filter(({ confidence }) => confidence !== 'read')
    expect(marked.map(({ symbol, confidence }) => [symbol, confidence])).toEqual([
      ['C_1', 'assumption'],
      ['π_T', 'memory'],
      ['π_Q', 'memory'],
    ])
  })
})
