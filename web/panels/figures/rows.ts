/** The figure table's rows: three values, one domain, one limit. Labels, units and directions come from the engine's descriptors. */
import { TERMS, helpOf } from '../../help/terms.ts'
import type { Answer, Design, FigureDescriptor, Figures } from '../../../engine/compare/comparison.ts'
import type { Requirements } from '../../../engine/requirements/study.ts'
import { formatQuantity } from '../../../engine/units/index.ts'

/** A figure read from a design: one number, or a range around a nominal value. */
export interface FigureValue {
  readonly at: number
  readonly low?: number
  readonly high?: number
}

export interface FigureCell {
  readonly text: string
  /** Absent where the figure does not apply: then there is no strip. */
  readonly value?: FigureValue
  readonly isBest: boolean
  readonly isFailing: boolean
}

export interface FigureRow {
  readonly name: string
  readonly label: string
  /** The condition or the limit, under the label. */
  readonly note: string
  readonly help: string
  readonly matters: string
  readonly domain: { readonly min: number; readonly max: number }
  /** Values below `low` or above `high` are not allowed. */
  readonly limit?: { readonly low?: number; readonly high?: number }
  readonly cells: readonly FigureCell[]
}

const MAIN_KEYS = ['fullLoad', 'worst', 'fraction', 'current', 'nominal'] as const

/** Reads a figure by its name or by a dotted path; undefined where it does not apply. */
export function readFigure(figures: Figures | undefined, name: string): FigureValue | undefined {
  let at: unknown = figures
  for (const key of name.split('.')) at = (at as Record<string, unknown> | undefined)?.[key]
  if (typeof at === 'number') return Number.isFinite(at) ? { at } : undefined
  if (typeof at !== 'object' || at === null) return undefined
  const entry = at as Record<string, number | undefined>
  const { lowest, nominal, highest } = entry
  if (lowest !== undefined && nominal !== undefined && highest !== undefined) {
    return { at: nominal, low: lowest, high: highest }
  }
  const key = MAIN_KEYS.find((k) => typeof entry[k] === 'number')
  return key ? { at: entry[key]! } : undefined
}

function limitOf(name: string, { limits, output, input }: Requirements): FigureRow['limit'] {
  switch (name.split('.')[0]) {
    case 'output':
      return { low: output.voltage * (1 - output.tolerance), high: output.voltage * (1 + output.tolerance) }
    case 'minimumInput':
      return { high: input.min }
    case 'loadRegulation':
      return limits.loadRegulation === undefined ? undefined : { high: limits.loadRegulation }
    case 'lineRegulation':
      return limits.lineRegulation === undefined ? undefined : { high: limits.lineRegulation }
    case 'outputRipple':
      return limits.outputRipple === undefined ? undefined : { high: limits.outputRipple }
    default:
      return undefined
  }
}

function noteOf(limit: FigureRow['limit'], unit: string): string {
  if (!limit) return ''
  const { low, high } = limit
  const text = (value: number) => formatQuantity(value, unit)
  if (low !== undefined && high !== undefined) return rangeText(low, high, unit)
  return high === undefined ? `at least ${text(low!)}` : `at most ${text(high)}`
}

/** A count has no unit and no decimals; all else has three figures. */
function valueText(value: number, unit: string, digits?: number): string {
  return (unit === '' || unit === '1') && Number.isInteger(value) ? String(value) : formatQuantity(value, unit, digits)
}

/** "4.65–5.35 V": one unit for both ends where they share it. */
export function rangeText(low: number, high: number, unit: string): string {
  const from = formatQuantity(low, unit)
  const to = formatQuantity(high, unit)
  const [number, symbol] = from.split('\u202F')
  return symbol !== undefined && to.endsWith(`\u202F${symbol}`) ? `${number}–${to}` : `${from}–${to}`
}

function isOutside(value: FigureValue, limit: FigureRow['limit']): boolean {
  if (!limit) return false
  const { low = -Infinity, high = Infinity } = limit
  return (value.low ?? value.at) < low || (value.high ?? value.at) > high
}

function domainOf(values: readonly FigureValue[], limit: FigureRow['limit']): FigureRow['domain'] {
  const all = values.flatMap(({ at, low = at, high = at }) => [at, low, high])
  for (const end of [limit?.low, limit?.high]) if (end !== undefined) all.push(end)
  if (all.length === 0) return { min: 0, max: 1 }
  const low = Math.min(...all)
  const high = Math.max(...all)
  // from zero where lengths can be compared as amounts; otherwise just around the values
  const isAmount = low >= 0 && low < 0.7 * high
  const span = high - low || Math.abs(high) || 1
  return isAmount ? { min: 0, max: high * 1.12 } : { min: low - 0.18 * span, max: high + 0.18 * span }
}

