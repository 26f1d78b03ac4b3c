/** Physical constants and what every junction shares. */
import { toKelvin } from '../units/scales.ts'

/** Boltzmann constant in J/K, exact by definition of the SI (2019). */
export const BOLTZMANN = 1.380649e-23
/** Elementary charge in C, exact by definition of the SI (2019). */
export const ELEMENTARY_CHARGE = 1.602176634e-19

/** kT/q in volts at a temperature in degrees Celsius; 25 degC gives 25.692579 mV. */
export function thermalVoltage(celsius: number): number {
  return (BOLTZMANN / ELEMENTARY_CHARGE) * toKelvin(celsius)
}

/**
 * Natural logarithm of IS(T)/IS(TNOM): XTI·ln(r) + (r - 1)·EG/VT(T) with r the ratio of the absolute temperatures.
 * The usual temperature law of circuit simulation (A. Vladimirescu, The SPICE Book, 1994, appendix A; from memory).
 */
export function saturationLogRatio(celsius: number, TNOM: number, EG: number, XTI: number): number {
  const r = toKelvin(celsius) / toKelvin(TNOM)
  return XTI * Math.log(r) + ((r - 1) * EG) / thermalVoltage(celsius)
}

/** Above this argument an exponential goes on as its own tangent, so that no current overflows. */
export const LINEAR_ABOVE = 80
export const E_AT_LIMIT = Math.exp(LINEAR_ABOVE)
/** Below this argument e^x is taken as 0: under 1e-17 of the 1 that it is compared with, and not worth its time. */
export const ZERO_BELOW = -40

/**
 * e^x, continued by its tangent above `LINEAR_ABOVE` and cut to 0 below -40. The junctions of diode and
 * transistor have it written out: a call that is not inlined puts its number on the heap.
 */
export function guardedExp(x: number): number {
  if (x < ZERO_BELOW) return 0
  return x < LINEAR_ABOVE ? Math.exp(x) : E_AT_LIMIT * (1 + x - LINEAR_ABOVE)
}

/** Slope of `guardedExp` at x, given its value there. */
export function guardedExpSlope(x: number, value: number): number {
  return x < LINEAR_ABOVE ? value : E_AT_LIMIT
}

/** 1/x for a parameter whose published default is infinite; 0 stands for infinite too, as the published tables have it. */
export function inverseOrZero(x: number): number {
  return x > 0 ? 1 / x : 0
}

/**
 * Voltage where the curve of is·e^(v/nvt) turns sharpest, nvt·ln(nvt/(sqrt(2)·is)), 0 at the least: beyond it Newton's
 * steps want limiting (L. W. Nagel, SPICE2, memorandum ERL-M520, Berkeley 1975; from memory).
 */
export function criticalVoltage(nvt: number, is: number): number {
  return Math.max(0, nvt * Math.log(nvt / (Math.SQRT2 * is)))
}
