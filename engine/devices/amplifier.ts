/**
 * Amplifier macro-model on five terminals [p, m, out, vP, vM]: gain, offset, supply and common-mode errors, swing limits,
 * output resistance and current limits, bias and quiescent current. Smooth, so that Newton's method can follow it; power
 * balanced, because what leaves the output comes from the rails: its five terminal currents add up to zero.
 *
 * With sp(u) = (u + sqrt(u² + 0.01 V²))/2, P(u) = (u + sqrt(u² + 1e-12 A²))/2 and Vs = V(vP) - V(vM):
 *
 *   x  = V(p) - V(m) + VOS + DVOS·(T - TNOM) + (Vs - VS0)/PSRR + (Vcm - VC0)/CMRR,  Vcm = (V(p) + V(m))/2 - V(vM)
 *   VH = V(vP) - DH,  VL = V(vM) + DL,  c = (VH + VL)/2,  S = sp(VH - VL)/2
 *   e  = c + S·tanh(A0·x/S),  i = (e - V(out))/RO
 *   Io = ISRC·tanh(i/ISRC) for i >= 0, else ISNK·tanh(i/ISNK)
 *
 * Into vP flows IQ·tanh(Vs/1 V) + P(Io) + 2·IB, out of vM IQ·tanh(Vs/1 V) + P(-Io), out of the output Io, and out of
 * each input IB (a negative IB flows in). P(u) - P(-u) = u, hence the sum of zero. The macro-model is ours.
 */

/** Parameters in order; none has a default. */
export const AMPLIFIER_PARAMETERS = {
  A0: undefined,
  VOS: undefined,
  DVOS: undefined,
  TNOM: undefined,
  PSRR: undefined,
  VS0: undefined,
  CMRR: undefined,
  VC0: undefined,
  DH: undefined,
  DL: undefined,
  RO: undefined,
  ISRC: undefined,
  ISNK: undefined,
  IQ: undefined,
  IB: undefined,
} as const

const A0 = 0
/** VOS at temperature, less the constant parts VS0/PSRR and VC0/CMRR. */
const OFFSET = 1
const PSRR_INVERSE = 2
const CMRR_INVERSE = 3
const DH = 4
const DL = 5
const RO_INVERSE = 6
const ISRC = 7
const ISNK = 8
const IQ = 9
const IB = 10
export const AMPLIFIER_DERIVED = 11

/** Writes the derived values at `celsius`; an infinite PSRR or CMRR is a perfect one. */
export function prepareAmplifier(
  p: Float64Array,
  at: number,
  celsius: number,
  derived: Float64Array,
  to: number,
): void {
  const psrrInverse = 1 / p[at + 4]!
  const cmrrInverse = 1 / p[at + 6]!
  derived[to + A0] = p[at]!
  derived[to + OFFSET] =
    p[at + 1]! + p[at + 2]! * (celsius - p[at + 3]!) - p[at + 5]! * psrrInverse - p[at + 7]! * cmrrInverse
  derived[to + PSRR_INVERSE] = psrrInverse
  derived[to + CMRR_INVERSE] = cmrrInverse
  derived[to + DH] = p[at + 8]!
  derived[to + DL] = p[at + 9]!
  derived[to + RO_INVERSE] = 1 / p[at + 10]!
  derived[to + ISRC] = p[at + 11]!
  derived[to + ISNK] = p[at + 12]!
  derived[to + IQ] = p[at + 13]!
  derived[to + IB] = p[at + 14]!
}

/** x of the equations above, in volts. */
export function amplifierInput(p: Float64Array, at: number, v: Float64Array, from: number): number {
  const vM = v[from + 4]!
  const vcm = 0.5 * (v[from]! + v[from + 1]!) - vM
  return (
    v[from]! -
    v[from + 1]! +
    p[at + OFFSET]! +
    (v[from + 3]! - vM) * p[at + PSRR_INVERSE]! +
    vcm * p[at + CMRR_INVERSE]!
  )
}

