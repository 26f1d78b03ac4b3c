/** How far the cursor moves: by keys on the slider, by pixels on the plots. */
import { tickStep } from '../store/scales.ts'
import type { Domain } from './scale.ts'

export const KEY_STEP = 0.1
export const PAGE_STEP = 1

/** Without the dust of binary fractions. */
const round = (volts: number) => Number(volts.toFixed(6))

/** Volts after a key, unclamped; undefined for a key that means nothing here. Home and End go to the required range's ends. */
export function voltsAfterKey(key: string, volts: number, range: Domain): number | undefined {
  switch (key) {
    case 'ArrowRight':
    case 'ArrowUp':
      return round((Math.round(volts / KEY_STEP) + 1) * KEY_STEP)
    case 'ArrowLeft':
    case 'ArrowDown':
      return round((Math.round(volts / KEY_STEP) - 1) * KEY_STEP)
    case 'PageUp':
      return round(volts + PAGE_STEP)
    case 'PageDown':
      return round(volts - PAGE_STEP)
    case 'Home':
      return range.min
    case 'End':
      return range.max
    default:
      return undefined
  }
}

/** Volts under a pointer `across` the plot (0 to 1), rounded to about a pixel but no coarser than a key's step. */
export function voltsAt(across: number, domain: Domain): number {
  const step = Math.min(KEY_STEP, tickStep(domain.max - domain.min, 100))
  const volts = domain.min + Math.min(Math.max(across, 0), 1) * (domain.max - domain.min)
  return round(Math.round(volts / step) * step)
}
