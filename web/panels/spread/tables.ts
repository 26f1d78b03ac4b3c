/** The numbers behind the pictures of the spread, as tables of text. */
import type { BoardSummary, WorstCase } from '../../../engine/compare/boards.ts'
import type { Design } from '../../../engine/compare/comparison.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
import { markOf } from '../../charts/marks.ts'
import { MOVED_FIGURES, movesOf } from './moves.ts'
import { countText } from './words.ts'

export interface TextTable {
  readonly caption: string
  readonly columns: readonly string[]
  /** The first text of a row is its head. */
  readonly rows: readonly (readonly string[])[]
}

/** One more figure than on the page, for those who go on with the numbers. */
const DIGITS = 4
const NONE = '–'
const volts = (value: number | undefined): string => (value === undefined ? NONE : formatQuantity(value, 'V', DIGITS))
const percent = (share: number, digits = DIGITS): string => formatQuantity(share, 'fraction', digits)

type Cell = (summary: BoardSummary | undefined, worstCase: WorstCase | undefined) => string

const where = ({
  condition,
  thermal,
}: {
  condition: { input: number; load: number; ambient: number }
  thermal: string
}) =>
  `at ${formatQuantity(condition.input, 'V')}, ${formatQuantity(condition.load, 'A')}, ${formatQuantity(condition.ambient, '°C')}, ${thermal}`

const ROWS: readonly (readonly [string, Cell])[] = [
  ['Boards', (s) => (s ? countText(s.boards) : NONE)],
  ['Without a solution', (s) => (s ? countText(s.boards - s.solved) : NONE)],
  ['Inside the band', (s) => (s?.yield ? `${countText(s.yield.inside)}, ${percent(s.yield.share)}` : NONE)],
  [
    'Wilson interval of the yield, 95 %',
    (s) => (s?.yield ? `${percent(s.yield.low)} to ${percent(s.yield.high)}` : NONE),
  ],
  ['Too low', (s) => (s?.yield ? countText(s.yield.below) : NONE)],
  ['Too high', (s) => (s?.yield ? countText(s.yield.above) : NONE)],
  ['Mean', (s) => volts(s?.mean)],
  ['Standard deviation', (s) => volts(s?.standardDeviation)],
  ['Lowest board', (s) => volts(s?.lowest)],
  ['Highest board', (s) => volts(s?.highest)],
  ...[0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99].map((share): [string, Cell] => [
    `Percentile ${Math.round(share * 100)} (R-7)`,
    (s) => volts(s?.percentiles.find((each) => each.share === share)?.value),
  ]),
  ['99.7 % of boards, from', (s) => volts(s?.middle?.low)],
  ['99.7 % of boards, to', (s) => volts(s?.middle?.high)],
  ['Root-sum-square, lowest', (_, w) => volts(w?.rootSumSquare?.lowest.value)],
  ['where', (_, w) => (w?.rootSumSquare ? where(w.rootSumSquare.lowest) : NONE)],
  ['Root-sum-square, highest', (_, w) => volts(w?.rootSumSquare?.highest.value)],
  ['where', (_, w) => (w?.rootSumSquare ? where(w.rootSumSquare.highest) : NONE)],
  ['Corners, lowest', (_, w) => volts(w?.corners.lowest.value)],
  ['where', (_, w) => (w ? where(w.corners.lowest) : NONE)],
  ['Corners, highest', (_, w) => volts(w?.corners.highest.value)],
  ['where', (_, w) => (w ? where(w.corners.highest) : NONE)],
]

export function spreadTables(
  designs: readonly Design[],
  inspection: Inspection,
  summaries: readonly (BoardSummary | undefined)[],
): TextTable[] {
  const names = designs.map(({ topology }) => markOf(topology).name)
  return [
    {
      caption: 'Output voltage: boards, root-sum-square and corners',
      columns: ['', ...names],
      rows: ROWS.map(([label, cell]) => [
        label,
        ...designs.map((_, k) => cell(summaries[k], inspection[k]?.worstCase)),
      ]),
    },
    histogramTable(names, summaries),
    ...movesTables(names, inspection),
  ]
}

function histogramTable(names: readonly string[], summaries: readonly (BoardSummary | undefined)[]): TextTable {
  const histograms = summaries.map((summary) => summary?.histogram)
  const width = histograms.find((each) => each)?.width ?? 1
  const first = (from: number): number => Math.round(from / width)
  const bins = histograms.flatMap((each) => (each ? each.counts.map((_, k) => first(each.from) + k) : []))
  const from = Math.min(...bins)
  const decimals = Math.max(0, -Math.floor(Math.log10(width) + 1e-9))
  return {
    caption: `Boards by output voltage, bins of ${formatQuantity(width, 'V')}`,
    columns: ['From, V', ...names],
    rows: Array.from({ length: bins.length > 0 ? Math.max(...bins) - from + 1 : 0 }, (_, k) => [
      ((from + k) * width).toFixed(decimals),
      ...histograms.map((each) => (each ? countText(each.counts[from + k - first(each.from)] ?? 0) : NONE)),
    ]),
  }
}

function movesTables(names: readonly string[], inspection: Inspection): TextTable[] {
  return MOVED_FIGURES.flatMap(({ name, label }) =>
    movesOf(inspection, name, Infinity).flatMap((moves, k) =>
      moves
        ? [
            {
              caption: `${names[k]}: what moves the ${label}, nominally ${moves.nominal}`,
              columns: ['Source', 'To its high limit', 'To its low limit', 'Share of the variance'],
              rows: moves.rows.map(({ words, toHigh, toLow, share }) => [words, toHigh, toLow, share]),
            },
          ]
        : [],
    ),
  )
}
