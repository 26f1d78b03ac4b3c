/**
 * A load profile out of a table of text: one row a line, columns current, share of time, temperature (which may be left out),
 * under a heading or not. Columns are parted by commas, semicolons or tabs; with semicolons a comma is the decimal sign.
 * Values carry units as they do in entries, or take the unit that the heading gives in brackets. All or nothing: any problem,
 * and there are no rows.
 */
import { checkField, labelOf, MOST_ROWS, ROW_FIELDS } from '../../../engine/requirements/index.ts'
import type { Issue, ProfileRow, RowField, Study } from '../../../engine/requirements/index.ts'
import { capital, parseQuantity } from '../../../engine/units/index.ts'

/** The columns in their order. */
export const COLUMNS = [
  { field: 'load', name: 'current', heading: /current|load|\bi\b|\ba\b/iu },
  { field: 'share', name: 'share of time', heading: /share|time|duty|part|fraction|%/iu },
  { field: 'ambient', name: 'temperature', heading: /temp|ambient|°c/iu },
] as const satisfies readonly { field: RowField; name: string; heading: RegExp }[]

export type CsvRead = { rows: ProfileRow[]; problems?: undefined } | { rows?: undefined; problems: string[] }

/** Problems that are listed one by one; the rest is counted. */
const MOST_PROBLEMS = 8
const LONGEST_SHOWN = 40

interface Line {
  /** As the file counts, from 1. */
  number: number
  cells: string[]
}

const shown = (text: string) =>
  `“${text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text.replace(/\s+/gu, ' ')}”`
const refused = (problems: string[]): CsvRead => {
  const more = problems.length - MOST_PROBLEMS
  return {
    problems: more > 0 ? [...problems.slice(0, MOST_PROBLEMS), `And ${more} more problems.`] : problems,
  }
}

/** Reads the text against the study: every problem names its line, its column, its text and what is allowed there. */
export function readProfileCsv(text: string, study: Study): CsvRead {
  const lines = text.replace(/^\uFEFF/u, '').split(/\r\n|\r|\n/u)
  const filled = lines.flatMap((line, k) => (line.trim() === '' ? [] : [{ line, number: k + 1 }]))
  if (filled.length === 0)
    return refused(['The table is empty; it needs a line with a current and its share of the time.'])
  const separator = filled.some(({ line }) => line.includes(';'))
    ? ';'
    : filled.some(({ line }) => line.includes('\t'))
      ? '\t'
      : ','
  const table: Line[] = []
  for (const { line, number } of filled) {
    const cells = cellsOf(line, separator)
    if (!cells) return refused([`Line ${number}: a quotation mark is not closed.`])
    table.push({ number, cells })
  }
  const heading = isHeading(table[0]!) ? table.shift() : undefined
  const misnamed = heading ? headingProblems(heading) : []
  if (misnamed.length > 0) return refused(misnamed)
  if (table.length === 0) return refused(['There is a heading and nothing below it.'])
  if (table.length > MOST_ROWS)
    return refused([`The table has ${table.length} rows; a load profile has at most ${MOST_ROWS}.`])
  const units = COLUMNS.map((_, k) => /[([]([^)\]]+)[)\]]/u.exec(heading?.cells[k] ?? '')?.[1]?.trim())
  const problems: string[] = []
  const rows = table.map((line) => rowOf(line, separator, units, problems))
  const read = rows.filter((row) => row !== undefined)
  const readLines = table.filter((_, k) => rows[k])
  const issues = read.length > 0 ? checkField('profile', read, study) : []
  // a sum says nothing while rows are missing
  const telling = problems.length > 0 ? issues.filter(({ path }) => path !== 'profile') : issues
  const all = [...problems, ...telling.map((issue) => told(issue, readLines))]
  return all.length > 0 ? refused(all.toSorted((a, b) => lineOf(a) - lineOf(b))) : { rows: read }
}

/** The line that a problem names; one about the table as a whole comes last. */
const lineOf = (problem: string): number => Number(/^Line (\d+)/u.exec(problem)?.[1] ?? Infinity)