/** Distance of a range from what is asked: the narrower range is the better one. */
function spreadOf({ at, low = at, high = at }: FigureValue): number {
  return high - low
}

function bestOf(values: readonly (FigureValue | undefined)[], better: FigureDescriptor['better']): number | undefined {
  const present = values.filter((v) => v !== undefined)
  if (present.length < 2) return undefined
  const isRange = present.every(({ low }) => low !== undefined)
  const merits = present.map((v) => (isRange ? -spreadOf(v) : better === 'less' ? -v.at : v.at))
  const best = Math.max(...merits)
  return best > Math.min(...merits) ? best : undefined
}

function cellsOf(
  values: readonly (FigureValue | undefined)[],
  figure: FigureDescriptor,
  limit: FigureRow['limit'],
  isBuilt: readonly boolean[],
): FigureCell[] {
  const best = bestOf(values, figure.better)
  return values.map((value, i) => {
    if (!value)
      return { text: isBuilt[i] ? (figure.absent ?? 'does not apply') : 'no circuit', isBest: false, isFailing: false }
    const { at, low, high } = value
    const isRange = low !== undefined && high !== undefined
    const merit = isRange ? -spreadOf(value) : figure.better === 'less' ? -at : at
    const isFailing = isOutside(value, limit)
    return {
      text: isRange ? rangeText(low, high, figure.unit) : valueText(at, figure.unit, figure.digits),
      value,
      isBest: merit === best && !isFailing,
      isFailing,
    }
  })
}

function figureRow(
  figure: FigureDescriptor,
  designs: readonly Design[],
  requirements: Requirements,
): FigureRow | undefined {
  const values = designs.map(({ figures }) => readFigure(figures, figure.name))
  if (values.every((value) => value === undefined)) return undefined
  const limit = limitOf(figure.name, requirements)
  return {
    name: figure.name,
    label: figure.label,
    note: noteOf(limit, figure.unit),
    help: figure.help,
    matters: figure.matters,
    domain: domainOf(
      values.filter((v) => v !== undefined),
      limit,
    ),
    ...(limit && { limit }),
    cells: cellsOf(
      values,
      figure,
      limit,
      designs.map(({ circuit }) => circuit !== undefined),
    ),
  }
}

/** Whether each design outlives a shorted output: words under the current that then flows. */
function shortRow({ designs, requirements }: Answer['comparison']): FigureRow | undefined {
  const fates = designs.map(({ figures }) => figures?.shortCircuit?.survives)
  if (fates.every((fate) => fate === undefined)) return undefined
  const isAsked = requirements.limits.survivesShort
  return {
    name: 'shortCircuit.survives',
    label: 'Survives the short',
    note: isAsked ? 'required' : '',
    ...helpOf(TERMS.survivesShort),
    domain: { min: 0, max: 1 },
    cells: fates.map((fate) => ({
      text: fate === undefined ? 'no circuit' : fate ? 'yes' : 'no',
      isBest: false,
      isFailing: isAsked && fate === false,
    })),
  }
}

/** One row a descriptor, in their order, and one on the short's outcome; a figure that no design has makes no row. */
export function figureRows({ comparison, figures, stage }: Answer): FigureRow[] {
  const rows = figures.flatMap((figure) => {
    const row = figureRow(figure, comparison.designs, comparison.requirements)
    if (!row) return []
    const fate = figure.name === 'shortCircuit' ? shortRow(comparison) : undefined
    return fate ? [row, fate] : [row]
  })
  return stage === 'proven' ? rows : rows.map(unjudged)
}

/** Figures that no corner has a part in; all others are worst cases. */
const WITHOUT_CORNERS: readonly string[] = ['efficiency', 'partCount']

/** Before the corners are proven no worst case is known, and none is best or failing. */
function unjudged(row: FigureRow): FigureRow {
  const isKnown = WITHOUT_CORNERS.includes(row.name)
  const open = { isBest: false, isFailing: false }
  return { ...row, cells: row.cells.map((cell) => (isKnown ? { ...cell, ...open } : { text: '–', ...open })) }
}
