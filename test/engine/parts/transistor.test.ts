import { describe, expect, test } from 'vitest'
import {
  dcBeta,
  findTransistor,
  gainCorners,
  largestGain,
  leakageCorner,
  leastGain,
  placeTransistor,
  powerShare,
  saturationVoltage,
  secondBreakdownShare,
  soaCurrent,
  TRANSISTORS,
  vbeOf,
  transistors,
  transistorTolerances,
  vbeAt,
  type TransistorRow,
} from '../../../engine/parts/index.ts'
import { risingRoot } from '../../../engine/parts/transistor/root.ts'

/** Part numbers of the rows that a claim does not hold for. */
const exceptions = (holds: (r: TransistorRow) => boolean): string[] =>
  TRANSISTORS.filter((r) => !holds(r)).map((r) => r.partNumber)

/** Positive up to 2, valueless outside 1..3. */
const parabola = (x: number): number => (x < 1 ? -Infinity : x > 3 ? Infinity : x * x - 4)

const areaFalls = (r: TransistorRow): boolean =>
  r.safeArea.every((p, k) => p.Vce <= r.VCEO && (k === 0 || p.Ic < r.safeArea[k - 1]!.Ic))

/** Corners are read from plots to 10 %. */
const areaStartsOnPower = (r: TransistorRow): boolean =>
  r.safeArea.slice(0, 1).every((p) => Math.abs((p.Vce * p.Ic) / r.Pcase! - 1) < 0.1)

/** Least gain at a twentieth of IC,max. */
const gainAt = (r: TransistorRow, Tj: number): number => leastGain(r, r.Ic_max / 20, 5, Tj)

const row = (partNumber: string): TransistorRow => {
  const found = findTransistor(partNumber)
  if (!found) throw new Error(`no ${partNumber}`)
  return found
}

describe('the rows', () => {
  test('part numbers are unique and every row says where it is from', () => {
    expect(new Set(TRANSISTORS.map((r) => r.partNumber)).size).toBe(TRANSISTORS.length)
    expect(exceptions((r) => /\d{4}|India/.test(r.source) && r.modelNote.length > 40)).toEqual([])
  })

  test('case power, RthJC and the largest junction temperature agree within 3 %', () => {
    expect(exceptions((r) => Math.abs((r.Tj_max - 25) / r.thetaJC! / r.Pcase! - 1) < 0.03)).toEqual([])
  })

  test('the safe area falls with voltage, ends within VCEO and starts on the power hyperbola', () => {
    expect(exceptions(areaFalls)).toEqual([])
    expect(exceptions(areaStartsOnPower)).toEqual([])
  })

  test('the groups of one type differ in gain alone', () => {
    const [lesser, greater] = [row('BD139-10'), row('BD139-16')]
    expect(dcBeta(greater.model, 0.15, 2, 25) / dcBeta(lesser.model, 0.15, 2, 25)).toBeCloseTo(
      Math.sqrt((100 * 250) / (63 * 160)),
      3,
    )
    expect(vbeAt(greater.model, 0.01, 2, 25)).toBeCloseTo(vbeAt(lesser.model, 0.01, 2, 25), 3)
  })
})

describe('the safe operating area', () => {
  // BD139: 1.5 A, 12.5 W, 21 V at 0.6 A and 60 V at 83 mA at TC 25 °C (ST BD135 sheet of May 2008); worked by hand
  const bd139 = row('BD139-16')

  test.each([
    [5, 25, 1.5],
    [15, 25, 12.5 / 15],
    [60, 25, 0.083],
    [40, 25, 0.6 * (40 / 21) ** (Math.log(0.083 / 0.6) / Math.log(60 / 21))],
    [15, 100, (12.5 * 0.4) / 15],
    [60, 100, 0.083 * 0.64],
    [15, 150, 0],
    [81, 25, 0],
  ])('a BD139 at %d V and a case at %d °C may carry %d A', (vce, caseTemperature, amperes) => {
    expect(soaCurrent(bd139, vce, caseTemperature)).toBeCloseTo(amperes, 9)
  })

  test('a cold case is worth no more than one at 25 °C', () => {
    expect(soaCurrent(bd139, 15, -40)).toBe(soaCurrent(bd139, 15, 25))
  })

  test('a thermal corner is not undercut by the branch carried on below it', () => {
    expect(soaCurrent(row('TIP31C'), 30, 25)).toBeCloseTo(40 / 30, 9)
  })

  test('second breakdown keeps 40 % at 150 °C, power nothing', () => {
    expect(secondBreakdownShare(150)).toBeCloseTo(0.4, 12)
    expect(powerShare(bd139, 150)).toBe(0)
    expect(powerShare(row('2N3055'), 112.5)).toBe(0.5)
  })
})

