import { defineFigure } from './define.ts'

export const headroom = defineFigure<number>({
  name: 'headroom',
  label: 'Input headroom',
  unit: 'V',
  better: 'more',
  help: 'How far the lowest required input lies above the lowest working input. Below zero the output sags before the input does.',
  matters: 'It is the sag that the source may have on a bad day: a long cable, a weak battery, a ripple not counted.',
  compute: (proof) => proof.requirements.input.min - proof.minimumInput.value,
  headline: (value) => value,
})
