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

/**
 * Both collectors share one node. The driver's part of `ic` is found on a logarithmic scale: what its emitter supplies
 * must be what the output's base and the resistor across it take. NaN where no division balances.
 */
function pairDrive(model: DarlingtonModel, ic: number, vce: number, temperature: number): DriveNeeded {
  let low = -30
  let high = -1e-9
  let atLow = Number.NaN
  let atHigh = Number.NaN
  for (let step = 0; step < 80 && high - low > 1e-12; step += 1) {
    // regula falsi once both ends are known, every third step a halving all the same
    const known = !Number.isNaN(atLow) && !Number.isNaN(atHigh) && step % 3 < 2
    const cut = known ? Math.min(Math.max(atLow / (atLow - atHigh), 1e-3), 1 - 1e-3) : 0.5
    const x = low + (high - low) * cut
    const driverIc = ic * Math.exp(x)
    const output = driveOf(model.output, -ic * Math.expm1(x), vce, temperature)
    if (Number.isNaN(output.ib)) {
      // the output cannot carry that much: more for the driver
      low = x
      continue
    }
    const driver = driveOf(model.driver, driverIc, vce - output.vbe, temperature)
    if (Number.isNaN(driver.ib)) {
      high = x
      continue
    }
    const supplied = driverIc + driver.ib + driver.vbe / model.Rbe1
    const miss = Math.log(supplied / (output.ib + output.vbe / model.Rbe2))
    if (Math.abs(miss) < 1e-9) return { ib: driver.ib + driver.vbe / model.Rbe1, vbe: output.vbe + driver.vbe }
    if (miss > 0) {
      high = x
      atHigh = miss
    } else {
      low = x
      atLow = miss
    }
  }
  return { ib: Number.NaN, vbe: Number.NaN }
}