describe('placing', () => {
  test('an NPN leaks from collector to base, nominally nothing', () => {
    const { elements } = placeTransistor(row('BC337-25'), 'Q3', ['a', 'b', 'c'])
    expect(elements.map((e) => [e.id, e.kind, e.nodes, e.part])).toEqual([
      ['Q3', 'npn', ['a', 'b', 'c'], 'Q3'],
      ['Q3.leakage', 'current-source', ['a', 'b'], 'Q3'],
    ])
    expect(elements[1]).toMatchObject({ value: 0, doublesEvery: 10, tnom: 25 })
  })

  test('a PNP leaks from base to collector', () => {
    const { elements } = placeTransistor({ ...row('BC337-25'), polarity: 'pnp' }, 'Q3', ['a', 'b', 'c'])
    expect(elements.map((e) => [e.kind, e.nodes])).toEqual([
      ['pnp', ['a', 'b', 'c']],
      ['current-source', ['b', 'a']],
    ])
  })

  test('a Darlington is one part of five elements, the output transistor first', () => {
    const { elements } = placeTransistor(row('TIP122'), 'Q1', ['c', 'b', 'e'])
    expect(elements.map((e) => [e.id, e.nodes])).toEqual([
      ['Q1.output', ['c', 'Q1.inner', 'e']],
      ['Q1.driver', ['c', 'b', 'Q1.inner']],
      ['Q1.Rbe1', ['b', 'Q1.inner']],
      ['Q1.Rbe2', ['Q1.inner', 'e']],
      ['Q1.leakage', ['c', 'b']],
    ])
    expect(elements.every((e) => e.part === 'Q1')).toBe(true)
  })

  test('every tolerance bears on elements of the part, and only leakage is one-sided', () => {
    for (const r of TRANSISTORS) {
      const ids = new Set(placeTransistor(r, 'Q1', ['c', 'b', 'e']).elements.map((e) => e.id))
      const tolerances = transistorTolerances(r, 'Q1')
      expect(tolerances.map((t) => t.id)).toEqual(['Q1.hFE', 'Q1.VBE', 'Q1.leakage'])
      for (const effect of tolerances.flatMap((t) => t.effects)) {
        expect(ids).toContain(effect.element)
        const sides = effect.how === 'scale' ? [effect.low < 1, effect.high < 1] : [effect.low > 0, effect.high > 0]
        expect(sides.filter(Boolean)).toHaveLength(1)
      }
    }
  })
})

