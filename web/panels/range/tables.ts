/** The numbers behind the pictures of the input range, as rows of texts. */
import type { HeatMap } from '../../../engine/analyses/heatMap.ts'
import type { TradePoint } from '../../../engine/explore/trade.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
import { type DesignColumns, valueAt } from '../../charts/columns.ts'
import { markOf } from '../../charts/marks.ts'
import { figureText } from '../../charts/plot.ts'

export interface Numbers {
  readonly head: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

const NOTHING = '–'
const text = (value: number | undefined, factor = 1): string =>
  value === undefined || !Number.isFinite(value) ? NOTHING : figureText(value * factor)

/** One row an input voltage; each topology's verdict, heat, efficiency at the highest and at the nominal input, and heatsink. */
export function tradeNumbers(points: readonly TradePoint[], present: number): Numbers {
  const names = points[0]?.designs.map(({ topology }) => markOf(topology).name) ?? []
  return {
    head: [
      'Input',
      ...names.flatMap((name) => [
        name,
        `${name} heat, W`,
        `${name} efficiency, highest input, %`,
        `${name} efficiency, nominal input, %`,
        `${name} heatsink, K/W`,
      ]),
    ],
    rows: points.map(({ input, designs }) => [
      formatQuantity(input, 'V') + (input === present ? ', now' : ''),
      ...designs.flatMap((design) => [
        design.heat === undefined ? 'cannot be built' : design.meets ? 'meets' : 'falls short',
        text(design.heat),
        text(design.efficiencyAtHighest, 100),
        text(design.efficiency, 100),
        design.heat === undefined ? NOTHING : design.heatsink ? text(design.heatsink.thermalResistance) : 'none',
      ]),
    ]),
  }
}

/** Every fourth swept input; each part's heat and their sum. */
export function heatNumbers({ input, shares }: DesignColumns): Numbers {
  const axis = input['x']!
  const at = (column: string, volts: number) => text(valueAt(axis, input[column], volts))
  return {
    head: ['Input, V', ...shares.map(({ label }) => `${label}, W`), 'Together, W'],
    rows: [...axis]
      .filter((_, k) => k % 4 === 0)
      .map((volts) => [figureText(volts), ...shares.map((_, k) => at(`part${k}`, volts)), at('heat', volts)]),
  }
}

/** One row a load current, one column an input voltage, watts. */
export function mapNumbers({ inputs, loads, points }: HeatMap): Numbers {
  const heat = new Map(points.map((point) => [`${point.input} ${point.load}`, point.heat]))
  const shown = inputs.filter((_, i) => i % 2 === 0)
  return {
    head: ['Load', ...shown.map((volts) => formatQuantity(volts, 'V'))],
    rows: loads.map((amperes) => [
      formatQuantity(amperes, 'A'),
      ...shown.map((volts) => {
        const watts = heat.get(`${volts} ${amperes}`)
        return watts === undefined ? NOTHING : formatQuantity(watts, 'W')
      }),
    ]),
  }
}
