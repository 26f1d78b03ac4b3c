/** A capacitor as the catalogue offers it. */
import type { CatalogueRow } from '../define.ts'

export type CapacitorKind = 'electrolytic' | 'tantalum' | 'class-1-ceramic' | 'class-2-ceramic' | 'film'

/** SI units, degrees Celsius. `partNumber` is the maker's series with value and voltage, or a generic description. */
export interface CapacitorRow extends CatalogueRow {
  readonly kind: CapacitorKind
  readonly farads: number
  readonly voltage: number
  /** Half-width as a fraction. */
  readonly tolerance: number
  /** Typical equivalent series resistance, and its maximum at 20 degC. How each was come by is in the note. */
  readonly esr: number
  readonly esrMax: number
  /** The maximum at the lowest temperature that the sheet gives it for. */
  readonly esrCold?: { readonly ohms: number; readonly temperature: number }
  /** Share of the capacitance lost at half and at full rated voltage; class 2 ceramics alone. */
  readonly biasLoss?: { readonly half: number; readonly full: number }
  /** Ripple current in amperes, at the hottest temperature and 100 kHz. */
  readonly rippleCurrent?: number
  readonly temperatureMax: number
}
