import { describe, expect, test } from 'vitest'
import {
  compileFormula,
  dimensionOfFormula,
  parseFormula,
  printFormula,
  printSubstituted,
} from '../../../engine/formula/index.ts'
import { dimensionOf, unitOf } from '../../../engine/units/index.ts'

const printed = (text: string) => printFormula(parseFormula(text).tree)

function value(text: string, numbers: Record<string, number> = {}): number {
  const formula = parseFormula(text)
  const names = Object.keys(numbers)
  return compileFormula(formula, (symbol) => names.indexOf(symbol))(Float64Array.from(Object.values(numbers)))
}

describe('parseFormula', () => {
  test('lists each symbol once, in order of appearance', () => {
    expect(parseFormula('(Vin_min - Vz_hi) / (Iz_min + Vin_min)').symbols).toEqual(['Vin_min', 'Vz_hi', 'Iz_min'])
  })

  test('gives a tree of plain data', () => {
    const { tree } = parseFormula('par(R1, 2.5e3) - -x')
    expect(structuredClone(tree)).toEqual({
      is: 'op',
      op: '-',
      left: {
        is: 'call',
        name: 'par',
        args: [
          { is: 'symbol', name: 'R1' },
          { is: 'number', value: 2500 },
        ],
      },
      right: { is: 'negate', of: { is: 'symbol', name: 'x' } },
    })
  })

  test.each([
    ['-x^2', /minus sign before a power/u],
    ['a * -Vz^2', /minus sign before a power/u],
    ['-2^2', /minus sign before a power/u],
    ['foo(1)', /calls foo/u],
    ['sin(x)', /calls sin/u],
    ['constructor(x)', /calls constructor/u],
    ['(a)(b)', /calls a/u],
    ['min', /function min as a symbol/u],
    ['min(1)', /gives min 1 arguments/u],
    ['sqrt(a, b)', /gives sqrt 2 arguments/u],
    ['exp()', /gives exp 0 arguments/u],
    ['a.b', /not read/u],
    ['a[0]', /may hold/u],
    ['"a"', /may hold/u],
    ['a = 1', /may hold/u],
    ['a ? b : c', /may hold/u],
    ['a ** b', /may hold/u],
    ['a % b', /may hold/u],
    ['a && b', /may hold/u],
    ['!a', /may hold/u],
    ['a; b', /may hold/u],
    ['+a', /the sign \+/u],
    ['a b', /without an operator/u],
    ['(a, b)', /not read/u],
    [',a', /comma outside/u],
    ['a,', /comma outside/u],
    ['(,a)', /comma outside/u],
    ['', /is empty/u],
    ['()', /engine\/formula/u],
    ['(a', /cannot be read/u],
    ['a +', /cannot be read/u],
    ['2x', /cannot be read/u],
    ['1e999', /not a finite number/u],
    ['true', /not a finite number/u],
    ['this', /not read/u],
    [`a${'+a'.repeat(600)}`, /longer than/u],
  ])('refuses %s', (text, why) => {
    expect(() => parseFormula(text)).toThrow(why)
  })

  test('leaves the parser library as it was for others', async () => {
    const { default: jsep } = await import('jsep')
    const before = structuredClone([jsep.binary_ops, jsep.unary_ops, jsep.literals])
    parseFormula('a^2 + par(b, c)')
    expect([jsep.binary_ops, jsep.unary_ops, jsep.literals]).toEqual(before)
  })
})

describe('compileFormula', () => {
  // by hand
  test.each([
    ['2 + 3 * 4', 14],
    ['2 - 3 - 4', -5],
    ['16 / 4 / 2', 2],
    ['2^3^2', 512],
    ['2^-1', 0.5],
    ['-(3^2)', -9],
    ['0 - 3^2', -9],
    ['par(1000, 1000)', 500],
    ['par(30, 30, 30)', 10],
    ['par(0, 50)', 0],
    ['par(50, 1/0)', 50],
    ['min(3, 1, 2) + max(3, 1, 2)', 4],
    ['sqrt(9) + abs(-2)', 5],
    ['ln(exp(2))', 2],
  ])('%s is %d', (text, expected) => {
    expect(value(text)).toBeCloseTo(expected, 12)
  })

  test('reads symbols from their slots and follows the values', () => {
    const formula = parseFormula('(Vin - Vz) / (Iz + IL)')
    const evaluate = compileFormula(formula, (symbol) => ['Vin', 'Vz', 'Iz', 'IL'].indexOf(symbol))
    const values = Float64Array.of(9, 5, 0.001, 0.003)
    expect(evaluate(values)).toBe(1000)
    values[0] = 13
    expect(evaluate(values)).toBe(2000)
  })

  test('a symbol without a slot is an error of ours', () => {
    expect(() => compileFormula(parseFormula('a + b'), (symbol) => (symbol === 'a' ? 0 : -1))).toThrow(/no slot for b/u)
  })

  test('what cannot be calculated is NaN or infinite, not an exception', () => {
    expect(value('sqrt(0 - 1)')).toBeNaN()
    expect(value('1 / x', { x: 0 })).toBe(Infinity)
    expect(value('x + 1', { x: NaN })).toBeNaN()
  })
})

