/**
 * Gummel-Poon transistor, npn or pnp, on its inner terminals; RB, RE and RC are constant resistors outside them.
 *
 * For an npn (a pnp has every voltage and current reversed), with vbe, vbc the inner junction voltages and VT = kT/q:
 *
 *   If = IS·(e^(vbe/(NF·VT)) - 1),  Ir = IS·(e^(vbc/(NR·VT)) - 1)
 *   q1 = 1/(1 - vbc/VAF - vbe/VAR),  q2 = If/IKF + Ir/IKR,  qb = q1·(1 + sqrt(1 + 4·q2))/2
 *   IC = (If - Ir)/qb - Ir/BR - ISC·(e^(vbc/(NC·VT)) - 1)
 *   IB = If/BF + ISE·(e^(vbe/(NE·VT)) - 1) + Ir/BR + ISC·(e^(vbc/(NC·VT)) - 1)
 *   IE = -(IC + IB), all currents into the terminals
 *
 * Temperature, r = T/TNOM in kelvin and s = IS(T)/IS:
 *
 *   IS(T) = IS·r^XTI·e^((r - 1)·EG/VT),  BF(T) = BF·r^XTB,  BR(T) = BR·r^XTB
 *   ISE(T) = ISE·r^-XTB·s^(1/NE),  ISC(T) = ISC·r^-XTB·s^(1/NC);  the other parameters do not move
 *
 * Beyond its range, where 1 - vbc/VAF - vbe/VAR falls below 0.05, q1 goes on as its tangent.
 * An absent VAF, VAR, IKF or IKR is infinite; a 0 there means the same. The knee exponent NK is 1/2.
 * Sources: H. K. Gummel and H. C. Poon, Bell Syst. Tech. J. 49 (1970) 827; the temperature laws are the usual ones of
 * circuit simulation (A. Vladimirescu, The SPICE Book, 1994, appendix A; from memory).
 */
import * as scalesModule from '../units/scales.ts'
import * as physicsModule from './physics.ts'

// taken out of their modules once: where a test runner resolves every import anew, these loops would wait for that
const { toKelvin } = scalesModule
const { criticalVoltage, E_AT_LIMIT, guardedExp, inverseOrZero, LINEAR_ABOVE, thermalVoltage, ZERO_BELOW } =
  physicsModule

/** Parameters in order, with their published defaults. */
export const BJT_PARAMETERS = {
  IS: undefined,
  BF: undefined,
  NF: 1,
  VAF: Infinity,
  IKF: Infinity,
  ISE: 0,
  NE: 1.5,
  BR: 1,
  NR: 1,
  VAR: Infinity,
  IKR: Infinity,
  ISC: 0,
  NC: 2,
  RB: 0,
  RE: 0,
  RC: 0,
  XTB: 0,
  EG: 1.11,
  XTI: 3,
  TNOM: 27,
} as const

/** Places in the derived values; the solver's limiting reads the first five. */
export const BJT_SIGN = 0
export const BJT_NFVT = 1
export const BJT_NRVT = 2
export const BJT_VCRIT_BE = 3
export const BJT_VCRIT_BC = 4
export const BJT_IS = 5
const NFVT_INVERSE = 6
const NRVT_INVERSE = 7
const NEVT_INVERSE = 8
const NCVT_INVERSE = 9
const ISE = 10
const ISC = 11
const BF_INVERSE = 12
const BR_INVERSE = 13
const VAF_INVERSE = 14
const VAR_INVERSE = 15
const IKF_INVERSE = 16
const IKR_INVERSE = 17
export const BJT_DERIVED = 18

/** Below this value of 1/q1 the tangent takes over. */
const LEAST_INVERSE_Q1 = 0.05

/** 1 + 4·q2 is held here: only far above any junction's life does IS(T) reach IKF/4 and reverse bias bring it below. */
const LEAST_SQUARE = 1e-4
const ROOT_OF_LEAST = 1e-2

/** Writes the derived values at `celsius`; `derived[to]`, the sign (+1 npn, -1 pnp), is set once and left alone. */
export function prepareBjt(p: Float64Array, at: number, celsius: number, derived: Float64Array, to: number): void {
  const vt = thermalVoltage(celsius)
  const r = toKelvin(celsius) / toKelvin(p[at + 19]!)
  const lnR = Math.log(r)
  const lnS = p[at + 18]! * lnR + ((r - 1) * p[at + 17]!) / vt
  const lnBeta = p[at + 16]! * lnR
  const beta = lnBeta === 0 ? 1 : Math.exp(lnBeta)
  const NE = p[at + 6]!
  const NC = p[at + 12]!
  const ise = p[at + 5]!
  const isc = p[at + 11]!
  const is = p[at]! * Math.exp(lnS)
  const nfvt = p[at + 2]! * vt
  const nrvt = p[at + 8]! * vt
  derived[to + BJT_NFVT] = nfvt
  derived[to + BJT_NRVT] = nrvt
  derived[to + BJT_VCRIT_BE] = criticalVoltage(nfvt, is)
  derived[to + BJT_VCRIT_BC] = criticalVoltage(nrvt, is)
  derived[to + BJT_IS] = is
  derived[to + NFVT_INVERSE] = 1 / nfvt
  derived[to + NRVT_INVERSE] = 1 / nrvt
  derived[to + NEVT_INVERSE] = 1 / (NE * vt)
  derived[to + NCVT_INVERSE] = 1 / (NC * vt)
  derived[to + ISE] = ise > 0 ? ise * Math.exp(lnS / NE - lnBeta) : 0
  derived[to + ISC] = isc > 0 ? isc * Math.exp(lnS / NC - lnBeta) : 0
  derived[to + BF_INVERSE] = 1 / (p[at + 1]! * beta)
  derived[to + BR_INVERSE] = 1 / (p[at + 7]! * beta)
  derived[to + VAF_INVERSE] = inverseOrZero(p[at + 3]!)
  derived[to + VAR_INVERSE] = inverseOrZero(p[at + 9]!)
  derived[to + IKF_INVERSE] = inverseOrZero(p[at + 4]!)
  derived[to + IKR_INVERSE] = inverseOrZero(p[at + 10]!)
}

