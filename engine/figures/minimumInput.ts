import { defineFigure } from './define.ts'

export const minimumInput = defineFigure<number>({
  name: 'minimumInput',
  label: 'Lowest working input',
  unit: 'V',
  better: 'less',
  help: 'The lowest input at which the worst board still holds the lower edge of the band at full load (or, where it never does, the input at which its output has fallen 2 % below its own value at nominal input).',
  matters: 'Below it the rail is no longer regulated: the load sees the source, less a drop.',
  compute: (proof) => proof.minimumInput.value,
  headline: (value) => value,
})
