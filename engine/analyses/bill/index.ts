/**
 * What a design costs and how much board it takes, part by part: prices and areas of the catalogue, or the study's own in
 * their place. All of it is assumption: no price is a quote, and an area is a courtyard without tracks and gaps.
 */
import { AREAS, type Confidence, type FoundPart, PRICES, findPart, kindOf } from '../../parts/index.ts'
import type { AreaName, Assumptions, PriceName } from '../../requirements/study.ts'
import type { DesignPart, SizedDesign } from '../../topologies/define.ts'

/** One assumed number of one part. */
export interface Assumed<Name extends string> {
  /** The kind of part or package; its number in the study stands under this name. */
  name: Name
  /** In force: euro or square metres. Absent where there is neither a figure of the catalogue nor one of the study. */
  value?: number
  /** What the catalogue says, in force or not. */
  catalogue?: number
  /** True where the study's own number is in force. */
  isOwn: boolean
  source: string
  confidence: Confidence
  note?: string
}

export interface BillLine {
  part: string
  /** Absent where the lists have no line for the part. */
  price?: Assumed<PriceName> & { date?: string; quantity?: number }
  area?: Assumed<AreaName>
}

/** A sum over the parts; `total` only where none is missing. */
export interface Sum {
  total?: number
  /** The sum of those that are known. */
  known: number
  counted: number
  of: number
}

export interface Bill {
  currency: 'EUR'
  lines: BillLine[]
  /** Euro, parts alone. */
  cost: Sum
  /** Square metres. */
  area: Sum
}

export const NOT_IN_A_BILL =
  'Parts alone: no board, no assembly, no insulating pad, no screw, no delivery. Areas are courtyards: no tracks, no gaps between parts; a large heatsink may stand beside the board.'

const OWN = { isOwn: true, source: 'entered in the study', confidence: 'assumption' } as const

export function billOf(design: Pick<SizedDesign, 'parts'>, assumptions: Assumptions): Bill {
  const lines = design.parts.map((part) => lineOf(part, assumptions))
  return {
    currency: 'EUR',
    lines,
    cost: sumOf(lines.map(({ price }) => price?.value)),
    area: sumOf(lines.map(({ area }) => area?.value)),
  }
}

function lineOf({ id, partNumber }: DesignPart, { prices, areas }: Assumptions): BillLine {
  const found = findPart(partNumber)
  const kind = found && kindOf(found)
  if (!kind) return { part: id }
  return { part: id, price: priceOf(kind.price, prices), area: areaOf(found, kind.area, areas) }
}

export function priceOf(name: PriceName, own: Assumptions['prices']): NonNullable<BillLine['price']> {
  const { price, date, quantity, source, confidence, note } = PRICES[name]
  const catalogue = price === undefined ? {} : { catalogue: price }
  const entered = own[name]
  if (entered !== undefined) return { name, value: entered, ...catalogue, ...OWN }
  return {
    name,
    ...(price === undefined ? {} : { value: price }),
    ...catalogue,
    isOwn: false,
    source,
    confidence,
    ...(note ? { note } : {}),
    date,
    quantity,
  }
}

/** Heatsinks bring their own footprint, all else goes by its package. */
export function areaOf(found: FoundPart, name: AreaName, own: Assumptions['areas']): Assumed<AreaName> {
  const listed = AREAS[name]
  const row =
    found.family === 'heatsink'
      ? {
          area: found.row.footprint,
          source: found.row.source,
          confidence: found.row.memoryFields.includes('footprint') ? ('memory' as const) : found.row.confidence,
          note: listed.source,
        }
      : listed
  const catalogue = row.area === undefined ? {} : { catalogue: row.area }
  const entered = own[name]
  if (entered !== undefined) return { name, value: entered, ...catalogue, ...OWN }
  return {
    name,
    ...(row.area === undefined ? {} : { value: row.area }),
    ...catalogue,
    isOwn: false,
    source: row.source,
    confidence: row.confidence,
    ...(row.note ? { note: row.note } : {}),
  }
}

function sumOf(values: readonly (number | undefined)[]): Sum {
  const given = values.filter((value) => value !== undefined)
  const known = given.reduce((sum, value) => sum + value, 0)
  return {
    ...(given.length === values.length ? { total: known } : {}),
    known,
    counted: given.length,
    of: values.length,
  }
}
