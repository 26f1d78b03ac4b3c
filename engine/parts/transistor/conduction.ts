/** Gain, base-emitter voltage and saturation of a whole part, Darlington pairs included. */
import { driveOf, type DriveNeeded } from './forward.ts'
import { risingRoot } from './root.ts'
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
  const miss = (vce: number): number => {
    const needed = driveAt(model, ic, vce, temperature).ib
    // not carried at all: too little voltage
    return Number.isNaN(needed) ? -Infinity : Math.log(ib / needed)
  }
  return risingRoot(miss, 0, 20, 1e-8)
}

/**
 * Both collectors share one node. The driver's part of `ic` is found on a logarithmic scale: what its emitter supplies
 * must be what the output's base and the resistor across it take. NaN where no division balances.
 */
function pairDrive(model: DarlingtonModel, ic: number, vce: number, temperature: number): DriveNeeded {
  let found: DriveNeeded = { ib: Number.NaN, vbe: Number.NaN }
  const excess = (lnPart: number): number => {
    const driverIc = ic * Math.exp(lnPart)
    const output = driveOf(model.output, -ic * Math.expm1(lnPart), vce, temperature)
    // the output cannot carry that much: more for the driver
    if (Number.isNaN(output.ib)) return -Infinity
    const driver = driveOf(model.driver, driverIc, vce - output.vbe, temperature)
    if (Number.isNaN(driver.ib)) return Infinity
    const throughRbe1 = driver.vbe / model.Rbe1
    found = { ib: driver.ib + throughRbe1, vbe: output.vbe + driver.vbe }
    return Math.log((driverIc + driver.ib + throughRbe1) / (output.ib + output.vbe / model.Rbe2))
  }
  return Number.isNaN(risingRoot(excess, -30, -1e-9, 1e-9)) ? { ib: Number.NaN, vbe: Number.NaN } : found
}
