/** Currents of every element at a state, their sum at every node, and the Jacobian. `m`: the workspace's doubles. */
import * as amplifierModule from '../devices/amplifier.ts'
import * as bjtModule from '../devices/bjt.ts'
import * as currentSourceModule from '../devices/currentSource.ts'
import * as diodeModule from '../devices/diode.ts'
import * as referenceModule from '../devices/reference.ts'
import * as driveModule from './drive.ts'
import * as limitingModule from './limiting.ts'
import * as planModule from './plan.ts'

// taken out of their modules once: where a test runner resolves every import anew, these loops would wait for that
const { amplifierInput, amplifierInputScale, evaluateAmplifier } = amplifierModule
const { evaluateBjt } = bjtModule
const { LOAD_FULL_ABOVE, LOAD_KNEE } = currentSourceModule
const { evaluateDiode } = diodeModule
const { evaluateReference } = referenceModule
const { isSteady, limitLoad, nextDrive, rememberDrive, startDrive } = driveModule
const { limitDiode, limitTransistorBc, limitTransistorBe } = limitingModule
const {
  AMPLIFIERS,
  ANCHOR,
  BASE,
  BRANCHES,
  DIAGONAL,
  DIODES,
  ENTRIES,
  F,
  FIXED,
  LOAD,
  LOADS,
  MATRIX,
  REFERENCES,
  RESISTORS,
  SCALE,
  SERIES,
  SIZE,
  STAMPS,
  TERMINAL,
  TRANSISTORS,
  TRUSTED,
} = planModule

/**
 * Fills `out` and `f`. Devices are evaluated no further from their last state than the limiting allows and carried on by
 * their tangent from there; returns whether any of them was, in which case `out` holds tangents and not currents.
 */
export function evaluate(plan: Int32Array, m: Float64Array, isFirst: boolean): boolean {
  const size = plan[SIZE]!
  const fEnd = plan[F]! + size
  // a loop, here and below: the built-in copies cost more than such short arrays take
  for (let k = plan[F]!; k < fEnd; k += 1) m[k] = 0
  const resistorsEnd = plan[RESISTORS + 1]!
  for (let pc = plan[RESISTORS]!; pc < resistorsEnd; pc += 4) {
    const p = plan[pc + 1]!
    const n = plan[pc + 2]!
    const o = plan[pc + 3]!
    const i = m[plan[pc]!]! * (m[p]! - m[n]!)
    m[p + size]! += i
    m[n + size]! -= i
    m[o] = i
    m[o + 1] = -i
  }
  let isLimited = plan[LOADS]! < plan[BRANCHES + 1]! && evaluateSources(plan, m, size, isFirst)
  if (plan[DIODES]! < plan[DIODES + 1]!) isLimited = evaluateDiodes(plan, m, size, isFirst) || isLimited
  if (plan[TRANSISTORS]! < plan[TRANSISTORS + 1]!) isLimited = evaluateTransistors(plan, m, size, isFirst) || isLimited
  if (plan[AMPLIFIERS]! < plan[AMPLIFIERS + 1]!) isLimited = evaluateAmplifiers(plan, m, size, isFirst) || isLimited
  if (plan[REFERENCES]! < plan[REFERENCES + 1]!) evaluateReferences(plan, m, size)
  const seriesEnd = plan[SERIES + 1]!
  for (let pc = plan[SERIES]!; pc < seriesEnd; pc += 3) {
    const outer = plan[pc + 1]!
    const inner = plan[pc + 2]!
    // an inner node holds what the device draws so far: the outer node takes it as it is. Over the resistance it would be a
    // difference of two nearly equal voltages, in which the picoamperes of a blocked junction drown.
    m[outer + size]! += m[inner + size]!
    m[inner + size]! -= m[plan[pc]!]! * (m[outer]! - m[inner]!)
  }
  return isLimited
}

