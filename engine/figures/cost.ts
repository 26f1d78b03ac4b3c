import { NOT_IN_A_BILL, billOf } from '../analyses/bill/index.ts'
import { defineFigure } from './define.ts'

export const cost = defineFigure<number>({
  name: 'cost',
  label: 'Cost of parts, assumed',
  unit: 'EUR',
  better: 'less',
  help: `Assumed prices, an order of magnitude and no quote; your own take their place under Cost & area. ${NOT_IN_A_BILL}`,
  matters: 'Every board made pays it again, so a small saving counts in a long run and hardly at all on the bench.',
  digits: 2,
  absent: 'a price is missing',
  resolution: 0.01,
  compute: ({ design }, assumptions) => billOf(design, assumptions).cost.total,
  headline: (value) => value,
})
