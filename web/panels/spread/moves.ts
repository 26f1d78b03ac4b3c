/** What moves a figure: the slopes of the designs on one scale, the largest first. */
import type { SensitiveFigure } from '../../../engine/compare/boards.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import { capital, formatQuantity } from '../../../engine/units/index.ts'

export const MOVED_FIGURES: readonly { name: SensitiveFigure; label: string }[] = [
  { name: 'output', label: 'output' },
  { name: 'efficiency', label: 'efficiency' },
  { name: 'heat', label: 'heat' },
  { name: 'loadRegulation', label: 'load regulation' },
]

export interface MoveRow {
  readonly words: string
  readonly toHigh: string
  readonly toLow: string
  readonly share: string
  /** Ends of the bars: -1 to 1 of the longest bar of all designs. */
  readonly highEnd: number
  readonly lowEnd: number
}

export interface Moves {
  readonly rows: readonly MoveRow[]
  readonly nominal: string
  /** How many more there are beyond the rows. */
  readonly more: number
}

/** One entry a design; undefined where it has no slopes of this figure. At most `most` rows each. */
export function movesOf(inspection: Inspection, figure: SensitiveFigure, most: number): (Moves | undefined)[] {
  const found = inspection.map(({ sensitivities }) => sensitivities?.figures[figure])
  const longest = Math.max(
    ...found.flatMap((each) => each?.sources.flatMap(({ toHigh, toLow }) => [Math.abs(toHigh), Math.abs(toLow)]) ?? []),
    Number.MIN_VALUE,
  )
  return found.map((each) => {
    if (!each) return undefined
    const rows = each.sources.slice(0, most).map(({ words, toHigh, toLow, share }) => ({
      words: capital(words),
      toHigh: signed(toHigh, each.unit),
      toLow: signed(toLow, each.unit),
      share: shareText(share),
      highEnd: toHigh / longest,
      lowEnd: toLow / longest,
    }))
    return {
      rows,
      nominal: valueText(each.nominal, each.unit),
      more: each.sources.length - rows.length + each.leftOut,
    }
  })
}

/** A figure without a unit is a share. */
const valueText = (value: number, unit: string): string => formatQuantity(value, unit === '1' ? 'fraction' : unit)

function signed(value: number, unit: string): string {
  const text = valueText(value, unit)
  return value > 0 ? `+${text}` : text
}

const shareText = (share: number): string =>
  share < 0.01 ? `<\u202F${formatQuantity(0.01, 'fraction', 1)}` : formatQuantity(share, 'fraction', 2)