describe('dimensionOfFormula', () => {
  const units: Record<string, string> = {
    V: 'V',
    I: 'A',
    R: 'Ω',
    P: 'W',
    C: 'F',
    f: 'Hz',
    T: '°C',
    Tk: 'K',
    th: 'K/W',
    tc: 'V/K',
    h: '1',
  }
  const unit = (text: string) =>
    unitOf(dimensionOfFormula(parseFormula(text), (symbol) => dimensionOf(units[symbol] ?? '?')))

  test.each([
    ['(V - V) / (I + I)', 'Ω'],
    ['V * I', 'W'],
    ['V^2 / R', 'W'],
    ['I^2 * R', 'W'],
    ['par(R, R)', 'Ω'],
    ['sqrt(P * R)', 'V'],
    ['1 / (R * C)', 'Hz'],
    ['f * R * C', '1'],
    ['T + P * th', 'K'],
    ['V + tc * (T - Tk)', 'V'],
    ['max(0, I)', 'A'],
    ['I - 0', 'A'],
    ['abs(-V)', 'V'],
    ['exp(V / V) + ln(h)', '1'],
    ['h^0.3', '1'],
    ['h^h', '1'],
    ['V^(4/2)', 'V²'],
    ['V^-1', '1/V'],
  ])('%s is in %s', (text, expected) => {
    expect(unit(text)).toBe(unitOf(dimensionOf(expected)))
  })

  test.each([
    ['V + I', /adds V \(V\) and I \(A\)/u],
    ['V - R * I * I', /subtracts V \(V\) and R · I · I \(/u],
    ['V + 1', /adds V \(V\) and 1 \(no unit\)/u],
    ['min(V, V, I)', /passes to min V \(V\) and I \(A\)/u],
    ['par(R, V)', /passes to par/u],
    ['exp(V)', /exp of V \(V\), which must be a plain number/u],
    ['ln(V)', /ln of V/u],
    ['sqrt(V)', /not whole/u],
    ['V^0.5', /not whole/u],
    ['V^(1/3)', /not whole/u],
    ['V^h', /must be a fixed number/u],
    ['h^V', /the power V \(V\)/u],
  ])('%s does not fit', (text, why) => {
    expect(() => unit(text)).toThrow(why)
  })
})

describe('printFormula', () => {
  test.each([
    ['(Vin_min-Vz_hi)/(Iz_min+Iout_max)', '(Vin_min − Vz_hi) / (Iz_min + Iout_max)'],
    ['((a)+((b*c)))', 'a + b · c'],
    ['a-(b-c)', 'a − (b − c)'],
    ['a-(b+c)-d', 'a − (b + c) − d'],
    ['a/(b*c)', 'a / (b · c)'],
    ['a/b/c', 'a / b / c'],
    ['(a+b)*c', '(a + b) · c'],
    ['-(a+b)', '−(a + b)'],
    ['a - -b', 'a − (−b)'],
    ['a*-b', 'a · (−b)'],
    ['-a*b', '−a · b'],
    ['-(x^2)', '−x²'],
    ['(a+b)^2', '(a + b)²'],
    ['x^-1', 'x^(−1)'],
    ['x^0.5', 'x^0.5'],
    ['(a^b)^c', '(a^b)^c'],
    ['par(R1, R2+R3)', '(R1 ∥ (R2 + R3))'],
    ['sqrt(P*R)', '√(P · R)'],
    ['abs(a-b)', '|a − b|'],
    ['max(0, ln(a))', 'max(0, ln(a))'],
    ['1e-3 * I', '0.001 · I'],
  ])('%s prints as %s', (text, expected) => {
    expect(printed(text)).toBe(expected)
  })

  test('numbers put in keep their units and are bracketed where a sign or a power would mislead', () => {
    const numbers: Record<string, string> = {
      Vin: '8.50 V',
      Vz: '5.23 V',
      Iz: '5.00 mA',
      IL: '60.0 mA',
      tc: '−2.00 mV/K',
      T: '25 °C',
    }
    const put = (text: string) => printSubstituted(parseFormula(text).tree, (symbol) => numbers[symbol] ?? '?')
    expect(put('(Vin - Vz) / (Iz + IL)')).toBe('(8.50 V − 5.23 V) / (5.00 mA + 60.0 mA)')
    expect(put('Vin - tc * T')).toBe('8.50 V − (−2.00 mV/K) · 25 °C')
    expect(put('tc * T')).toBe('−2.00 mV/K · 25 °C')
    expect(put('Vin^2 / 4')).toBe('(8.50 V)² / 4')
    expect(put('-tc')).toBe('−(−2.00 mV/K)')
  })
})
