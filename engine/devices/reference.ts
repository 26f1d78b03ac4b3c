/**
 * Shunt reference macro-model on [cathode, anode, ref], voltages over the anode: vka at the cathode, vra at ref.
 *
 *   Vr = VREF + tc·(T - TNOM) + KD·(vka - VREF) - W·ln(e^(ZD·(ITEST - IKMIN)/W) - 1),  W = 0.2 mV
 *   y  = W·ln(1 + e^((vra - Vr)/W))
 *   Ik = IKMIN·tanh(vka/0.5 V) + (y/ZD)·tanh(sp(vka - VSAT)/0.2 V),  sp(u) = (u + sqrt(u² + 0.01 V²))/2
 *   Iref = IREF·tanh(vra/0.5 V)
 *
 * The logarithm in Vr makes the cathode carry ITEST at vra = VREF + tc·(T - TNOM); beyond the knee its slope is ZD ohms.
 * KD is the change of the reference voltage with the cathode's (negative in data sheets). A two-terminal reference ties
 * ref to the cathode and has KD = IREF = VSAT = 0. The anode carries -(Ik + Iref). The macro-model is ours.
 */

/** Parameters in order; none has a default. */
export const REFERENCE_PARAMETERS = {
  VREF: undefined,
  tc: undefined,
  TNOM: undefined,
  KD: undefined,
  ZD: undefined,
  ITEST: undefined,
  IKMIN: undefined,
  VSAT: undefined,
  IREF: undefined,
} as const

/** Width of the turn-on in volts. */
const W = 0.2e-3
const KNEE = 0.5
const SATURATION_WIDTH = 0.2

/** Vr less its part that moves with vka. */
const VR0 = 0
const KD = 1
const ZD_INVERSE = 2
const IKMIN = 3
const VSAT = 4
const IREF = 5
export const REFERENCE_DERIVED = 6

/** Writes the derived values at `celsius`. */
export function prepareReference(
  p: Float64Array,
  at: number,
  celsius: number,
  derived: Float64Array,
  to: number,
): void {
  const vref = p[at]!
  const kd = p[at + 3]!
  const zd = p[at + 4]!
  const a = (zd * (p[at + 5]! - p[at + 6]!)) / W
  derived[to + VR0] = vref + p[at + 1]! * (celsius - p[at + 2]!) - kd * vref - W * logOfExpLess1(a)
  derived[to + KD] = kd
  derived[to + ZD_INVERSE] = 1 / zd
  derived[to + IKMIN] = p[at + 6]!
  derived[to + VSAT] = p[at + 7]!
  derived[to + IREF] = p[at + 8]!
}

/** ln(e^a - 1) for a > 0 without overflow. */
function logOfExpLess1(a: number): number {
  return a > 1 ? a + Math.log1p(-Math.exp(-a)) : Math.log(Math.expm1(a))
}

/** Terminals [cathode, anode, ref] in `v[from..]`; layout of `out` as for the transistor. */
export function evaluateReference(
  p: Float64Array,
  at: number,
  v: Float64Array,
  from: number,
  out: Float64Array,
  to: number,
): void {
  const va = v[from + 1]!
  const vka = v[from]! - va
  const vra = v[from + 2]! - va
  const kd = p[at + KD]!
  const u = (vra - p[at + VR0]! - kd * vka) / W
  // softplus and its slope, each in the form that cannot overflow
  const e = Math.exp(-Math.abs(u))
  const y = W * ((u > 0 ? u : 0) + Math.log1p(e))
  const slope = u > 0 ? 1 / (1 + e) : e / (1 + e)

  const zdInverse = p[at + ZD_INVERSE]!
  const w = vka - p[at + VSAT]!
  const root = Math.sqrt(w * w + 0.01)
  // w + root would cancel for negative w
  const sp = w > 0 ? 0.5 * (w + root) : 0.005 / (root - w)
  const s = Math.tanh(sp / SATURATION_WIDTH)
  const dsDw = ((1 - s * s) / SATURATION_WIDTH) * (sp / root)

  const tk = Math.tanh(vka / KNEE)
  const isWithoutRef = p[at + IREF] === 0
  const tr = isWithoutRef ? 0 : Math.tanh(vra / KNEE)
  const ik = p[at + IKMIN]! * tk + y * zdInverse * s
  const iref = p[at + IREF]! * tr
  const gkk = (p[at + IKMIN]! * (1 - tk * tk)) / KNEE - kd * slope * zdInverse * s + y * zdInverse * dsDw
  const gkr = slope * zdInverse * s
  const grr = (p[at + IREF]! * (1 - tr * tr)) / KNEE

  out[to] = ik
  out[to + 1] = -(ik + iref)
  out[to + 2] = iref
  out[to + 3] = gkk
  out[to + 4] = -(gkk + gkr)
  out[to + 5] = gkr
  out[to + 6] = -gkk
  out[to + 7] = gkk + gkr + grr
  out[to + 8] = -(gkr + grr)
  out[to + 9] = 0
  out[to + 10] = -grr
  out[to + 11] = grr
}
