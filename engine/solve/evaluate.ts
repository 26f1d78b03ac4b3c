/** Currents of every element at a state, their sum at every node, and the Jacobian. */
import { amplifierInput, amplifierInputScale, evaluateAmplifier } from '../devices/amplifier.ts'
import { BJT_NFVT, BJT_NRVT, BJT_SIGN, BJT_VCRIT_BC, BJT_VCRIT_BE, evaluateBjt } from '../devices/bjt.ts'
import { LOAD_FULL_ABOVE, LOAD_KNEE } from '../devices/currentSource.ts'
import { DIODE_BV, DIODE_NBVT, DIODE_NVT, DIODE_VCRIT, DIODE_WCRIT, evaluateDiode } from '../devices/diode.ts'
import { evaluateReference } from '../devices/reference.ts'
import type { Layout, SolverWorkspace } from './circuit.ts'
import { limitDrive, limitJunction, startJunction } from './limiting.ts'

/** Sets the voltages that sources fix, `scale` being the share of the sources let through. */
export function setKnown(layout: Layout, ws: SolverWorkspace): void {
  const { pinNode, pinFrom, pinSign, pinValueAt } = layout.sources
  for (let k = 0; k < pinNode.length; k += 1) {
    const at = pinValueAt[k]!
    const value = at < 0 ? ws.input : ws.parameters[at]!
    ws.x[pinNode[k]!] = ws.x[pinFrom[k]!]! + pinSign[k]! * ws.scale * value
  }
}

/**
 * Fills `ws.out` and `ws.f`. Devices are evaluated no further from their last state than the limiting allows and carried
 * on by their tangent from there; returns whether any of them was, in which case `out` holds tangents and not currents.
 */
export function evaluate(layout: Layout, ws: SolverWorkspace, isFirst: boolean): boolean {
  evaluateLinear(layout, ws)
  let isLimited = false
  if (layout.diodes.count > 0) isLimited = evaluateDiodes(layout, ws, isFirst)
  if (layout.transistors.count > 0) isLimited = evaluateTransistors(layout, ws, isFirst) || isLimited
  if (layout.amplifiers.count > 0) isLimited = evaluateAmplifiers(layout, ws, isFirst) || isLimited
  if (layout.references.count > 0) evaluateReferences(layout, ws)
  return isLimited
}

function evaluateLinear(layout: Layout, ws: SolverWorkspace): void {
  const { x, f, out, conductance } = ws
  // loops, here and below: the built-in copies cost more than such short arrays take
  for (let k = 0; k < f.length; k += 1) f[k] = 0
  const { ends, outAt, count } = layout.resistors
  for (let k = 0; k < count; k += 1) {
    const p = ends[2 * k]!
    const m = ends[2 * k + 1]!
    const i = conductance[k]! * (x[p]! - x[m]!)
    f[p]! += i
    f[m]! -= i
    out[outAt[k]!] = i
  }
  if (layout.loads.count > 0) evaluateLoads(layout, ws)
  if (layout.fixed.count > 0) evaluateFixed(layout, ws)
  if (layout.sources.branchRow.length > 0) evaluateBranches(layout, ws)
}

function evaluateLoads(layout: Layout, ws: SolverWorkspace): void {
  const { terminals, outAt, count } = layout.loads
  const { x, f, out } = ws
  const full = ws.load * ws.scale
  for (let k = 0; k < count; k += 1) {
    const p = terminals[2 * k]!
    const m = terminals[2 * k + 1]!
    const o = outAt[k]!
    const u = (x[p]! - x[m]!) / LOAD_KNEE
    // what evaluateLoad does, spared its calls: this runs in every iteration and is flat in regulation
    let i = full
    let g = 0
    if (u < LOAD_FULL_ABOVE) {
      const t = Math.tanh(u)
      i = full * t
      g = (full * (1 - t * t)) / LOAD_KNEE
    }
    out[o] = i
    out[o + 1] = -i
    out[o + 2] = g
    out[o + 3] = -g
    out[o + 4] = -g
    out[o + 5] = g
    f[p]! += i
    f[m]! -= i
  }
}

