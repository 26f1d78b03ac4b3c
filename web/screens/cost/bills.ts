/** Cost and board area of each design: the assumptions behind them, one a kind of part, the bills, and the title. */
import { capital } from '../../../engine/units/index.ts'
import type { Assumed, Bill, Sum } from '../../../engine/analyses/bill/index.ts'
import type { Design, TopologyName } from '../../../engine/compare/comparison.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import { PLACED, PRICED } from '../../../engine/requirements/index.ts'
import type { AreaName, PriceName } from '../../../engine/requirements/index.ts'
import { markOf } from '../../charts/marks.ts'
import { figureText } from '../../charts/plot.ts'
import { partText } from '../../panels/parts/uses.ts'

export type BillKind = 'prices' | 'areas'

/** Money to the cent, or finer where it costs less than one; areas all in mm², so that a column can be compared. */
export const amountText = (kind: BillKind, value: number): string =>
  kind === 'areas'
    ? `${figureText(value * 1e6)}\u202Fmm²`
    : `${value > 0 && value < 0.01 ? figureText(value, 1) : value.toFixed(2)}\u202FEUR`

/** One line of a list of assumptions: what holds, where from, and which parts go by it. */
export interface AssumptionRow {
  readonly path: string
  readonly label: string
  /** The catalogue's value as text; empty where it has none, or where each part has its own. */
  readonly catalogue: string
  readonly isOwn: boolean
  readonly isMissing: boolean
  /** "assumed, 2026-11", "read". */
  readonly standing: string
  readonly source: string
  readonly note: string
  /** By design: the ids of its parts. */
  readonly usedBy: readonly { readonly topology: TopologyName; readonly parts: string }[]
}

export interface BillCell {
  readonly text: string
  readonly isOwn: boolean
  readonly isMissing: boolean
}

export interface BillRow {
  readonly part: string
  readonly what: string
  readonly role: string
  readonly price: BillCell
  readonly area: BillCell
}

export interface DesignBill {
  readonly topology: TopologyName
  readonly bill: Bill | undefined
  readonly rows: readonly BillRow[]
  readonly cost: string
  readonly area: string
}

function cell(kind: BillKind, assumed: Assumed<string> | undefined): BillCell {
  const value = assumed?.value
  return {
    text: value === undefined ? 'missing' : amountText(kind, value),
    isOwn: assumed?.isOwn ?? false,
    isMissing: value === undefined,
  }
}

/** The total, or how far it is from one: a missing price is never a zero. */
export function sumText(kind: BillKind, { total, known, counted, of }: Sum): string {
  if (total !== undefined) return amountText(kind, total)
  const word = kind === 'prices' ? 'priced' : 'placed'
  return `${counted} of ${of} ${word}, ${amountText(kind, known)} so far`
}

export function designBills(designs: readonly Design[], inspection: Inspection | undefined): DesignBill[] {
  return designs.map((design, k) => {
    const bill = inspection?.[k]?.bill
    const rows = (bill?.lines ?? []).map(({ part, price, area }): BillRow => {
      const bought = design.parts.find(({ id }) => id === part)
      return {
        part,
        what: bought ? partText(bought).main : '',
        role: bought?.role ?? '',
        price: cell('prices', price),
        area: cell('areas', area),
      }
    })
    return {
      topology: design.topology,
      bill,
      rows,
      cost: bill ? sumText('prices', bill.cost) : 'no circuit',
      area: bill ? sumText('areas', bill.area) : 'no circuit',
    }
  })
}

const labelOf = (kind: BillKind, name: string): string =>
  kind === 'prices' ? PRICED[name as PriceName] : PLACED[name as AreaName]

/** Every kind that a design goes by, in the order in which the designs list their parts. */
export function assumptionRows(kind: BillKind, bills: readonly DesignBill[]): AssumptionRow[] {
  const found = new Map<string, { assumed: Assumed<string>[]; usedBy: Map<TopologyName, string[]> }>()
  for (const { topology, bill } of bills) {
    for (const line of bill?.lines ?? []) {
      const assumed = kind === 'prices' ? line.price : line.area
      if (!assumed) continue
      const entry = found.get(assumed.name) ?? { assumed: [], usedBy: new Map<TopologyName, string[]>() }
      entry.assumed.push(assumed)
      entry.usedBy.set(topology, [...(entry.usedBy.get(topology) ?? []), line.part])
      found.set(assumed.name, entry)
    }
  }
  return [...found].map(([name, { assumed, usedBy }]) => {
    const [first] = assumed as [Assumed<string>, ...Assumed<string>[]]
    const values = [...new Set(assumed.map(({ catalogue }) => catalogue))]
    const [only] = values
    const isOne = values.length === 1
    return {
      path: `assumptions.${kind}.${name}`,
      label: capital(labelOf(kind, name)),
      catalogue: isOne && only !== undefined ? amountText(kind, only) : isOne ? '' : 'each its own',
      isOwn: first.isOwn,
      isMissing: first.value === undefined,
      standing: standingOf(first),
      source: first.source,
      note: first.note ?? '',
      usedBy: [...usedBy].map(([topology, parts]) => ({ topology, parts: parts.join(', ') })),
    }
  })
}

const WORDS: Readonly<Record<Assumed<string>['confidence'], string>> = {
  read: 'read',
  memory: 'from memory',
  derived: 'derived',
  assumption: 'assumed',
}

function standingOf({ confidence, date }: Assumed<string> & { date?: string }): string {
  return date === undefined ? WORDS[confidence] : `${WORDS[confidence]}, ${date}`
}

/** The source that most rows have, so that it need be said once. */
export function mainSource(rows: readonly AssumptionRow[]): string {
  const counts = new Map<string, number>()
  for (const { source, isOwn } of rows) if (!isOwn) counts.set(source, (counts.get(source) ?? 0) + 1)
  return [...counts].toSorted((a, b) => b[1] - a[1])[0]?.[0] ?? ''
}

/** The title: who is cheapest, who is smallest, and by how much the last is behind. */
export function finding(bills: readonly DesignBill[]): string {
  const parts = (['prices', 'areas'] as const).map((kind) => {
    const known = bills
      .flatMap(({ topology, bill }) => {
        const total = kind === 'prices' ? bill?.cost.total : bill?.area.total
        return total === undefined ? [] : [{ name: markOf(topology).name.toLowerCase(), total }]
      })
      .toSorted((a, b) => a.total - b.total)
    const [least] = known
    const most = known.at(-1)
    if (!least || !most) return kind === 'prices' ? 'no design is priced in full' : 'no design is placed in full'
    const [word, verb] = kind === 'prices' ? ['cheapest', 'costs'] : ['smallest', 'takes']
    const about = `about ${amountText(kind, least.total)}`
    if (most === least) return `${least.name} comes to ${about}`
    return `${least.name} is ${word} at ${about}, ${most.name} ${verb} ${amountText(kind, most.total)}`
  })
  const text = `On assumed prices and areas ${parts.join('; ')}.`
  const open = bills.filter(({ bill }) => bill && bill.cost.total === undefined)
  const missing = open.map(
    ({ topology, bill }) => `${markOf(topology).name}: ${bill!.cost.counted} of ${bill!.cost.of} parts priced.`,
  )
  return [text, ...missing].join(' ')
}