function evaluateSources(plan: Int32Array, m: Float64Array, size: number, isFirst: boolean): boolean {
  const full = m[LOAD]!
  let pc = plan[LOADS]!
  let isLimited = false
  for (const end = plan[LOADS + 1]!; pc < end; pc += 4) {
    const p = plan[pc]!
    const n = plan[pc + 1]!
    const o = plan[pc + 2]!
    const last = plan[pc + 3]!
    const u = (m[p]! - m[n]!) / LOAD_KNEE
    const at = isFirst ? u : limitLoad(u, m[last]!)
    m[last] = at
    // what evaluateLoad does, spared its calls: this runs in every iteration and is flat in regulation
    let i = full
    let g = 0
    if (at < LOAD_FULL_ABOVE) {
      const t = Math.tanh(at)
      i = full * t
      g = (full * (1 - t * t)) / LOAD_KNEE
    }
    if (at !== u) {
      isLimited = true
      i += g * LOAD_KNEE * (u - at)
    }
    m[o] = i
    m[o + 1] = -i
    m[o + 2] = g
    m[o + 3] = -g
    m[o + 4] = -g
    m[o + 5] = g
    m[p + size]! += i
    m[n + size]! -= i
  }
  for (const end = plan[FIXED + 1]!; pc < end; pc += 4) {
    const i = m[plan[pc + 3]!]! * m[SCALE]!
    const o = plan[pc + 2]!
    m[o] = i
    m[o + 1] = -i
    m[plan[pc]! + size]! += i
    m[plan[pc + 1]! + size]! -= i
  }
  for (const end = plan[BRANCHES + 1]!; pc < end; pc += 4) {
    const p = plan[pc]!
    const n = plan[pc + 1]!
    const row = plan[pc + 2]!
    m[row + size]! += m[p]! - m[n]! - m[plan[pc + 3]!]!
    m[p + size]! += m[row]!
    m[n + size]! -= m[row]!
  }
  return isLimited
}

function evaluateDiodes(plan: Int32Array, m: Float64Array, size: number, isFirst: boolean): boolean {
  const scratch = plan[TERMINAL]!
  const end = plan[DIODES + 1]!
  let isLimited = false
  for (let pc = plan[DIODES]!; pc < end; pc += 5) {
    const a = plan[pc]!
    const c = plan[pc + 1]!
    const d = plan[pc + 2]!
    const o = plan[pc + 3]!
    const last = plan[pc + 4]!
    const v = m[a]! - m[c]!
    const limited = limitDiode(m, d, v, m[last]!, isFirst)
    m[last] = limited
    m[scratch] = limited
    m[scratch + 1] = 0
    evaluateDiode(m, d, m, scratch, m, o)
    let i = m[o]!
    if (limited !== v) {
      isLimited = true
      i += m[o + 2]! * (v - limited)
    }
    m[a + size]! += i
    m[c + size]! -= i
  }
  return isLimited
}

function evaluateTransistors(plan: Int32Array, m: Float64Array, size: number, isFirst: boolean): boolean {
  const scratch = plan[TERMINAL]!
  const end = plan[TRANSISTORS + 1]!
  let isLimited = false
  for (let pc = plan[TRANSISTORS]!; pc < end; pc += 6) {
    const c = plan[pc]!
    const b = plan[pc + 1]!
    const e = plan[pc + 2]!
    const d = plan[pc + 3]!
    const o = plan[pc + 4]!
    const last = plan[pc + 5]!
    const vb = m[b]!
    // the emitter's and the collector's voltage at which the junctions are as far on as limiting lets them
    const ve = limitTransistorBe(m, d, vb, m[e]!, m[last]!, isFirst)
    const vc = limitTransistorBc(m, d, vb, m[c]!, m[last + 1]!, isFirst)
    m[last] = vb - ve
    m[last + 1] = vb - vc
    m[scratch] = vc
    m[scratch + 1] = vb
    m[scratch + 2] = ve
    evaluateBjt(m, d, m, scratch, m, o)
    const stepC = m[c]! - vc
    const stepE = m[e]! - ve
    if (stepC !== 0 || stepE !== 0) {
      isLimited = true
      m[o]! += m[o + 3]! * stepC + m[o + 5]! * stepE
      m[o + 1]! += m[o + 6]! * stepC + m[o + 8]! * stepE
      m[o + 2]! += m[o + 9]! * stepC + m[o + 11]! * stepE
    }
    m[c + size]! += m[o]!
    m[b + size]! += m[o + 1]!
    m[e + size]! += m[o + 2]!
  }
  return isLimited
}