/** The cells of a line; in quotation marks a separator is text. Undefined where one is left open. */
function cellsOf(line: string, separator: string): string[] | undefined {
  const cells: string[] = []
  let cell = ''
  let isQuoted = false
  for (let k = 0; k < line.length; k++) {
    const c = line[k]!
    if (c === '"' && isQuoted && line[k + 1] === '"') cell += line[++k]!
    else if (c === '"') isQuoted = !isQuoted
    else if (c === separator && !isQuoted) {
      cells.push(cell.trim())
      cell = ''
    } else cell += c
  }
  return isQuoted ? undefined : [...cells, cell.trim()]
}

/** A first line without a value in it: no cell begins as a number does. */
const isHeading = ({ cells }: Line): boolean => cells.every((cell) => !/^[+\-−±]?[.,]?\d/u.test(cell))

function headingProblems({ number, cells }: Line): string[] {
  return cells.flatMap((cell, k) => {
    const column = COLUMNS[k]
    if (column ? column.heading.test(cell) || (cell === '' && k === 2) : cell === '') return []
    const due = column ? `here stands the ${column.name}` : `there are ${COLUMNS.length} columns`
    return [
      `Line ${number}, column ${k + 1}: the heading ${shown(cell)}; ${due}. The columns are ${COLUMNS.map(({ name }) => name).join(', ')}.`,
    ]
  })
}

function rowOf(
  { number, cells }: Line,
  separator: string,
  units: readonly (string | undefined)[],
  problems: string[],
): ProfileRow | undefined {
  const before = problems.length
  const row: ProfileRow = { load: 0, share: 0 }
  COLUMNS.forEach(({ field, name }, k) => {
    const cell = cells[k] ?? ''
    const at = `Line ${number}, column ${k + 1}, ${name}:`
    if (cell === '') {
      if (field !== 'ambient') problems.push(`${at} there is nothing; ${allowed(field)}.`)
      return
    }
    const isBare = /[\d.,]$/u.test(cell)
    const text = separator === ';' ? withPoint(cell) : cell
    const read =
      text === undefined
        ? {
            ok: false as const,
            message: `${shown(cell)} has a point and a comma; between semicolons the comma is the decimal sign.`,
          }
        : parseQuantity(isBare && units[k] ? `${text} ${units[k]}` : text, ROW_FIELDS[field].unit)
    if (read.ok) row[field] = read.value
    else problems.push(`${at} ${read.message.replaceAll(/"([^"]*)"/gu, '“$1”')} ${capital(allowed(field))}.`)
  })
  const stray = cells.findIndex((cell, k) => k >= COLUMNS.length && cell !== '')
  if (stray >= 0)
    problems.push(
      `Line ${number}, column ${stray + 1}: ${shown(cells[stray]!)}; a row has ${COLUMNS.map(({ name }) => name).join(', ')}, and no more.`,
    )
  return problems.length > before ? undefined : row
}

/** A decimal comma as a point; undefined where both are in one value. */
function withPoint(cell: string): string | undefined {
  if (cell.includes(',') && cell.includes('.')) return undefined
  return cell.replace(',', '.')
}

function allowed(field: RowField): string {
  if (field === 'load') return 'a current is due, such as 250 mA'
  if (field === 'share') return 'a share of the time is due, such as 90 %'
  return 'a temperature is due, such as 40 °C, or nothing for the nominal ambient'
}

/** A problem of the checked rows, at its place in the table. */
function told({ path, message }: Issue, table: readonly Line[]): string {
  const [, row, field] = /^profile\.(\d+)\.(\w+)$/u.exec(path) ?? []
  const line = table[Number(row)]
  const column = COLUMNS.findIndex((one) => one.field === field)
  if (!line || column < 0) return message
  const says = message.slice(labelOf(path).length + 1)
  return `Line ${line.number}, column ${column + 1}, ${COLUMNS[column]!.name}: ${shown(line.cells[column] ?? '')} ${says}`
}
