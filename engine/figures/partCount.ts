import { defineFigure } from './define.ts'

export const partCount = defineFigure<number>({
  name: 'partCount',
  label: 'Parts',
  unit: '1',
  better: 'less',
  help: 'Everything bought and placed, heatsink and capacitors included.',
  matters: 'Each part is bought, placed, tested and may fail.',
  compute: (proof) => proof.design.parts.length,
  headline: (value) => value,
})
