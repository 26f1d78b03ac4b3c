import { NOT_IN_A_BILL, billOf } from '../analyses/bill/index.ts'
import { defineFigure } from './define.ts'

export const boardArea = defineFigure<number>({
  name: 'boardArea',
  label: 'Board area, assumed',
  unit: 'm²',
  better: 'less',
  help: `Courtyards of the packages and footprints of heatsinks added up; your own take their place under Cost & area. ${NOT_IN_A_BILL}`,
  matters: 'The box has only so much room, and hot parts packed close together heat each other.',
  absent: 'an area is missing',
  resolution: 1e-6,
  compute: ({ design }, assumptions) => billOf(design, assumptions).area.total,
  headline: (value) => value,
})
