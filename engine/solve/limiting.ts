/** Keeps Newton's steps where a junction's exponential can still be believed. */
import { BJT_NFVT, BJT_NRVT, BJT_SIGN, BJT_VCRIT_BC, BJT_VCRIT_BE } from '../devices/bjt.ts'
import { DIODE_BV, DIODE_NBVT, DIODE_NVT, DIODE_VCRIT, DIODE_WCRIT } from '../devices/diode.ts'

/**
 * The largest step that a junction takes from `old` towards `next`, volts. Beyond the knee `vcrit` a step of more than two
 * nvt is taken in the current and not in the voltage (L. W. Nagel, SPICE2, memorandum ERL-M520, Berkeley 1975, on
 * limiting; from memory).
 */
function limitJunction(next: number, old: number, nvt: number, vcrit: number): number {
  if (next <= vcrit || Math.abs(next - old) <= 2 * nvt) return next
  if (old > 0) {
    const a = 1 + (next - old) / nvt
    return a > 0 ? old + nvt * Math.log(a) : vcrit
  }
  return nvt * Math.log(next / nvt)
}

/** A start is believed up to this many nvt above the knee: e^15 times its current, more than any part carries. */
const START_ABOVE = 15

/** Where a junction begins: as found, unless the guess would drive absurd currents. */
function startJunction(v: number, nvt: number, vcrit: number): number {
  return v > vcrit + START_ABOVE * nvt ? vcrit : v
}

/**
 * The voltage at which to evaluate a diode whose derived values are at `p[d..]`: `v` itself, or as far from `old`, where it
 * was last evaluated, as limiting lets it. `isFirst`: there is no last time.
 */
export function limitDiode(p: Float64Array, d: number, v: number, old: number, isFirst: boolean): number {
  const nvt = p[d + DIODE_NVT]!
  const nbvt = p[d + DIODE_NBVT]!
  // the breakdown branch is the forward one in a mirror: w is how far the voltage is beyond BV
  const bv = p[d + DIODE_BV]!
  const w = -(v + bv)
  if (isFirst) {
    if (v > 0) return startJunction(v, nvt, p[d + DIODE_VCRIT]!)
    const begun = startJunction(w, nbvt, p[d + DIODE_WCRIT]!)
    return begun === w ? v : -bv - begun
  }
  const step = v - old
  if (step > 2 * nvt) return limitJunction(v, old, nvt, p[d + DIODE_VCRIT]!)
  if (step < -2 * nbvt && w > 0) {
    const limited = limitJunction(w, -(old + bv), nbvt, p[d + DIODE_WCRIT]!)
    return limited === w ? v : -bv - limited
  }
  return v
}

/**
 * The emitter's voltage at which to evaluate a transistor: `ve` itself, or one that leaves the base-emitter junction no
 * further from `old` (base less emitter, whatever the polarity) than limiting lets it.
 */
export function limitTransistorBe(
  p: Float64Array,
  d: number,
  vb: number,
  ve: number,
  old: number,
  isFirst: boolean,
): number {
  const nvt = p[d + BJT_NFVT]!
  const step = vb - ve - old
  if (!isFirst && step <= 2 * nvt && step >= -2 * nvt) return ve
  const sign = p[d + BJT_SIGN]!
  return limitEnd(vb, ve, sign, sign * old, nvt, p[d + BJT_VCRIT_BE]!, isFirst)
}

/** The same for the collector. */
export function limitTransistorBc(
  p: Float64Array,
  d: number,
  vb: number,
  vc: number,
  old: number,
  isFirst: boolean,
): number {
  const nvt = p[d + BJT_NRVT]!
  const step = vb - vc - old
  if (!isFirst && step <= 2 * nvt && step >= -2 * nvt) return vc
  const sign = p[d + BJT_SIGN]!
  return limitEnd(vb, vc, sign, sign * old, nvt, p[d + BJT_VCRIT_BC]!, isFirst)
}

function limitEnd(
  vb: number,
  end: number,
  sign: number,
  old: number,
  nvt: number,
  vcrit: number,
  isFirst: boolean,
): number {
  const v = sign * (vb - end)
  const limited = isFirst ? startJunction(v, nvt, vcrit) : limitJunction(v, old, nvt, vcrit)
  return limited === v ? end : vb - sign * limited
}
