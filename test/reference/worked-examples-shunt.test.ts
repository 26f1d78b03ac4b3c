/**
 * Published worked examples of shunt stages through the topologies' own sizing formulas: the source's numbers go in, the source's
 * answer must come out. What the symbols stand for in each example is written beside it; the examples, with their sources
 * and how they were read, are in `test/fixtures/published`.
 */
import { describe, expect, test } from 'vitest'
import { worksOut } from './worked/formulas.ts'
import { given, misses } from './worked/published.ts'

const Rs_max = (symbols: { Vin_min: number; Vz_hi: number; Iout_max: number; Iz_min: number }) =>
  worksOut('shunt', 'Rs_max', symbols)
const Rs_min = (symbols: { Vin_max: number; Vz: number; Iout_min: number; Pz_allow: number }) =>
  worksOut('shunt', 'Rs_min', symbols)
const current = (symbols: { Vin_max: number; Vz_lo: number; Rs_lo: number; Iout_min: number }) =>
  worksOut('shunt', 'Iz_max', symbols)

describe('shunt', () => {
  test('SH-01: diode current and heat of diode and resistor without a load', () => {
    const g = given('SH-01')
    const Iz_max = current({ Vin_max: g('Vin'), Vz_lo: g('Vz'), Rs_lo: g('Rs'), Iout_min: 0 })
    const P_Z = worksOut('shunt', 'Pz_lo', { Vz_lo: g('Vz'), Iz_max })
    const P_Rs = worksOut('shunt', 'P_Rs', { Vin_max: g('Vin'), Vz_lo: g('Vz'), Rs_lo: g('Rs') })
    expect(misses('SH-01', { I: Iz_max, P_Z, P_Rs })).toEqual([])
  })

  test('SH-02: diode current beside a load', () => {
    const g = given('SH-02')
    const Iout_min = g('Vz') / g('RL')
    const I_Z = current({ Vin_max: g('Vin'), Vz_lo: g('Vz'), Rs_lo: g('Rs'), Iout_min })
    const I_S = worksOut('shunt', 'Is_nom', { Vin_nom: g('Vin'), Vz: g('Vz'), Rs: g('Rs') })
    expect(misses('SH-02', { I_Z, I_S })).toEqual([])
  })

  test('SH-09: diode current at both ends of the input', () => {
    const g = given('SH-09')
    const at = (Vin_max: number) => current({ Vin_max, Vz_lo: g('Vz'), Rs_lo: g('R'), Iout_min: 0 })
    expect(misses('SH-09', { I_min: at(g('Vin_min')), I_max: at(g('Vin_max')) })).toEqual([])
  })

  test('SH-12: the output moves by the slope resistance', () => {
    const g = given('SH-12')
    // the source gives the current; the formula asks for the input that drives it, and counts from the test current
    const symbols = { Vz: g('Vz'), rz: g('Rz'), Rs: g('Rs'), Iout_nom: 0, I_ZT: 0 }
    const Vin_nom = g('Vz') + g('Iz') * g('Rs')
    expect(misses('SH-12', { V_L: worksOut('shunt', 'Vout_nom', { ...symbols, Vin_nom }) })).toEqual([])
  })

  test('SH-16: the resistor for the test current, and its heat', () => {
    const g = given('SH-16')
    const R1 = Rs_max({ Vin_min: g('Es'), Vz_hi: g('Vz'), Iout_max: 0, Iz_min: g('Izt') })
    const P_R1 = worksOut('shunt', 'P_Rs', { Vin_max: g('Es'), Vz_lo: g('Vz'), Rs_lo: R1 })
    const I_Z2 = current({ Vin_max: g('Es2'), Vz_lo: g('Vz'), Rs_lo: R1, Iout_min: 0 })
    expect(misses('SH-16', { R1, P_R1, I_Z2 })).toEqual([])
  })

  test('SH-22: the resistor for full diode power, its heat, and currents with a standard value', () => {
    const g = given('SH-22')
    const full = g('Pz') / g('Vz')
    const R_S = Rs_max({ Vin_min: g('V'), Vz_hi: g('Vz'), Iout_max: 0, Iz_min: full })
    const P_RS = worksOut('shunt', 'P_Rs', { Vin_max: g('V'), Vz_lo: g('Vz'), Rs_lo: R_S })
    const I_Z_low = current({
      Vin_max: g('V_low'),
      Vz_lo: g('Vz'),
      Rs_lo: g('R_std'),
      Iout_min: g('Vz') / g('RL'),
    })
    expect(misses('SH-22', { R_S, P_RS, I_Z_low })).toEqual([])
  })

  test('SH-26: a window that is empty is seen as empty (negative example), and one that is not', () => {
    const g = given('SH-26')
    const window = (RL_min: string, RL_max: string) => ({
      upper: Rs_max({
        Vin_min: g('Vs_min'),
        Vz_hi: g('Vz'),
        Iout_max: g('Vz') / g(RL_min),
        Iz_min: g('Izmin'),
      }),
      lower: Rs_min({ Vin_max: g('Vs_max'), Vz: g('Vz'), Iout_min: g('Vz') / g(RL_max), Pz_allow: g('Pz') }),
    })
    const [empty, open] = [window('RL_min', 'RL_max'), window('RL_min2', 'RL_max2')]
    expect(empty.lower).toBeGreaterThan(empty.upper)
    expect(open.lower).toBeLessThan(open.upper)
    const bounds = { Rs_upper: empty.upper, Rs_lower: empty.lower, Rs_lower2: open.lower, Rs_upper2: open.upper }
    expect(misses('SH-26', bounds)).toEqual([])
  })

  test('SH-28: both bounds of the series resistor', () => {
    const g = given('SH-28')
    const upper = Rs_max({ Vin_min: g('Vin_min'), Vz_hi: g('Vz'), Iout_max: g('IL'), Iz_min: g('Izmin') })
    const lower = Rs_min({ Vin_max: g('Vin_max'), Vz: g('Vz'), Iout_min: g('IL'), Pz_allow: g('Pz') })
    expect(misses('SH-28', { Rs_max: upper, Rs_min: lower })).toEqual([])
  })

  test('SH-29: diode currents, and both bounds for a second diode', () => {
    const g = given('SH-29')
    const stage = { Vin_max: g('Vin'), Vz_lo: g('Vz'), Rs_lo: g('Rs') }
    const Rs_max2 = Rs_max({
      Vin_min: g('Vin2'),
      Vz_hi: g('Vz2'),
      Iout_max: g('Vz2') / g('RL_min2'),
      Iz_min: g('Izmin2'),
    })
    const Rs_min2 = Rs_min({ Vin_max: g('Vin2'), Vz: g('Vz2'), Iout_min: 0, Pz_allow: g('Izmax2') * g('Vz2') })
    const I_Z_min = current({ ...stage, Iout_min: g('Vz') / g('RL_min') })
    const I_Z_max = current({ ...stage, Iout_min: 0 })
    expect(misses('SH-29', { I_Z_min, I_Z_max, Rs_max2, Rs_min2 })).toEqual([])
  })

  test('SH-31: the resistor for a load, and both bounds around a nominal input', () => {
    const g = given('SH-31')
    const R = Rs_max({ Vin_min: g('Vin_min'), Vz_hi: g('Vo'), Iout_max: g('IL'), Iz_min: g('Izmin') })
    // the second example leaves the diode no least current
    const R_max2 = Rs_max({ Vin_min: g('Vi_nom') - g('Vi_dev'), Vz_hi: g('Vo'), Iout_max: g('IL2'), Iz_min: 0 })
    const R_min2 = Rs_min({
      Vin_max: g('Vi_nom') + g('Vi_dev'),
      Vz: g('Vo'),
      Iout_min: g('IL2'),
      Pz_allow: g('Pz'),
    })
    expect(misses('SH-31', { R, R_max2, R_min2 })).toEqual([])
  })

  test('SH-33: five times the knee current, and the diode heat without a load', () => {
    const g = given('SH-33')
    const R = Rs_max({ Vin_min: g('Vs'), Vz_hi: g('Vz'), Iout_max: g('IL_max'), Iz_min: g('factor') * g('Izk') })
    const P_Z = worksOut('shunt', 'Pz_hi', { Vz_hi: g('Vz'), Vin_max: g('Vs'), Rs_lo: R, Iout_min: 0 })
    expect(misses('SH-33', { R, P_Z })).toEqual([])
  })

  test('SH-39: every watt, and the efficiency', () => {
    const g = given('SH-39')
    const Iout_max = g('Vz') / g('RL')
    const Is_nom = worksOut('shunt', 'Is_nom', { Vin_nom: g('V'), Vz: g('Vz'), Rs: g('Rs') })
    const stage = { Vin_max: g('V'), Rs_lo: g('Rs'), Iout_min: Iout_max }
    expect(
      misses('SH-39', {
        I_S: Is_nom,
        I_Z: current({ ...stage, Vz_lo: g('Vz') }),
        P_Z: worksOut('shunt', 'Pz_hi', { ...stage, Vz_hi: g('Vz') }),
        P_Rs: worksOut('shunt', 'P_Rs', { ...stage, Vz_lo: g('Vz') }),
        efficiency: worksOut('shunt', 'efficiency', { Vout: g('Vz'), Iout_max, Vin_nom: g('V'), Is_nom }),
      }),
    ).toEqual([])
  })

  test('SH-04: the output with a slope resistance (the formula lets the diode current follow from Vz, not from Vout)', () => {
    const g = given('SH-04')
    const symbols = { Vz: g('Vz'), rz: g('rz'), Vin_nom: g('V'), Rs: g('R'), Iout_nom: 0, I_ZT: g('Izt') }
    expect(misses('SH-04', { V_O: worksOut('shunt', 'Vout_nom', symbols) })).toEqual([])
  })
})