function evaluateFixed(layout: Layout, ws: SolverWorkspace): void {
  const { terminals, outAt, derivedAt, count } = layout.fixed
  const { f, out, derived, scale } = ws
  for (let k = 0; k < count; k += 1) {
    const i = derived[derivedAt[k]!]! * scale
    const o = outAt[k]!
    out[o] = i
    out[o + 1] = -i
    f[terminals[2 * k]!]! += i
    f[terminals[2 * k + 1]!]! -= i
  }
}

function evaluateBranches(layout: Layout, ws: SolverWorkspace): void {
  const { branchRow, branchPlus, branchMinus, branchValueAt } = layout.sources
  const { x, f } = ws
  for (let k = 0; k < branchRow.length; k += 1) {
    const row = branchRow[k]!
    const at = branchValueAt[k]!
    const value = (at < 0 ? ws.input : ws.parameters[at]!) * ws.scale
    const p = branchPlus[k]!
    const m = branchMinus[k]!
    f[row]! += x[p]! - x[m]! - value
    f[p]! += x[row]!
    f[m]! -= x[row]!
  }
}

function evaluateDiodes(layout: Layout, ws: SolverWorkspace, isFirst: boolean): boolean {
  const { terminals, derivedAt, outAt, count } = layout.diodes
  const { x, f, out, derived, last, terminal } = ws
  let isLimited = false
  for (let k = 0; k < count; k += 1) {
    const p = terminals[2 * k]!
    const m = terminals[2 * k + 1]!
    const d = derivedAt[k]!
    const o = outAt[k]!
    const v = x[p]! - x[m]!
    const limited = limitDiode(derived, d, v, last[k]!, isFirst)
    last[k] = limited
    terminal[0] = limited
    terminal[1] = 0
    evaluateDiode(derived, d, terminal, 0, out, o)
    let i = out[o]!
    if (limited !== v) {
      isLimited = true
      i += out[o + 2]! * (v - limited)
    }
    f[p]! += i
    f[m]! -= i
  }
  return isLimited
}

function limitDiode(derived: Float64Array, d: number, v: number, old: number, isFirst: boolean): number {
  const nvt = derived[d + DIODE_NVT]!
  const nbvt = derived[d + DIODE_NBVT]!
  // the breakdown branch is the forward one in a mirror: w is how far the voltage is beyond BV
  const bv = derived[d + DIODE_BV]!
  const w = -(v + bv)
  if (isFirst) {
    if (v > 0) return startJunction(v, nvt, derived[d + DIODE_VCRIT]!)
    const begun = startJunction(w, nbvt, derived[d + DIODE_WCRIT]!)
    return begun === w ? v : -bv - begun
  }
  const step = v - old
  if (step > 2 * nvt) return limitJunction(v, old, nvt, derived[d + DIODE_VCRIT]!)
  if (step < -2 * nbvt && w > 0) {
    const limited = limitJunction(w, -(old + bv), nbvt, derived[d + DIODE_WCRIT]!)
    return limited === w ? v : -bv - limited
  }
  return v
}

function evaluateTransistors(layout: Layout, ws: SolverWorkspace, isFirst: boolean): boolean {
  const { terminals, derivedAt, outAt, count } = layout.transistors
  const { x, f, out, derived, last, terminal } = ws
  let isLimited = false
  for (let k = 0; k < count; k += 1) {
    const c = terminals[3 * k]!
    const b = terminals[3 * k + 1]!
    const e = terminals[3 * k + 2]!
    const d = derivedAt[k]!
    const o = outAt[k]!
    const j = layout.diodes.count + 2 * k
    const sign = derived[d + BJT_SIGN]!
    const vb = x[b]!
    const vbe = sign * (vb - x[e]!)
    const vbc = sign * (vb - x[c]!)
    const be = limitBjt(vbe, last[j]!, derived[d + BJT_NFVT]!, derived[d + BJT_VCRIT_BE]!, isFirst)
    const bc = limitBjt(vbc, last[j + 1]!, derived[d + BJT_NRVT]!, derived[d + BJT_VCRIT_BC]!, isFirst)
    last[j] = be
    last[j + 1] = bc
    if (be === vbe && bc === vbc) {
      terminal[0] = x[c]!
      terminal[1] = vb
      terminal[2] = x[e]!
      evaluateBjt(derived, d, terminal, 0, out, o)
    } else {
      isLimited = true
      terminal[0] = vb - sign * bc
      terminal[1] = vb
      terminal[2] = vb - sign * be
      evaluateBjt(derived, d, terminal, 0, out, o)
      const stepC = x[c]! - terminal[0]
      const stepE = x[e]! - terminal[2]
      out[o]! += out[o + 3]! * stepC + out[o + 5]! * stepE
      out[o + 1]! += out[o + 6]! * stepC + out[o + 8]! * stepE
      out[o + 2]! += out[o + 9]! * stepC + out[o + 11]! * stepE
    }
    f[c]! += out[o]!
    f[b]! += out[o + 1]!
    f[e]! += out[o + 2]!
  }
  return isLimited
}