function evaluateAmplifiers(plan: Int32Array, m: Float64Array, size: number, isFirst: boolean): boolean {
  const scratch = plan[TERMINAL]!
  const end = plan[AMPLIFIERS + 1]!
  const isSteered = !(m[TRUSTED]! > 0)
  let isLimited = false
  for (let pc = plan[AMPLIFIERS]!; pc < end; pc += 8) {
    const d = plan[pc + 5]!
    const o = plan[pc + 6]!
    const last = plan[pc + 7]!
    for (let t = 0; t < 5; t += 1) m[scratch + t] = m[plan[pc + t]!]!
    const unit = amplifierInputScale(m, d, m, scratch)
    const drive = amplifierInput(m, d, m, scratch) / unit
    let to = drive
    if (isSteered) {
      if (isFirst) to = startDrive(m, d, scratch, last, drive)
      else if (!isSteady(m, last, drive)) to = nextDrive(m, d, scratch, o, last, drive)
    }
    const half = 0.5 * (to - drive) * unit
    if (to !== drive) {
      isLimited = true
      // half on each input, so that the common mode stays
      m[scratch]! += half
      m[scratch + 1]! -= half
    }
    evaluateAmplifier(m, d, m, scratch, m, o)
    rememberDrive(m, scratch, o, last, to)
    if (to !== drive) for (let t = 0; t < 5; t += 1) m[o + t]! -= (m[o + 5 + 5 * t]! - m[o + 6 + 5 * t]!) * half
    for (let t = 0; t < 5; t += 1) m[plan[pc + t]! + size]! += m[o + t]!
  }
  return isLimited
}

function evaluateReferences(plan: Int32Array, m: Float64Array, size: number): void {
  const scratch = plan[TERMINAL]!
  const end = plan[REFERENCES + 1]!
  for (let pc = plan[REFERENCES]!; pc < end; pc += 5) {
    const o = plan[pc + 4]!
    for (let t = 0; t < 3; t += 1) m[scratch + t] = m[plan[pc + t]!]!
    evaluateReference(m, plan[pc + 3]!, m, scratch, m, o)
    for (let t = 0; t < 3; t += 1) m[plan[pc + t]! + size]! += m[o + t]!
  }
}

/** The Jacobian of `f` at the last evaluation, and the sizes of its diagonal. */
export function assemble(plan: Int32Array, m: Float64Array): void {
  const size = plan[SIZE]!
  const base = plan[BASE]!
  const matrix = plan[MATRIX]!
  const entries = plan[ENTRIES]!
  for (let k = 0; k < entries; k += 1) m[matrix + k] = m[base + k]!
  let pc = plan[STAMPS]!
  for (const end = plan[STAMPS + 1]!; pc < end; pc += 2) m[plan[pc]!]! += m[plan[pc + 1]!]!
  const anchor = m[ANCHOR]!
  for (const end = plan[DIAGONAL + 1]!; pc < end; pc += 2) {
    const value = m[plan[pc]!]! + anchor
    m[plan[pc]!] = value
    m[plan[pc + 1]!] = value < 0 ? -value : value
  }
  // what hangs on a node counts with its series resistance, though its balance leaves that to the inner node
  const seriesEnd = plan[SERIES + 1]!
  for (let record = plan[SERIES]!; record < seriesEnd; record += 3)
    m[plan[record + 1]! + 3 * size]! += m[plan[record]!]!
}
