/** The parts of each design as one list: what to buy, how hard it is used, how far it strays, what it costs, what else would do. */
import type { PartAlternatives } from '../../../engine/analyses/alternatives/index.ts'
import type { BillLine } from '../../../engine/analyses/bill/index.ts'
import type { RatingUse } from '../../../engine/analyses/ratings.ts'
import type { Design, Part, TopologyName } from '../../../engine/compare/comparison.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import type { PinCost } from '../../../engine/compare/pinCost.ts'
import type { Study } from '../../../engine/requirements/study.ts'
import { capital, formatQuantity } from '../../../engine/units/index.ts'
import { markOf } from '../../charts/marks.ts'
import { apart } from '../../panels/heat/words.ts'
import { partText } from '../../panels/parts/uses.ts'
import { QUANTITY_WORDS, amount, percentText } from '../../panels/ratings/words.ts'
import { type Pin, pinText, pinsOf } from '../../store/pins.ts'
import { amountText } from '../cost/bills.ts'

export interface PartRow {
  readonly part: Part
  readonly main: string
  readonly more: string
  /** "±5 %", "−20 to +80 %"; empty where one figure would not do. */
  readonly tolerance: string
  /** The rating with the least margin: "power, 120 of 125 mW allowed"; empty where the part has none. */
  readonly tightest: string
  /** "rated 250 mW", the maker's. */
  readonly rated: string
  readonly margin: string
  readonly isOver: boolean
  readonly price: string
  readonly area: string
  readonly rating?: RatingUse
  readonly line?: BillLine
  readonly others?: PartAlternatives
  /** What it is pinned to; undefined where it is free. */
  readonly pin: string | undefined
}

export interface PartsDesign {
  readonly topology: TopologyName
  readonly design: Design
  readonly rows: readonly PartRow[]
  readonly pins: readonly (Pin & { readonly text: string; readonly cost: PinCost | undefined })[]
  readonly cost: string
  readonly area: string
}

const figure = (fraction: number): string => String(Number((Math.abs(fraction) * 100).toPrecision(2)))

export const toleranceText = (tolerance: PartAlternatives['tolerance']): string => {
  if (!tolerance) return ''
  const { low, high } = tolerance
  if (Math.abs(low + high) < 0.01 * (high - low)) return `±${figure(high)}\u202F%`
  return `−${figure(low)} to +${figure(high)}\u202F%`
}

function tightestOf(ratings: readonly RatingUse[]): RatingUse | undefined {
  return ratings.toSorted((a, b) => a.margin - b.margin)[0]
}

function tightText(rating: RatingUse | undefined): { tightest: string; rated: string } {
  if (!rating) return { tightest: '', rated: '' }
  const { quantity, unit, stress, allowed, sense } = rating
  const words = QUANTITY_WORDS[quantity] ?? quantity
  const [got, limit] = allowed === undefined ? [amount(stress, unit)] : apart(stress, allowed, unit)
  const numbers = limit === undefined ? got : sense === 'max' ? `${got} of ${limit} allowed` : `${got}, ${limit} needed`
  return { tightest: `${words}, ${numbers}`, rated: `rated ${amount(rating.rating, unit)}` }
}

/** One entry a design, in the order of the comparison. */
export function partsDesigns(
  designs: readonly Design[],
  inspection: Inspection | undefined,
  study: Pick<Study, 'pins'>,
): PartsDesign[] {
  return designs.map((design, k) => {
    const { bill, ratings = [], alternatives = [], pinCost = [] } = inspection?.[k] ?? {}
    const pins = pinsOf(study, design.topology).map((pin) => ({
      ...pin,
      text: pinText(pin.topology, pin.part, pin.pin),
      cost: pinCost.find((cost) => cost.part === pin.part && cost.pin === pin.pin),
    }))
    const rows = design.parts.map((part): PartRow => {
      const line = bill?.lines.find((each) => each.part === part.id)
      const others = alternatives.find((each) => each.part === part.id)
      const rating = tightestOf(ratings.filter((each) => each.part === part.id))
      const { main, more } = partText(part)
      return {
        part,
        main,
        more,
        tolerance: toleranceText(others?.tolerance),
        ...tightText(rating),
        margin: rating ? percentText(Math.max(rating.margin, -9.99)) : '',
        isOver: (rating?.margin ?? 0) < 0,
        price: line?.price?.value === undefined ? '–' : amountText('prices', line.price.value),
        area: line?.area?.value === undefined ? '–' : amountText('areas', line.area.value),
        ...(rating && { rating }),
        ...(line && { line }),
        ...(others && { others }),
        pin: pins.find((pin) => pin.part === part.id)?.text,
      }
    })
    return {
      topology: design.topology,
      design,
      rows,
      pins,
      cost: totalText('prices', bill?.cost.total),
      area: totalText('areas', bill?.area.total),
    }
  })
}

const totalText = (kind: 'prices' | 'areas', total: number | undefined): string =>
  total === undefined ? 'open' : amountText(kind, total)

/** "5 others would do", by ratings alone. */
export function othersText({ rows, of }: PartAlternatives): string {
  if (of === 0) return 'no other'
  const shown = rows.length < of ? `${rows.length} of ${of}` : String(of)
  return `${shown} ${of === 1 ? 'other' : 'others'}`
}

const plainUnit = (unit: string): string => (unit === '1' ? '' : unit)

/** A figure as it stands; a dash where the design has none. */
export const figureText = (unit: string, value: number | undefined): string =>
  value === undefined ? '–' : formatQuantity(value, plainUnit(unit), unit === 'EUR' ? 2 : 3)

/** `+210 mW`, `−0.05 EUR`, `none`. */
export function changeText(unit: string, change: number | undefined): string {
  if (change === undefined || change === 0) return change === 0 ? 'none' : '–'
  return `${change < 0 ? '−' : '+'}${figureText(unit, Math.abs(change))}`
}

/** The title: how many parts each takes, the one with the least to spare, and what is pinned. */
export function partsFinding(designs: readonly PartsDesign[]): string {
  const built = designs.filter(({ rows }) => rows.length > 0)
  const pins = designs.flatMap((each) => each.pins.map((pin) => ({ ...pin, design: each })))
  const lost = designs.filter((each) => each.rows.length === 0 && each.pins.length > 0)
  const pinned =
    pins.length === 0
      ? ''
      : pins.length === 1
        ? ` ${pins[0]!.part} of ${markOf(pins[0]!.topology).name.toLowerCase()} is pinned.`
        : ` ${pins.length} parts are pinned.`
  const stuck = lost.map(
    ({ topology, pins: own }) =>
      ` With ${own.length === 1 ? `${own[0]!.part} pinned to ${own[0]!.text}` : `${own.length} pins`} no ${markOf(topology).name.toLowerCase()} design can be built.`,
  )
  if (built.length === 0) return `Nothing could be built, so there is nothing to buy.${stuck.join('') || pinned}`
  const counts = built.map(({ topology, rows }) => `${markOf(topology).name.toLowerCase()} takes ${rows.length} parts`)
  const tight = built
    .flatMap(({ topology, rows }) => rows.flatMap((row) => (row.rating ? [{ topology, row, rating: row.rating }] : [])))
    .toSorted((a, b) => a.rating.margin - b.rating.margin)[0]
  const least = tight
    ? `; ${tight.row.part.id} of ${markOf(tight.topology).name.toLowerCase()} ${tight.rating.margin < 0 ? 'is over its rating' : 'has the least to spare'} (${tight.row.tightest})`
    : ''
  return `${capital(counts.join(', '))}${least}.${stuck.length > 0 ? stuck.join('') : pinned}`
}
