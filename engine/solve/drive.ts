/**
 * Where to evaluate what saturates: an amplifier, whose gain makes plain Newton latch on a rail, and a load, whose tanh is
 * flat in regulation. The step of either is taken in its output current: the tangent of the last evaluation says what
 * current the circuit asks of it, and it is evaluated where it delivers just that. A loop of any gain then lands within a
 * few steps. What is kept of an evaluation lies at `last` in the doubles `m`.
 */
import { type AmplifierDrive, FLAT_CURRENT, FLAT_DRIVE, amplifierDriveFor } from '../devices/amplifier.ts'

/** Of an amplifier: its drive, its current over the limit, how long it has been overdriven, its output current, its five voltages. */
export const AMPLIFIER_MEMORY = 9
const DRIVE = 0
const CURRENT = 1
const OVERDRIVEN = 2
const OUTPUT_CURRENT = 3
const VOLTAGES = 4

/** Steps of the drive, in units of S/A0, below this are believed: tanh bends by less than a per cent over them. */
const BELIEVED = 0.1
/** A start is taken at its word up to this drive; beyond it, a guess is right about volts and not about microvolts. */
const CREDIBLE = 3
/** Iterations running in which an input far beyond the swing is taken for a passing one. */
const SATURATED_AFTER = 4
/** A start this far beyond the swing is no tolerance's doing, but an output that is forced or shorted. */
const HOPELESS = 500
const wanted: AmplifierDrive = { drive: 0, current: 0, limit: 0 }

/** The first evaluation: at the drive as it is, or at the one that leaves the output where it stands, unloaded. */
export function startDrive(m: Float64Array, d: number, from: number, last: number, drive: number): number {
  wanted.drive = 0
  wanted.current = 0
  const isCredible = Math.abs(drive) <= CREDIBLE
  if (!isCredible) amplifierDriveFor(m, d, m, from, 0, wanted)
  m[last + CURRENT] = wanted.current
  m[last + OVERDRIVEN] = Math.abs(drive) > HOPELESS ? Math.sign(drive) * (SATURATED_AFTER - 1) : 0
  return isCredible ? drive : wanted.drive
}

/** Steps of the drive this small, well inside the swing, are the end of an iteration: there is nothing to steer. */
const STEADY = 0.02

/** Whether a drive may stay as it is without asking `nextDrive`, which costs as much as the amplifier itself. */
export function isSteady(m: Float64Array, last: number, drive: number): boolean {
  return (
    Math.abs(drive - m[last + DRIVE]!) <= STEADY &&
    Math.abs(drive) <= CREDIBLE &&
    Math.abs(m[last + CURRENT]!) <= 1 &&
    m[last + OVERDRIVEN] === 0
  )
}

/** Any later one. `o` is where the last evaluation left currents and derivatives, `from` where the voltages are now. */
export function nextDrive(m: Float64Array, d: number, from: number, o: number, last: number, drive: number): number {
  const lastDrive = m[last + DRIVE]!
  const lastCurrent = m[last + CURRENT]!
  let io = m[last + OUTPUT_CURRENT]!
  for (let t = 0; t < 5; t += 1) io -= m[o + 15 + t]! * (m[from + t]! - m[last + VOLTAGES + t]!)
  wanted.drive = lastDrive
  wanted.current = lastCurrent
  amplifierDriveFor(m, d, m, from, io, wanted)
  m[last + CURRENT] = wanted.current
  const sense = drive > FLAT_DRIVE ? 1 : drive < -FLAT_DRIVE ? -1 : 0
  const running = m[last + OVERDRIVEN]!
  m[last + OVERDRIVEN] = sense === 0 ? 0 : sense * running >= 0 ? running + sense : sense
  if (Math.abs(drive - wanted.drive) <= BELIEVED) return drive
  // overdriven for so long it does saturate, and no step of its own will change that
  if (Math.abs(m[last + OVERDRIVEN]!) >= SATURATED_AFTER) return drive
  const side = wanted.limit
  if (side === 0) return wanted.drive
  const isBeyond = drive * side >= wanted.drive * side
  if (isBeyond) return lastDrive * side >= FLAT_DRIVE || lastCurrent * side >= FLAT_CURRENT ? drive : wanted.drive
  // the input contradicts the output: back to where it can be steered
  return lastDrive * side > CREDIBLE ? side * CREDIBLE : wanted.drive
}

/** Keeps what the next step needs of an evaluation at the voltages `from`, its currents at `o`. */
export function rememberDrive(m: Float64Array, from: number, o: number, last: number, drive: number): void {
  m[last + DRIVE] = drive
  m[last + OUTPUT_CURRENT] = -m[o + 2]!
  for (let t = 0; t < 5; t += 1) m[last + VOLTAGES + t] = m[from + t]!
}

/** Share of its current up to which a load's tanh still has a slope to steer by, and the voltage there in units of its knee. */
const STEERABLE_LOAD = 0.95
const LOAD_EDGE = Math.atanh(STEERABLE_LOAD)

/**
 * Where a load is evaluated, in units of its knee: as it stands where both ends of the step are flat, else where it draws
 * the current that the last tangent asks for. A shorted output, a load of far more than the circuit can deliver, is
 * thereby found from any start.
 */
export function limitLoad(next: number, old: number): number {
  if (Math.abs(next - old) <= BELIEVED || (next >= LOAD_EDGE && old >= LOAD_EDGE)) return next
  if (old > LOAD_EDGE) return LOAD_EDGE
  if (old < -LOAD_EDGE) return -LOAD_EDGE
  const t = Math.tanh(old)
  const asked = t + (1 - t * t) * (next - old)
  if (asked >= STEERABLE_LOAD) return old >= LOAD_EDGE ? next : LOAD_EDGE
  if (asked <= -STEERABLE_LOAD) return -LOAD_EDGE
  return Math.atanh(asked)
}
