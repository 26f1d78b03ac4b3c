import { defineFigure, nominalAt } from './define.ts'

export const noLoadInputCurrent = defineFigure<number>({
  name: 'noLoadInputCurrent',
  label: 'Input current, no load',
  unit: 'A',
  better: 'less',
  help: 'What the rail draws from the input with no load at all, at nominal input.',
  matters: 'It runs a battery down while nothing is being done.',
  resolution: 1e-5,
  compute: (proof) => nominalAt(proof, proof.conditions.noLoad)?.inputCurrent,
  headline: (value) => value,
})