/** S/A0: the input in volts that drives the output to 76 % of its swing. */
export function amplifierInputScale(p: Float64Array, at: number, v: Float64Array, from: number): number {
  const swing = v[from + 3]! - p[at + DH]! - v[from + 4]! - p[at + DL]!
  return (0.25 * (swing + Math.sqrt(swing * swing + 0.01))) / p[at + A0]!
}

/** An amplifier's working point as two numbers without units: the drive A0·x/S, and the output current before its limit over the limit. */
export interface AmplifierDrive {
  drive: number
  current: number
  /** The end (-1 or 1) of the believable range that it had to stop at, 0 for none. */
  limit: -1 | 0 | 1
}

/** Up to here both tanh have a slope to steer by. */
const STEERABLE_DRIVE = 3
const STEERABLE_CURRENT = 1.8
/** Beyond here they are flat to a few parts in a hundred million, and there is nothing left to steer by. */
export const FLAT_DRIVE = 9
export const FLAT_CURRENT = 6

/**
 * Turns `into`, the working point of the last evaluation, into the one that delivers `io` amperes at these voltages, as
 * near to it as the steerable range goes; that range reaches a little beyond the last point, so that a working point close
 * to a rail is walked up to and not jumped over.
 */
export function amplifierDriveFor(
  p: Float64Array,
  at: number,
  v: Float64Array,
  from: number,
  io: number,
  into: AmplifierDrive,
): void {
  const reachUp = Math.min(FLAT_CURRENT, Math.max(STEERABLE_CURRENT, into.current + 1))
  const reachDown = Math.max(-FLAT_CURRENT, Math.min(-STEERABLE_CURRENT, into.current - 1))
  const most = io >= 0 ? p[at + ISRC]! : p[at + ISNK]!
  const asked = io / most
  const i = asked >= 1 ? Infinity : asked <= -1 ? -Infinity : Math.atanh(asked)
  const current = i > reachUp ? reachUp : i < reachDown ? reachDown : i
  const e = v[from + 2]! + (most * current) / p[at + RO_INVERSE]!
  const high = v[from + 3]! - p[at + DH]!
  const low = v[from + 4]! + p[at + DL]!
  const level = high > low ? (2 * e - high - low) / (high - low) : 1
  const u = level >= 1 ? Infinity : level <= -1 ? -Infinity : Math.atanh(level)
  const up = Math.min(FLAT_DRIVE, Math.max(STEERABLE_DRIVE, into.drive + 2))
  const down = Math.max(-FLAT_DRIVE, Math.min(-STEERABLE_DRIVE, into.drive - 2))
  const drive = u > up ? up : u < down ? down : u
  into.limit = drive !== u ? (u > 0 ? 1 : -1) : current !== i ? (i > 0 ? 1 : -1) : 0
  into.drive = drive
  into.current = current
}

/** More than any amplifier delivers, in amperes: its tanh is straight to a part in a million up to an ampere. */
const UNLIMITED = 1e3

/**
 * Opens the loop: derived values at `p[at..]` become those of a plain source behind RO, halfway between the swing limits; what
 * they were is kept in `closed`. All that the supplies and inputs draw stays as it was.
 */
export function openAmplifier(p: Float64Array, at: number, closed: Float64Array): void {
  for (let k = 0; k < AMPLIFIER_DERIVED; k += 1) closed[k] = p[at + k]!
  p[at + A0] = 0
  p[at + ISRC] = UNLIMITED
  p[at + ISNK] = UNLIMITED
}

/** Moves the plain source to so many volts above the middle of the swing. */
export function shiftAmplifier(p: Float64Array, at: number, closed: Float64Array, shift: number): void {
  p[at + DH] = closed[DH]! - shift
  p[at + DL] = closed[DL]! + shift
}

export function closeAmplifier(p: Float64Array, at: number, closed: Float64Array): void {
  for (let k = 0; k < AMPLIFIER_DERIVED; k += 1) p[at + k] = closed[k]!
}

