/** The screen's title: what the next volt costs, or, until that is known, how far the heat goes over the range. */
import type { Answer } from '../../../engine/compare/comparison.ts'
import type { Trade } from '../../../engine/explore/trade.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
import { designColumns, valueAt } from '../../charts/columns.ts'
import { costFinding, nameOf } from '../../panels/range/words.ts'

export function rangeFinding(answer: Answer, trade: Trade | undefined): string {
  const cost = trade && costFinding(trade.costs, trade.end)
  if (cost) return cost
  const { min, max } = answer.comparison.requirements.input
  const clauses = designColumns(answer).flatMap(({ topology, input }) => {
    const at = (volts: number) => valueAt(input['x']!, input['heat'], volts)
    const [low, high] = [at(min), at(max)]
    if (!Number.isFinite(low) || !Number.isFinite(high)) return []
    return [`${nameOf(topology)} from ${formatQuantity(low, 'W')} to ${formatQuantity(high, 'W')}`]
  })
  if (clauses.length === 0) return 'No design has a heat that could be shown over this range.'
  return `From ${formatQuantity(min, 'V')} to ${formatQuantity(max, 'V')} at full load the heat goes in ${clauses.join(', ')}.`
}