describe('corners', () => {
  test('every nominal gain lies between its corners', () => {
    expect(exceptions((r) => gainCorners(r).low < 1 && gainCorners(r).high > 1)).toEqual([])
  })

  test('the low corner has no more than the guaranteed minimum at any point below three quarters of IC,max', () => {
    const broken = TRANSISTORS.filter((r) => r.gainGroup === undefined).flatMap((r) => {
      // minima below the voltage of the point with a maximum are of quasi-saturation
      const top = Math.max(...r.points.hFE.filter((p) => p.max !== undefined).map((p) => p.Vce), 0)
      return r.points.hFE
        .filter((p) => p.min !== undefined && p.Ic <= 0.75 * r.Ic_max && p.Vce >= top)
        .filter((p) => !(leastGain(r, p.Ic, p.Vce, p.Tj) <= p.min! * 1.0001))
        .map((p) => `${r.partNumber} at ${p.Ic} A`)
    })
    expect(broken).toEqual([])
  })

  test('a gain group is judged by its own point: a BD139-16 has 100 to 250 at 150 mA', () => {
    expect(leastGain(row('BD139-16'), 0.15, 2, 25)).toBeCloseTo(100, 4)
    expect(largestGain(row('BD139-16'), 0.15, 2, 25)).toBeCloseTo(250, 4)
  })

  test('gain falls in the cold', () => {
    expect(exceptions((r) => gainAt(r, -20) < gainAt(r, 25) && gainAt(r, 25) < gainAt(r, 100))).toEqual([])
  })

  test('a Darlington without a maximum is taken to have sqrt(3) times its typical gain', () => {
    const r = row('TIP122')
    const { atMin, atMax } = gainCorners(r)
    expect(atMax).toBeUndefined()
    const typical = dcBeta(r.model, atMin.Ic, atMin.Vce, 25)
    expect(largestGain(r, atMin.Ic, atMin.Vce, 25) / typical).toBeCloseTo(Math.sqrt(3), 6)
  })

  test('leakage doubles as two limits of the sheet have it, else every 10 K', () => {
    // ST BD135 sheet: 0.1 µA at 25 °C, 10 µA at 125 °C
    const bd139 = leakageCorner(row('BD139-16'))
    expect(bd139.max * 2 ** (100 / bd139.doublesEvery)).toBeCloseTo(10e-6, 12)
    expect(leakageCorner(row('BC547B'))).toEqual({ max: 15e-9, tnom: 25, doublesEvery: 10 })
  })

  test('an ICEO limit means far less at the base', () => {
    const r = row('TIP31C')
    const { max } = leakageCorner(r)
    const Ic = r.leakage.max - max
    expect(max * leastGain(r, Ic, r.leakage.voltage, 25)).toBeCloseTo(Ic, 9)
    expect(max).toBeLessThan(r.leakage.max / 5)
  })
})

describe('bias', () => {
  test('a voltage too small for the current has no drive, rather than a wrong one', () => {
    const { model } = row('TIP31C')
    expect(vbeAt(model, 3, 0.1, 25)).toBeNaN()
    expect(dcBeta(row('TIP122').model, 3, 0.5, 25)).toBeNaN()
  })

  test('a base current too small for the gain saturates nowhere', () => {
    expect(saturationVoltage(row('TIP31C').model, 1, 0.001, 25)).toBeNaN()
  })

  test('a transistor of known currents is found again', () => {
    // ideal junction by hand: VBE = VT ln(IC/IS + 1), IB = IC/BF at VCB = 0
    const model = { IS: 1e-14, BF: 100, TNOM: 25 }
    const vbe = 0.025692579 * Math.log(1e-3 / 1e-14)
    expect(vbeAt(model, 1e-3, vbe, 25)).toBeCloseTo(vbe, 8)
    expect(dcBeta(model, 1e-3, vbe, 25)).toBeCloseTo(100, 6)
  })
})

describe('choosing', () => {
  test('a query holds every field and puts the smaller first', () => {
    const found = transistors({ polarity: 'npn', darlington: false, VCEO: 60, Ic: 1, mounting: 'through-hole' })
    expect(found.map((r) => r.partNumber)).toEqual(['BD139-10', 'BD139-16', 'TIP31C', 'TIP41C', 'MJE3055T', '2N3055'])
    expect(transistors({ mounting: 'surface-mount' })).toEqual([])
    expect(transistors({ darlington: true, VCEO: 80 }).map((r) => r.partNumber)).toEqual(['TIP122'])
  })
})

describe('rising roots', () => {
  test('a root is found between sides that have no value', () => {
    expect(risingRoot(parabola, 0, 10, 1e-12)).toBeCloseTo(2, 9)
  })

  test('a jump over zero is no root', () => {
    expect(risingRoot((x) => (x < 1 ? -1 : 1), 0, 3, 1e-9)).toBeNaN()
  })
})

test('a current that the pair cannot carry, or that is no number, is answered and not searched for ever', () => {
  const pair = findTransistor('TIP120')!
  // at so small a current the base-emitter resistors inside take all the drive
  expect(leastGain(pair, 1.27e-3, 5, -40)).toBeNaN()
  expect(vbeOf(pair, Number.NaN, 5, 25)).toBeNaN()
  expect(vbeOf(findTransistor('BC337-25')!, Number.NaN, 1, 25)).toBeNaN()
})
