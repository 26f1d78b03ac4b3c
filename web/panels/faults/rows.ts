/** The table of faults: one row a fault that any design has, one cell a design, all voltages on one scale. */
import type { Fault, FaultName } from '../../../engine/analyses/faults/index.ts'
import { type Domain, roundAxis } from '../../charts/scale.ts'
import {
  type Fate,
  type FaultyDesign,
  FATE_WORDS,
  fateOf,
  isOverVoltage,
  outputWords,
  overWords,
  protectionWords,
  worstOfEachPart,
} from './words.ts'

export interface FaultCell {
  readonly part: string | undefined
  readonly output: string
  readonly isOver: boolean
  /** Volts that the load sees; absent where its output is shorted or nothing was solved. */
  readonly range?: { readonly low: number; readonly high: number }
  readonly fate: Fate
  readonly fateWords: string
  readonly over: readonly string[]
  readonly protection: readonly { what: string; text: string }[]
  readonly unsolved: number
}

export interface FaultRow {
  readonly name: FaultName
  readonly title: string
  readonly cells: readonly (FaultCell | undefined)[]
}

export interface FaultTable {
  readonly rows: readonly FaultRow[]
  /** Volts, from zero to a round end. */
  readonly scale: Domain
  readonly ticks: readonly number[]
  readonly band: { readonly low: number; readonly high: number }
}

const FEW = 4

function cellOf(fault: Fault, { faults }: FaultyDesign): FaultCell {
  const fate = fateOf(fault)
  const { output, part, unsolved } = fault
  const isShown = output !== undefined && fault.fault !== 'output-shorted'
  return {
    part,
    output: outputWords(fault),
    isOver: isOverVoltage(fault, faults!),
    ...(isShown ? { range: { low: Math.max(0, output.lowest), high: output.highest } } : {}),
    fate,
    fateWords: FATE_WORDS[fate],
    over: worstOfEachPart(fault.over).map(overWords),
    protection: protectionWords(fault, faults!),
    unsolved: unsolved.length,
  }
}

export function faultTable(designs: readonly FaultyDesign[]): FaultTable {
  const order: Fault[] = []
  for (const { faults } of designs)
    for (const fault of faults?.list ?? []) if (!order.some((each) => each.fault === fault.fault)) order.push(fault)
  const longest = designs.find(
    ({ faults }) => faults && faults.list.length === Math.max(...designs.map((d) => d.faults?.list.length ?? 0)),
  )
  const rank = (name: FaultName): number => longest?.faults?.list.findIndex(({ fault }) => fault === name) ?? 0
  const rows = order
    .map((fault, k) => ({ fault, at: rank(fault.fault) < 0 ? k : rank(fault.fault) }))
    .toSorted((a, b) => a.at - b.at)
    .map(({ fault: { fault: name, title } }): FaultRow => ({
      name,
      title,
      cells: designs.map((one) => {
        const fault = one.faults?.list.find((each) => each.fault === name)
        return fault && cellOf(fault, one)
      }),
    }))
  const band = designs.find(({ faults }) => faults)?.faults?.band ?? { low: 0, high: 1 }
  const highest = Math.max(band.high, ...rows.flatMap(({ cells }) => cells.map((cell) => cell?.range?.high ?? 0)))
  const { max, step } = roundAxis(0, highest, FEW)
  const ticks = Array.from({ length: Math.round(max / step) + 1 }, (_, k) => Number((k * step).toPrecision(12)))
  return { rows, scale: { min: 0, max }, ticks, band }
}