/**
 * Inner terminals [collector, base, emitter] in `v[from..]`: writes the currents into them to out[to..to+2] and the
 * derivatives d(current t)/d(voltage s) to out[to + 3 + 3t + s].
 */
export function evaluateBjt(
  p: Float64Array,
  at: number,
  v: Float64Array,
  from: number,
  out: Float64Array,
  to: number,
): void {
  const sign = p[at + BJT_SIGN]!
  const vb = v[from + 1]!
  const vbc = sign * (vb - v[from]!)
  const vbe = sign * (vb - v[from + 2]!)
  const is = p[at + BJT_IS]!

  const nfvtInverse = p[at + NFVT_INVERSE]!
  const uf = vbe * nfvtInverse
  const ef = uf < LINEAR_ABOVE ? (uf < ZERO_BELOW ? 0 : Math.exp(uf)) : guardedExp(uf)
  const If = is * (ef - 1)
  const gf = is * (uf < LINEAR_ABOVE ? ef : E_AT_LIMIT) * nfvtInverse

  const nrvtInverse = p[at + NRVT_INVERSE]!
  const ur = vbc * nrvtInverse
  const er = ur < LINEAR_ABOVE ? (ur < ZERO_BELOW ? 0 : Math.exp(ur)) : guardedExp(ur)
  const Ir = is * (er - 1)
  const gr = is * (ur < LINEAR_ABOVE ? er : E_AT_LIMIT) * nrvtInverse

  // base current: the junctions' share of If and Ir, then the leaky diodes beside them
  let ibe = If * p[at + BF_INVERSE]!
  let gbe = gf * p[at + BF_INVERSE]!
  const ise = p[at + ISE]!
  if (ise !== 0) {
    const nevtInverse = p[at + NEVT_INVERSE]!
    const u = vbe * nevtInverse
    const e = u < LINEAR_ABOVE ? (u < ZERO_BELOW ? 0 : Math.exp(u)) : guardedExp(u)
    ibe += ise * (e - 1)
    gbe += ise * (u < LINEAR_ABOVE ? e : E_AT_LIMIT) * nevtInverse
  }
  let ibc = Ir * p[at + BR_INVERSE]!
  let gbc = gr * p[at + BR_INVERSE]!
  const isc = p[at + ISC]!
  if (isc !== 0) {
    const ncvtInverse = p[at + NCVT_INVERSE]!
    const u = vbc * ncvtInverse
    const e = u < LINEAR_ABOVE ? (u < ZERO_BELOW ? 0 : Math.exp(u)) : guardedExp(u)
    ibc += isc * (e - 1)
    gbc += isc * (u < LINEAR_ABOVE ? e : E_AT_LIMIT) * ncvtInverse
  }

  const vafInverse = p[at + VAF_INVERSE]!
  const varInverse = p[at + VAR_INVERSE]!
  const d = 1 - vbc * vafInverse - vbe * varInverse
  let q1 = d > LEAST_INVERSE_Q1 ? 1 / d : 1 / LEAST_INVERSE_Q1
  const slope = -q1 * q1
  if (!(d > LEAST_INVERSE_Q1)) q1 += slope * (d - LEAST_INVERSE_Q1)
  const dq1Dvbe = -slope * varInverse
  const dq1Dvbc = -slope * vafInverse

  const ikfInverse = p[at + IKF_INVERSE]!
  const ikrInverse = p[at + IKR_INVERSE]!
  let qb = q1
  let dqbDvbe = dq1Dvbe
  let dqbDvbc = dq1Dvbc
  if (ikfInverse !== 0 || ikrInverse !== 0) {
    const square = 1 + 4 * (If * ikfInverse + Ir * ikrInverse)
    const root = square > LEAST_SQUARE ? Math.sqrt(square) : ROOT_OF_LEAST
    const half = 0.5 * (1 + root)
    const rise = square > LEAST_SQUARE ? q1 / root : 0
    qb = q1 * half
    dqbDvbe = dq1Dvbe * half + rise * ikfInverse * gf
    dqbDvbc = dq1Dvbc * half + rise * ikrInverse * gr
  }

  const qbInverse = 1 / qb
  const it = (If - Ir) * qbInverse
  const ic = it - ibc
  const gcBe = (gf - it * dqbDvbe) * qbInverse
  const gcBc = (-gr - it * dqbDvbc) * qbInverse - gbc
  const ib = ibe + ibc

  out[to] = sign * ic
  out[to + 1] = sign * ib
  out[to + 2] = -sign * (ic + ib)
  // the signs of a pnp's voltages and currents cancel in every derivative
  out[to + 3] = -gcBc
  out[to + 4] = gcBe + gcBc
  out[to + 5] = -gcBe
  out[to + 6] = -gbc
  out[to + 7] = gbe + gbc
  out[to + 8] = -gbe
  out[to + 9] = gcBc + gbc
  out[to + 10] = -(gcBe + gcBc + gbe + gbc)
  out[to + 11] = gcBe + gbe
}
