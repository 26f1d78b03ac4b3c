/**
 * Junction diode with breakdown.
 *
 * With v the junction voltage (anode less cathode, less the drop in RS), VT = kT/q at the device's own temperature T,
 * and BV(T) = BV + tc·(T - TNOM):
 *
 *   i = IS(T)·(e^(v/(N·VT)) - 1) - IBV·(e^(-(v + BV(T))/(NBV·VT)) - e^(-BV(T)/(NBV·VT)))
 *
 * How BV and IBV meet: at v = -BV(T) the breakdown branch carries IBV·(1 - e^(-BV(T)/(NBV·VT))), that is IBV itself for
 * every practical diode; the forward branch adds its saturation current IS. BV is the voltage of the junction alone: the
 * terminals stand at BV + RS·IBV there. The last term makes the current exactly zero at v = 0. There is no
 * conductance in parallel with the junction and no other shape between the two branches.
 *
 *   IS(T) = IS·r^(XTI/N)·e^((r - 1)·EG/(N·VT)),  r = T/TNOM in kelvin
 *
 * RS is a resistor from the anode terminal to the junction's inner node and does not move with temperature.
 * Source of the forward law: W. Shockley, Bell Syst. Tech. J. 28 (1949) 435; of the temperature law: the usual one of
 * circuit simulation (see `saturationLogRatio`); the breakdown branch is ours, the mirrored exponential.
 */
import * as physicsModule from './physics.ts'

// taken out of their modules once: where a test runner resolves every import anew, these loops would wait for that
const { criticalVoltage, E_AT_LIMIT, guardedExp, LINEAR_ABOVE, saturationLogRatio, thermalVoltage, ZERO_BELOW } =
  physicsModule

/** Parameters in order; none has a default. */
export const DIODE_PARAMETERS = {
  IS: undefined,
  N: undefined,
  RS: undefined,
  BV: undefined,
  IBV: undefined,
  NBV: undefined,
  EG: undefined,
  XTI: undefined,
  TNOM: undefined,
  tc: undefined,
} as const

/** Places in the derived values; all but the last two are also what the solver limits steps by. */
export const DIODE_NVT = 0
export const DIODE_NBVT = 1
/** Junction voltage, and voltage beyond BV, where the current's curve turns sharpest. */
export const DIODE_VCRIT = 2
export const DIODE_WCRIT = 3
export const DIODE_BV = 4
const IS = 5
const IBV = 6
const NVT_INVERSE = 7
const NBVT_INVERSE = 8
const E_AT_ZERO = 9
export const DIODE_DERIVED = 10

/** Writes the derived values at `celsius` to `derived[to..]`. */
export function prepareDiode(p: Float64Array, at: number, celsius: number, derived: Float64Array, to: number): void {
  const N = p[at + 1]!
  const TNOM = p[at + 8]!
  const vt = thermalVoltage(celsius)
  const nvt = N * vt
  const nbvt = p[at + 5]! * vt
  const bv = p[at + 3]! + p[at + 9]! * (celsius - TNOM)
  const is = p[at]! * Math.exp(saturationLogRatio(celsius, TNOM, p[at + 6]!, p[at + 7]!) / N)
  derived[to + DIODE_NVT] = nvt
  derived[to + DIODE_NBVT] = nbvt
  derived[to + DIODE_VCRIT] = criticalVoltage(nvt, is)
  derived[to + DIODE_WCRIT] = criticalVoltage(nbvt, p[at + 4]!)
  derived[to + DIODE_BV] = bv
  derived[to + IS] = is
  derived[to + IBV] = p[at + 4]!
  derived[to + NVT_INVERSE] = 1 / nvt
  derived[to + NBVT_INVERSE] = 1 / nbvt
  derived[to + E_AT_ZERO] = guardedExp(-bv / nbvt)
}

/**
 * Junction terminals [anode side, cathode] in `v[from..]`: writes the currents into them and the derivatives
 * d(current t)/d(voltage s) at out[to + 2 + 2t + s].
 */
export function evaluateDiode(
  p: Float64Array,
  at: number,
  v: Float64Array,
  from: number,
  out: Float64Array,
  to: number,
): void {
  const u = v[from]! - v[from + 1]!
  const is = p[at + IS]!
  const ibv = p[at + IBV]!
  const nvtInverse = p[at + NVT_INVERSE]!
  const nbvtInverse = p[at + NBVT_INVERSE]!
  const forward = u * nvtInverse
  const reverse = -(u + p[at + DIODE_BV]!) * nbvtInverse
  const ef = forward < LINEAR_ABOVE ? (forward < ZERO_BELOW ? 0 : Math.exp(forward)) : guardedExp(forward)
  const er = reverse < LINEAR_ABOVE ? (reverse < ZERO_BELOW ? 0 : Math.exp(reverse)) : guardedExp(reverse)
  const i = is * (ef - 1) - ibv * (er - p[at + E_AT_ZERO]!)
  const g =
    is * nvtInverse * (forward < LINEAR_ABOVE ? ef : E_AT_LIMIT) +
    ibv * nbvtInverse * (reverse < LINEAR_ABOVE ? er : E_AT_LIMIT)
  out[to] = i
  out[to + 1] = -i
  out[to + 2] = g
  out[to + 3] = -g
  out[to + 4] = -g
  out[to + 5] = g
}
