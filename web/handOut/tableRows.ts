/** A table of the page as rows: what is seen in it, quantities as numbers in SI with their unit apart. */
import { PREFIXES, parseQuantity } from '../../engine/units/index.ts'
import type { Cell } from './csv.ts'

/** Units that the page writes with an SI prefix, and those that it writes without. */
const PREFIXED = ['V', 'A', 'W', 'Ω', 'F', 'Hz', 's', 'V/V', 'V/A', 'V/K', 'W/K']
const BARE = ['%', '°C', 'K', 'K/W', 'dB', 'EUR', 'mm²', 'cm²', 'm²', 'FIT', 'h']

interface Quantity {
  readonly value: number
  readonly unit: string
}

const QUANTITY = /^([-\u2212]?\d+(?:\.\d+)?)(?:[\s\u00A0\u202F\u2009]+([^\s\d]\S*))?$/u

/** `12.3 mW` is 0.0123 in W; a text that is no single quantity is undefined. */
export function quantityOf(text: string): Quantity | undefined {
  const [, digits, unit = ''] = QUANTITY.exec(text) ?? []
  if (digits === undefined) return undefined
  const number = Number(digits.replace('\u2212', '-'))
  if (unit === '' || BARE.includes(unit)) return { value: number, unit }
  const base = PREFIXED.find((u) => u === unit) ?? PREFIXED.find((u) => isPrefixed(unit, u))
  if (base === undefined) return undefined
  if (base === unit) return { value: number, unit }
  const prefix = unit.slice(0, -base.length)
  // the leading unit alone carries the prefix: mV/K is read as mV
  const parsed = parseQuantity(`${digits.replace('\u2212', '-')} ${prefix}V`, 'V')
  return parsed.ok ? { value: parsed.value, unit: base } : undefined
}

function isPrefixed(unit: string, base: string): boolean {
  return unit.endsWith(base) && PREFIXES.some(({ symbol }) => symbol !== '' && symbol + base === unit)
}

const isHidden = (element: Element) =>
  element.getAttribute('aria-hidden') === 'true' ||
  element.matches('svg, button, [role="tooltip"], .copy-out') ||
  getComputedStyle(element).display === 'none'

/** What is seen in an element, or, where `unseen`, what is said of it to those who do not see. Blocks are parted by a semicolon. */
function textOf(element: Element, unseen: boolean): string {
  const parts: string[] = ['']
  const walk = (node: Node, within: boolean): void => {
    if (node.nodeType === Node.TEXT_NODE) {
      if (within === unseen) parts[parts.length - 1] += (node.textContent ?? '').replaceAll(/[ \t\r\n]+/gu, ' ')
      return
    }
    if (!(node instanceof Element) || isHidden(node)) return
    if (node instanceof HTMLInputElement || node instanceof HTMLSelectElement) {
      const shown = node instanceof HTMLSelectElement ? (node.selectedOptions[0]?.textContent ?? '') : node.value
      if (!unseen) parts[parts.length - 1] += shown
      return
    }
    const isBlock = node !== element && !getComputedStyle(node).display.startsWith('inline')
    if (isBlock || node.tagName === 'BR') parts.push('')
    for (const child of node.childNodes) walk(child, within || node.classList.contains('unseen'))
    if (isBlock) parts.push('')
  }
  walk(element, false)
  return parts
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .join('; ')
}

interface Field {
  readonly text: string
  readonly note: string
}

/** Cells by row and column; a cell over several columns or rows stands in the first, or, of a head, in each. */
function gridOf(rows: Iterable<HTMLTableRowElement>, isHead: boolean): (Field | undefined)[][] {
  const grid: (Field | undefined)[][] = []
  const taken = new Set<string>()
  let r = 0
  for (const row of rows) {
    const line = (grid[r] ??= [])
    let c = 0
    for (const cell of row.cells) {
      while (taken.has(`${r} ${c}`)) c++
      const field = { text: textOf(cell, false), note: textOf(cell, true) }
      for (let down = 0; down < (cell.rowSpan || 1); down++)
        for (let across = 0; across < (cell.colSpan || 1); across++) {
          taken.add(`${r + down} ${c + across}`)
          if ((down === 0 && across === 0) || isHead) (grid[r + down] ??= [])[c + across] = field
        }
      c += cell.colSpan || 1
    }
    void line
    r++
  }
  return grid
}

const DASHES = new Set(['', '–', '—'])

/**
 * The rows of `table`, the head first. A column of quantities in one unit has it in its head; where units differ a column
 * `unit` follows, and a column `note` where something is said beside the values.
 */
export function tableRows(table: HTMLTableElement): Cell[][] {
  const headRows = [...(table.tHead?.rows ?? [])]
  const heads = gridOf(headRows, true)
  const body = gridOf(
    [...table.rows].filter((row) => !headRows.includes(row)),
    false,
  )
  const width = Math.max(0, ...[...heads, ...body].map((row) => row.length))
  const columns = Array.from({ length: width }, (_, c) => {
    const head = [...new Set(heads.map((row) => row[c]?.text || row[c]?.note).filter(Boolean))].join(' ')
    const fields = body.map((row) => row[c])
    const quantities = fields.map((field) => quantityOf(field?.text ?? ''))
    const units = new Set(quantities.flatMap((quantity) => (quantity ? [quantity.unit] : [])))
    const values: Cell[] = fields.map((field, k) => {
      const text = field?.text ?? ''
      return DASHES.has(text) ? undefined : (quantities[k]?.value ?? text)
    })
    const [unit = ''] = units
    const parts: Cell[][] = [[units.size === 1 && unit !== '' ? `${head}, ${unit}` : head, ...values]]
    if (units.size > 1) parts.push([`${head}: unit`, ...quantities.map((quantity) => quantity?.unit)])
    if (fields.some((field) => field && field.note !== '' && field.text !== ''))
      parts.push([`${head}: note`, ...fields.map((field) => field?.note)])
    return parts
  }).flat()
  return Array.from({ length: body.length + 1 }, (_, r) => columns.map((column) => column[r]))
}
