/** The two conversions that hide an offset or a logarithm; nothing outside this folder converts either. */

/** 0 degrees Celsius in kelvin, exact by definition (SI brochure, 9th edition, section 2.3.1). */
export const ZERO_CELSIUS = 273.15

/** Degrees Celsius to kelvin. */
export function toKelvin(celsius: number): number {
  return celsius + ZERO_CELSIUS
}

/** Kelvin to degrees Celsius. */
export function toCelsius(kelvin: number): number {
  return kelvin - ZERO_CELSIUS
}

/** A ratio of voltages or currents in decibels, 20·log10; the sign of the ratio is a phase and is dropped. 10 is 20 dB, 0 is minus infinity. */
export function decibels(ratio: number): number {
  return 20 * Math.log10(Math.abs(ratio))
}

/** Decibels to the ratio of voltages or currents: 20 dB is 10. */
export function fromDecibels(decibel: number): number {
  return 10 ** (decibel / 20)
}