/** The middle of the swing of an amplifier on these supplies, in volts. */
export function amplifierMiddle(p: Float64Array, at: number, vP: number, vM: number): number {
  return 0.5 * (vP - p[at + DH]! + vM + p[at + DL]!)
}

/** Volts beyond the middle of the swing, either way, that suffice a plain source to drive the output as hard as the amplifier can. */
export function amplifierReach(p: Float64Array, at: number, vP: number, vM: number): number {
  return Math.abs(vP - vM) + Math.max(p[at + ISRC]!, p[at + ISNK]!) / p[at + RO_INVERSE]!
}

/**
 * Terminals [p, m, out, vP, vM] in `v[from..]`: writes the currents into them to out[to..to+4] and the derivatives
 * d(current t)/d(voltage s) to out[to + 5 + 5t + s].
 */
export function evaluateAmplifier(
  p: Float64Array,
  at: number,
  v: Float64Array,
  from: number,
  out: Float64Array,
  to: number,
): void {
  const vOut = v[from + 2]!
  const vP = v[from + 3]!
  const vM = v[from + 4]!
  const a0 = p[at + A0]!
  const psrrInverse = p[at + PSRR_INVERSE]!
  const halfCmrrInverse = 0.5 * p[at + CMRR_INVERSE]!
  const x = amplifierInput(p, at, v, from)
  const vh = vP - p[at + DH]!
  const vl = vM + p[at + DL]!
  const swing = vh - vl
  const root = Math.sqrt(swing * swing + 0.01)
  const s = 0.25 * (swing + root)
  const dsDswing = s / root

  const u = (a0 * x) / s
  const t = Math.tanh(u)
  const sech2 = 1 - t * t
  const e = 0.5 * (vh + vl) + s * t
  const deDx = a0 * sech2
  const deDs = t - u * sech2

  const roInverse = p[at + RO_INVERSE]!
  const i = (e - vOut) * roInverse
  const limit = i >= 0 ? p[at + ISRC]! : p[at + ISNK]!
  const ti = Math.tanh(i / limit)
  const io = limit * ti
  const gi = (1 - ti * ti) * roInverse

  const ioP = gi * deDx * (1 + halfCmrrInverse)
  const ioM = gi * deDx * (halfCmrrInverse - 1)
  const ioOut = -gi
  const ioVP = gi * (0.5 + deDx * psrrInverse + deDs * dsDswing)
  const ioVM = gi * (0.5 - deDx * (psrrInverse + 2 * halfCmrrInverse) - deDs * dsDswing)

  const tq = Math.tanh(vP - vM)
  const iq = p[at + IQ]! * tq
  const gq = p[at + IQ]! * (1 - tq * tq)
  const rootIo = Math.sqrt(io * io + 1e-12)
  // the smaller of the two shares from the larger, or rounding would leave it as their difference
  const large = 0.5 * (Math.abs(io) + rootIo)
  const small = 0.25e-12 / large
  const fromP = io >= 0 ? large : small
  const intoM = io >= 0 ? small : large
  const dP = fromP / rootIo
  const dM = -intoM / rootIo
  const ib = p[at + IB]!

  out[to] = -ib
  out[to + 1] = -ib
  out[to + 2] = -io
  out[to + 3] = iq + fromP + 2 * ib
  out[to + 4] = -(iq + intoM)
  const j = to + 5
  for (let k = 0; k < 10; k += 1) out[j + k] = 0
  out[j + 10] = -ioP
  out[j + 11] = -ioM
  out[j + 12] = -ioOut
  out[j + 13] = -ioVP
  out[j + 14] = -ioVM
  out[j + 15] = dP * ioP
  out[j + 16] = dP * ioM
  out[j + 17] = dP * ioOut
  out[j + 18] = dP * ioVP + gq
  out[j + 19] = dP * ioVM - gq
  out[j + 20] = -dM * ioP
  out[j + 21] = -dM * ioM
  out[j + 22] = -dM * ioOut
  out[j + 23] = -dM * ioVP - gq
  out[j + 24] = -dM * ioVM + gq
}
