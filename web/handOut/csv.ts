/**
 * Rows as a CSV text that a spreadsheet opens clean: UTF-8 with a byte order mark, commas, CRLF, quotes where they are needed
 * (RFC 4180). Numbers are written with a plain point and minus.
 */

export type Cell = string | number | undefined

/** U+FEFF, by which spreadsheets know that a file is UTF-8. */
export const BYTE_ORDER_MARK = '\uFEFF'

const PLAIN_NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/iu

/** What a spreadsheet may take for the beginning of a formula; spaces before it do not hide it from every program. */
const FORMULA = /^\s*[=+\-@]|^[\t\r]/u

/** True for a text that is a number and nothing else: `-0.25`, `1e-9`. */
export const isPlainNumber = (text: string): boolean => PLAIN_NUMBER.test(text)

/**
 * A cell as CSV writes it. A missing value, NaN and infinities are an empty cell. A text that a spreadsheet could take for a
 * formula gets an apostrophe in front, by which it is read as text; a number keeps its sign.
 */
export function csvCell(cell: Cell): string {
  if (cell === undefined) return ''
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : ''
  // the page's true minus is no sign to a spreadsheet
  const plain = cell.replace(/^\u2212(?=[\d.])/u, '-')
  const text = isPlainNumber(plain) ? plain : cell
  const harmless = FORMULA.test(text) && !isPlainNumber(text) ? `'${text}` : text
  return /[",\r\n]/u.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless
}

/** The rows as one text, the head first; every line ends in CRLF. */
export function csvText(rows: readonly (readonly Cell[])[]): string {
  return BYTE_ORDER_MARK + rows.map((row) => `${row.map(csvCell).join(',')}\r\n`).join('')
}