function limitBjt(v: number, old: number, nvt: number, vcrit: number, isFirst: boolean): number {
  if (isFirst) return startJunction(v, nvt, vcrit)
  return Math.abs(v - old) > 2 * nvt ? limitJunction(v, old, nvt, vcrit) : v
}

function evaluateAmplifiers(layout: Layout, ws: SolverWorkspace, isFirst: boolean): boolean {
  const { terminals, derivedAt, outAt, count } = layout.amplifiers
  const { x, f, out, derived, last, terminal } = ws
  let isLimited = false
  for (let k = 0; k < count; k += 1) {
    const d = derivedAt[k]!
    const o = outAt[k]!
    const j = layout.diodes.count + 2 * layout.transistors.count + k
    for (let t = 0; t < 5; t += 1) terminal[t] = x[terminals[5 * k + t]!]!
    const unit = amplifierInputScale(derived, d, terminal, 0)
    const drive = amplifierInput(derived, d, terminal, 0) / unit
    const to = isFirst ? drive : limitDrive(drive, last[j]!)
    last[j] = to
    if (to === drive) {
      evaluateAmplifier(derived, d, terminal, 0, out, o)
    } else {
      isLimited = true
      // half on each input, so that the common mode stays
      const half = 0.5 * (to - drive) * unit
      terminal[0]! += half
      terminal[1]! -= half
      evaluateAmplifier(derived, d, terminal, 0, out, o)
      for (let t = 0; t < 5; t += 1) out[o + t]! -= (out[o + 5 + 5 * t]! - out[o + 6 + 5 * t]!) * half
    }
    for (let t = 0; t < 5; t += 1) f[terminals[5 * k + t]!]! += out[o + t]!
  }
  return isLimited
}

function evaluateReferences(layout: Layout, ws: SolverWorkspace): void {
  const { terminals, derivedAt, outAt, count } = layout.references
  const { x, f, out, terminal } = ws
  for (let k = 0; k < count; k += 1) {
    const o = outAt[k]!
    for (let t = 0; t < 3; t += 1) terminal[t] = x[terminals[3 * k + t]!]!
    evaluateReference(ws.derived, derivedAt[k]!, terminal, 0, out, o)
    for (let t = 0; t < 3; t += 1) f[terminals[3 * k + t]!]! += out[o + t]!
  }
}

/** The Jacobian of `f` at the last evaluation into `ws.matrix`, its diagonal's sizes into `ws.diagonal`. */
export function assemble(layout: Layout, ws: SolverWorkspace): void {
  const { stampEntry, stampFrom, diagonalEntry } = layout
  const { matrix, base, out, diagonal, anchor } = ws
  for (let k = 0; k < base.length; k += 1) matrix[k] = base[k]!
  for (let k = 0; k < stampEntry.length; k += 1) matrix[stampEntry[k]!]! += out[stampFrom[k]!]!
  for (let k = 0; k < diagonalEntry.length; k += 1) {
    const entry = diagonalEntry[k]!
    if (entry < 0) continue
    const value = matrix[entry]! + anchor
    matrix[entry] = value
    diagonal[k] = value < 0 ? -value : value
  }
}

/** Continuation: a conductance from every unknown node to its guess, added to the currents. */
export function addAnchor(layout: Layout, ws: SolverWorkspace): void {
  const { unknowns, diagonalEntry, guess } = layout
  for (let k = 0; k < unknowns.length; k += 1) {
    if (diagonalEntry[k]! < 0) continue
    const node = unknowns[k]!
    ws.f[node]! += ws.anchor * (ws.x[node]! - guess[node]!)
  }
}
