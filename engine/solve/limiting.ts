/** Keeps Newton's steps where a junction's exponential, or an amplifier's gain, can still be believed. */

/**
 * The largest step that a junction takes from `old` towards `next`, volts. Beyond the knee `vcrit` a step of more than two
 * nvt is taken in the current and not in the voltage (L. W. Nagel, SPICE2, memorandum ERL-M520, Berkeley 1975, on
 * limiting; from memory).
 */
export function limitJunction(next: number, old: number, nvt: number, vcrit: number): number {
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
export function startJunction(v: number, nvt: number, vcrit: number): number {
  return v > vcrit + START_ABOVE * nvt ? vcrit : v
}

/** Drive, in units of S/A0, up to which tanh still has a slope to steer by. */
const STEERABLE = 2

/**
 * The same for an amplifier's input, in units of S/A0. Plain Newton latches on a rail, where tanh is flat: coming back
 * from there begins at the edge of the steerable range, and no step inside it is longer than one unit. Going out it may
 * double, so that an amplifier that is to saturate still gets there.
 */
export function limitDrive(next: number, old: number): number {
  // flat on both sides of the step: nothing to overshoot
  if (next * old > 0 && Math.abs(next) >= STEERABLE && Math.abs(next) <= Math.abs(old)) return next
  const isOutward = Math.abs(next) > Math.abs(old) && next * old >= 0
  if (isOutward && Math.abs(old) >= STEERABLE) {
    const most = 4 * Math.abs(old)
    return Math.abs(next) > most ? Math.sign(next) * most : next
  }
  const from = old > STEERABLE ? STEERABLE : old < -STEERABLE ? -STEERABLE : old
  const step = next - from
  return step > 1 ? from + 1 : step < -1 ? from - 1 : next
}
