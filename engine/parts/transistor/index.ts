/** Bipolar transistors. */
export { dcBeta, driveAt, saturationVoltage, vbeAt } from './conduction.ts'
export { type GainCorners, gainCorners, type LeakageCorner, leakageCorner, withGain } from './corners.ts'
export type { DriveNeeded } from './forward.ts'
export { placeTransistor, type TransistorNodes, transistorTolerances, VBE_SPREAD } from './place.ts'
export {
  largestGain,
  leastGain,
  powerShare,
  secondBreakdownShare,
  soaBound,
  type SoaBound,
  soaCurrent,
  vbeOf,
} from './ratings.ts'
export {
  type DarlingtonModel,
  type GainPoint,
  isDarlington,
  type Leakage,
  type SafePoint,
  type SheetPoints,
  type TransistorModel,
  type TransistorRow,
} from './row.ts'
export { TRANSISTORS } from './rows.ts'
export { findTransistor, headlinePower, type TransistorQuery, transistors } from './select.ts'
