/** Where each design's points come from: its score by criterion, against the most that the criterion could give. */
import type { Answer, TopologyName } from '../../../engine/compare/comparison.ts'

export interface PointsCell {
  readonly topology: TopologyName
  /** Absent where the design is not ranked. */
  readonly points?: number
}

export interface PointsRow {
  readonly criterion: string
  readonly label: string
  readonly weight: number
  /** Points if the design were the best that counts. */
  readonly most: number
  readonly cells: readonly PointsCell[]
}

export interface PointsTable {
  readonly rows: readonly PointsRow[]
  readonly totals: readonly PointsCell[]
  /** The largest `most`: one length for all bars. */
  readonly longest: number
}

/** Weighted criteria, heaviest first. */
export function pointsTable({ comparison, figures, stage }: Answer): PointsTable {
  const { designs, weights } = comparison
  // a rank before the corners are proven would be a guess
  const ranking = stage === 'proven' ? comparison.ranking : []
  const weighted = Object.entries(weights).filter(([, weight]) => weight > 0)
  const sum = weighted.reduce((total, [, weight]) => total + weight, 0)
  // without a circuit there are no figures to give points for
  const built = new Set(designs.filter(({ circuit }) => circuit).map(({ topology }) => topology))
  const entryOf = (topology: TopologyName) =>
    built.has(topology) ? ranking.find((entry) => entry.topology === topology) : undefined
  const rows = weighted
    .toSorted(([, a], [, b]) => b - a)
    .map(([criterion, weight]): PointsRow => {
      const most = (100 * weight) / sum
      const cells = designs.map(({ topology }): PointsCell => {
        const points = entryOf(topology)?.contributions[criterion]
        return points === undefined ? { topology } : { topology, points }
      })
      return {
        criterion,
        label: figures.find(({ name }) => name === criterion)?.label ?? criterion,
        weight,
        most,
        cells,
      }
    })
  const totals = designs.map(({ topology }): PointsCell => {
    const entry = entryOf(topology)
    return entry ? { topology, points: entry.score } : { topology }
  })
  return { rows, totals, longest: Math.max(1e-9, ...rows.map(({ most }) => most)) }
}
