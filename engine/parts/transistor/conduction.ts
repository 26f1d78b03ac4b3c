/** Gain, base-emitter voltage and saturation of a whole part, Darlington pairs included. */
import { driveOf, type DriveNeeded } from './forward.ts'
import { isDarlington, type DarlingtonModel, type TransistorModel } from './row.ts'

/**
 * Base drive of a part at collector current `ic` (A), `vce` (V) and junction temperature (°C): magnitudes, so PNP alike.
 * NaN in both fields where `vce` cannot carry `ic`.
 */
export function driveAt(model: TransistorModel, ic: number, vce: number, temperature: number): DriveNeeded {
  return isDarlington(model) ? pairDrive(model, ic, vce, temperature) : driveOf(model, ic, vce, temperature)
}

/** Forward DC current gain IC/IB, e.g. 90.2 for a TIP41C at 0.5 A, 2 V, 25 °C. */
export function dcBeta(model: TransistorModel, ic: number, vce: number, temperature: number): number {
  return ic / driveAt(model, ic, vce, temperature).ib
}

/** Base-emitter voltage at the terminals in volts, drops over RB and RE included. */
export function vbeAt(model: TransistorModel, ic: number, vce: number, temperature: number): number {
  return driveAt(model, ic, vce, temperature).vbe
}

/**
 * Collector-emitter voltage at which base current `ib` just carries `ic`, both in amperes: the saturation voltage of a
 * forced gain. NaN where even 20 V is not enough, that is where `ib` is too small for the part's gain.
 */
export function saturationVoltage(model: TransistorModel, ic: number, ib: number, temperature: number): number {
  let low = 0
  let high = 20
  if (!(driveAt(model, ic, high, temperature).ib <= ib)) return Number.NaN
  for (let step = 0; step < 40; step += 1) {
    const vce = (low + high) / 2
    // NaN (not carried at all) compares false and so counts as too little voltage
    if (driveAt(model, ic, vce, temperature).ib <= ib) high = vce
    else low = vce
  }
  return high
}

/** Both collectors share `vce`'s node; the share of the output transistor is found by halving on the driver's emitter current. */
function pairDrive(model: DarlingtonModel, ic: number, vce: number, temperature: number): DriveNeeded {
  let low = 0
  let high = 1
  let found: DriveNeeded = { ib: Number.NaN, vbe: Number.NaN }
  for (let step = 0; step < 60; step += 1) {
    const share = (low + high) / 2
    const output = driveOf(model.output, ic * share, vce, temperature)
    const driver = driveOf(model.driver, ic * (1 - share), vce - output.vbe, temperature)
    const supplied = ic * (1 - share) + driver.ib + driver.vbe / model.Rbe1
    const wanted = output.ib + output.vbe / model.Rbe2
    if (supplied > wanted || Number.isNaN(wanted)) low = share
    else high = share
    if (Number.isNaN(supplied)) high = Math.min(high, share)
    found = { ib: driver.ib + driver.vbe / model.Rbe1, vbe: output.vbe + driver.vbe }
    if (high - low < 1e-9) break
  }
  return found
}
