/** A package soldered to a board. */
import type { Sourced } from '../define.ts'

/** Still air, one part on the board. Metres, kelvin per watt. */
export interface BoardCopperRow extends Sourced {
  readonly package: string
  /** Copper area that carries the heat away; absent where the sheet speaks of the footprint alone. */
  readonly area?: number
  readonly thickness?: number
  readonly board: string
  /** Junction to ambient over this board. */
  readonly thermalResistance: number
  /** True where another source contradicts it so far that it must not be built on. */
  readonly isDoubtful?: boolean
}
