import { defineFigure } from './define.ts'

export const outputRipple = defineFigure<number>({
  name: 'outputRipple',
  label: 'Output ripple',
  unit: 'V',
  better: 'less',
  help: 'Peak-to-peak ripple of the output from the stated ripple of the input, at the worst corner, temperatures held, capacitors left out.',
  matters: 'Converters, radios and audio hear it, even where the mean voltage is right.',
  resolution: 1e-5,
  compute: (proof) => proof.outputRipple?.value,
  headline: (value) => value,
})
