/** The numbers behind the plots as a table: every curve of every design, every swept point. */
import type { Answer, Table, TopologyName } from '../../engine/compare/comparison.ts'
import type { AxisName } from './columns.ts'
import { markOf } from './marks.ts'
import { figureText } from './plot.ts'

export interface PlotTableColumn {
  readonly topology: TopologyName
  readonly label: string
}

export interface PlotTableData {
  readonly caption: string
  readonly axisLabel: string
  readonly columns: readonly PlotTableColumn[]
  /** First the axis value, then one text a column; an en dash where a point has no solution or was not swept. */
  readonly rows: readonly (readonly string[])[]
}

interface Quantity {
  readonly label: string
  readonly factor: number
}

const QUANTITIES: Record<string, Quantity> = {
  output: { label: 'output, V', factor: 1 },
  heat: { label: 'heat, W', factor: 1 },
  efficiency: { label: 'efficiency, %', factor: 100 },
  inputCurrent: { label: 'input current, mA', factor: 1e3 },
  hottest: { label: 'hottest part, °C', factor: 1 },
}

function quantityOf(column: string): Quantity {
  if (column.startsWith('heat.')) return { label: `heat in ${column.slice('heat.'.length)}, mW`, factor: 1e3 }
  return QUANTITIES[column] ?? { label: column, factor: 1 }
}

/** Significant figures of a table cell: one more than on the page, for those who plot the numbers themselves. */
const DIGITS = 4

export function plotTable(answer: Answer, axis: AxisName): PlotTableData {
  const { designs } = answer.comparison
  const tables = designs.flatMap(({ topology }, i) => {
    const curves = answer.curves[i]
    return curves ? [{ topology, table: axis === 'input' ? curves.byInput : curves.byLoad }] : []
  })
  const points = [...new Set(tables.flatMap(({ table }) => [...table.axis]))].toSorted((a, b) => a - b)
  const series = tables.flatMap(({ topology, table }) =>
    Object.keys(table.columns).map((column) => ({ topology, table, column, quantity: quantityOf(column) })),
  )
  const places = new Map<Table, Map<number, number>>(
    tables.map(({ table }) => [table, new Map([...table.axis].map((x, i) => [x, i]))]),
  )
  const perVolt = axis === 'input'
  return {
    caption: perVolt ? 'Against input voltage, at full load' : 'Against load current, at nominal input',
    axisLabel: perVolt ? 'Input, V' : 'Load, mA',
    columns: series.map(({ topology, quantity }) => ({
      topology,
      label: `${markOf(topology).name} ${quantity.label}`,
    })),
    rows: points.map((x) => [
      figureText(perVolt ? x : x * 1e3, DIGITS),
      ...series.map(({ table, column, quantity }) => {
        const i = places.get(table)!.get(x)
        const isSolved = i !== undefined && table.outcome[i] === 0
        return isSolved ? figureText(table.columns[column]![i]! * quantity.factor, DIGITS) : '–'
      }),
    ]),
  }
}
