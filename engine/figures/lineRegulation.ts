import { defineFigure } from './define.ts'
import { type Regulation, regulation } from './loadRegulation.ts'

export const lineRegulation = defineFigure<Regulation>({
  name: 'lineRegulation',
  label: 'Line regulation',
  unit: '%',
  better: 'less',
  help: 'How far the output of one same board moves from the lowest to the highest input, over the nominal output: the worse of temperatures held and temperatures settled.',
  matters: 'It tells how much of an unsteady source the load gets to see.',
  resolution: 1e-3,
  compute: (proof) => regulation(proof, proof.lineRegulation),
  headline: (value) => value.fraction,
})
