/** What the input range costs, in words. */
import type { InputEnd, MarginalCost, TradePoint } from '../../../engine/explore/trade.ts'
import type { TopologyName } from '../../../engine/compare/comparison.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
import { markOf } from '../../charts/marks.ts'
import { figureText } from '../../charts/plot.ts'
import { listed } from '../lane/checks.ts'

export const nameOf = (topology: TopologyName): string => markOf(topology).name.toLowerCase()

/** Which way the end goes when the range becomes wider. */
const beyond = (end: InputEnd): string => (end === 'max' ? 'above' : 'below')

/** Less efficiency than this a volt, a twentieth of a point, is not spoken of. */
const LEAST_LOSS = 5e-4

const points = (share: number): string => {
  const text = figureText(100 * Math.abs(share))
  return `${text} ${text === '1.00' ? 'point' : 'points'}`
}

/** "costs 85.6 mW"; "saves 4.00 mW". */
export const heatCost = (heatPerVolt: number): string =>
  `${heatPerVolt < 0 ? 'saves' : 'costs'} ${formatQuantity(Math.abs(heatPerVolt), 'W')}`

/** What the other end of the step looks like where more than numbers change: "; at 15.4 V: a heatsink of 24 K/W". */
function turns(cost: MarginalCost, there: TopologySized | undefined): string {
  if (!there) return ''
  const turned: string[] = []
  if (cost.changesVariant) turned.push(`circuit ${there.variant}`)
  if (cost.changesHeatsink)
    turned.push(
      there.heatsink ? `a heatsink of ${formatQuantity(there.heatsink.thermalResistance, 'K/W')}` : 'no heatsink',
    )
  if (cost.changedParts.length > 0)
    turned.push(cost.changedParts.length > 3 ? 'other parts' : `another ${listed(cost.changedParts)}`)
  if (cost.changesVerdict) turned.push(there.meets ? 'it meets' : 'it falls short')
  return turned.length > 0 ? `; at ${formatQuantity(cost.to, 'V')}: ${turned.join(', ')}` : ''
}

type TopologySized = TradePoint['designs'][number]

/** "Each volt above 27.0 V costs 85.6 mW of worst heat and 1.52 points of efficiency." */
export function costSentence(cost: MarginalCost, end: InputEnd, points_: readonly TradePoint[]): string {
  const there = points_
    .find(({ input }) => input === cost.to)
    ?.designs.find(({ topology }) => topology === cost.topology)
  const { efficiencyPerVolt: lost } = cost
  const efficiency =
    lost === undefined || Math.abs(lost) < LEAST_LOSS
      ? ''
      : lost < 0
        ? ` and ${points(lost)} of efficiency`
        : `, and gives ${points(lost)} of efficiency`
  const isOut = cost.direction === 'outward'
  const where = isOut
    ? `Each volt ${beyond(end)} ${formatQuantity(cost.from, 'V')}`
    : `The last volt ${end === 'max' ? 'below' : 'above'} ${formatQuantity(cost.from, 'V')}`
  return `${where} ${heatCost(cost.heatPerVolt)} of worst heat${efficiency}${turns(cost, there)}.`
}

/** The finding of the screen: what the next volt on top costs each. */
export function costFinding(costs: readonly MarginalCost[], end: InputEnd): string | undefined {
  const outward = costs
    .filter(({ direction }) => direction === 'outward')
    .toSorted((a, b) => a.heatPerVolt - b.heatPerVolt)
  const [first, ...others] = outward
  if (!first) return undefined
  const rest = others.map(
    ({ topology, heatPerVolt }) =>
      `${nameOf(topology)} ${heatPerVolt < 0 ? '\u2212' : ''}${formatQuantity(Math.abs(heatPerVolt), 'W')}`,
  )
  const clauses = [`${nameOf(first.topology)} ${formatQuantity(Math.abs(first.heatPerVolt), 'W')}`, ...rest]
  return `Each volt ${beyond(end)} ${formatQuantity(first.from, 'V')} ${first.heatPerVolt < 0 ? 'saves' : 'costs'} ${listed(clauses)} of heat.`
}
