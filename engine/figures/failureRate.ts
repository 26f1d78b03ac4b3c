import { failureRateOf } from '../analyses/reliability/index.ts'
import { defineFigure } from './define.ts'

export const failureRate = defineFigure<number>({
  name: 'failureRateFit',
  label: 'Failure rate, handbook',
  unit: 'FIT',
  better: 'less',
  help: 'Failures in 10⁹ hours by the part stress models of MIL-HDBK-217F Notice 2, at nominal input, load and ambient. Good for comparing designs and for finding the part that dominates; it forecasts nothing.',
  matters: 'Where nobody can come to repair it, the part that fails first decides how long the whole works.',
  compute: failureRateOf,
  headline: (value) => value,
})
