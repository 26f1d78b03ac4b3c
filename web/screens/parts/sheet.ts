/** The parts of one design as a table for a spreadsheet: numbers in SI with their units beside them, texts as they stand. */
import { type Cell, csvText } from '../../handOut/csv.ts'
import { plainName, saveFile } from '../../store/files.ts'
import type { PartRow, PartsDesign } from './rows.ts'

type Column = readonly [title: string, of: (row: PartRow) => Cell]

const other = ({ partNumber, margin }: { partNumber: string; margin: number }): string =>
  `${partNumber} (margin ${margin.toFixed(2)})`

/** Ten significant figures: more would only be the noise of binary fractions. */
const exact = (value: number | undefined): number | undefined =>
  value === undefined ? undefined : Number(value.toPrecision(10))

const COLUMNS: readonly Column[] = [
  ['Id', ({ part }) => part.id],
  ['Role', ({ part }) => part.role],
  ['Value', ({ part }) => exact(part.value)],
  ['Unit', ({ part }) => part.unit],
  ['Part number', ({ part }) => part.partNumber],
  ['Pinned to', ({ pin }) => pin],
  ['Tolerance low', ({ others }) => exact(others?.tolerance?.low)],
  ['Tolerance high', ({ others }) => exact(others?.tolerance?.high)],
  ['Tightest rating', ({ rating }) => rating?.quantity],
  ['Maker allows', ({ rating }) => exact(rating?.rating)],
  ['Derated', ({ rating }) => exact(rating?.allowed)],
  ['Stress', ({ rating }) => exact(rating?.stress)],
  ['Unit of rating', ({ rating }) => rating?.unit],
  ['Margin', ({ rating }) => exact(rating?.margin)],
  ['Price EUR, assumed', ({ line }) => exact(line?.price?.value)],
  ['Area mm², assumed', ({ line }) => (line?.area?.value === undefined ? undefined : exact(line.area.value * 1e6))],
  ['Alternatives by ratings, not proven', ({ others }) => others?.rows.map(other).join('; ')],
  ['Source', ({ part }) => part.source],
  ['Confidence', ({ part }) => part.confidence],
  ['Note', ({ part }) => part.note],
]

/** Header first, one row a part. */
export const partsSheet = ({ rows }: Pick<PartsDesign, 'rows'>): Cell[][] => [
  COLUMNS.map(([title]) => title),
  ...rows.map((row) => COLUMNS.map(([, of]) => of(row))),
]

/** `orchard-frost-logger-shunt-parts.csv` */
export const partsFileName = (title: string, topology: string): string => `${plainName(title)}-${topology}-parts.csv`

/** Hands the table of one design to the browser as a download. */
export function savePartsCsv(design: PartsDesign, title: string): void {
  saveFile(csvText(partsSheet(design)), 'text/csv', partsFileName(title, design.topology))
}
