/** What a transistor may carry. */
import { dcBeta, vbeAt } from './conduction.ts'
import { strongest, weakest } from './corners.ts'
import type { SafePoint, TransistorRow } from './row.ts'

/** Share of the second-breakdown current left at 150 °C case temperature. BD139 data sheet; assumed for the others. */
const SECOND_BREAKDOWN_AT_150 = 0.4

/** Share of the 25 °C power left at a case temperature in °C: 1 up to 25 °C, 0 at the junction's maximum. */
export function powerShare(row: TransistorRow, caseTemperature: number): number {
  return clamp((row.Tj_max - caseTemperature) / (row.Tj_max - 25))
}

/** Share of the 25 °C second-breakdown current left at a case temperature in °C: straight through 40 % at 150 °C. */
export function secondBreakdownShare(caseTemperature: number): number {
  return clamp(1 - ((1 - SECOND_BREAKDOWN_AT_150) * (caseTemperature - 25)) / 125)
}

/**
 * Largest continuous collector current in amperes at `vce` (V) and a case temperature (°C), full ratings:
 * min(IC,max, P25·kT/VCE, I_sb25(VCE)·k_sb). 0 above VCEO. P25 is the case rating, or the one in still air where the
 * sheet has no other; I_sb25 runs straight between the sheet's points on logarithmic scales.
 */
export function soaCurrent(row: TransistorRow, vce: number, caseTemperature: number): number {
  if (vce > row.VCEO) return 0
  return Math.min(row.Ic_max, powerCurrent(row, vce, caseTemperature), secondBreakdownAt(row, vce, caseTemperature))
}

/** Which of its limits the safe operating area ends at. */
export type SoaBound = 'current' | 'power' | 'second-breakdown' | 'voltage'

/** The limit that `soaCurrent` ends at; the power before second breakdown, the current before both, where they meet. */
export function soaBound(row: TransistorRow, vce: number, caseTemperature: number): SoaBound {
  const current = soaCurrent(row, vce, caseTemperature)
  if (vce > row.VCEO) return 'voltage'
  if (current === row.Ic_max) return 'current'
  return current === powerCurrent(row, vce, caseTemperature) ? 'power' : 'second-breakdown'
}

/** Amperes that the power at a case temperature allows. */
function powerCurrent(row: TransistorRow, vce: number, caseTemperature: number): number {
  const power = (row.Pcase ?? row.Pambient) * powerShare(row, caseTemperature)
  return vce > 0 ? power / vce : Infinity
}

function secondBreakdownAt(row: TransistorRow, vce: number, caseTemperature: number): number {
  return secondBreakdownCurrent(row.safeArea, vce) * secondBreakdownShare(caseTemperature)
}

/** The branch beyond the thermal corner, its first slope carried on to lower voltages; unlimited without points. */
function secondBreakdownCurrent(area: readonly SafePoint[], vce: number): number {
  const branch = area.slice(1)
  if (branch.length < 2 || vce <= 0) return Infinity
  let at = branch.findIndex((p) => p.Vce >= vce)
  if (at < 0) at = branch.length - 1
  const a = branch[Math.max(at, 1) - 1]!
  const b = branch[Math.max(at, 1)]!
  const slope = Math.log(b.Ic / a.Ic) / Math.log(b.Vce / a.Vce)
  return a.Ic * (vce / a.Vce) ** slope
}

/** Least gain at `ic` (A), `vce` (V) and a junction temperature (°C): the low corner of the model. NaN where `vce` is too small. */
export function leastGain(row: TransistorRow, ic: number, vce: number, temperature: number): number {
  return dcBeta(weakest(row), ic, vce, temperature)
}

/** Largest gain at the same conditions: the high corner. */
export function largestGain(row: TransistorRow, ic: number, vce: number, temperature: number): number {
  return dcBeta(strongest(row), ic, vce, temperature)
}

/** Nominal base-emitter voltage at the same conditions, volts. */
export function vbeOf(row: TransistorRow, ic: number, vce: number, temperature: number): number {
  return vbeAt(row.model, ic, vce, temperature)
}

function clamp(share: number): number {
  return Math.min(1, Math.max(0, share))
}
