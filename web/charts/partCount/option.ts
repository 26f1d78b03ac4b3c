/** Parts to buy and place: one square a part, all designs on one scale. */
import type { Comparison, TopologyName } from '../../../engine/compare/comparison.ts'

export interface PartCountRow {
  readonly topology: TopologyName
  /** 0 where nothing could be built. */
  readonly count: number
}

export interface PartCountPlot {
  readonly rows: readonly PartCountRow[]
  /** Squares across: the same for every row, at least 12. */
  readonly across: number
}

export function partCountPlot({ designs }: Comparison): PartCountPlot {
  const rows = designs.map(({ topology, circuit, partCount }) => ({ topology, count: circuit ? partCount : 0 }))
  return { rows, across: Math.max(12, ...rows.map(({ count }) => count)) }
}
