import { defineFigure, nominalAt } from './define.ts'

/** |dVout/dTa| from coldest to hottest ambient, nominal parts, input and load. */
export const temperatureDrift = defineFigure<number>({
  name: 'temperatureDrift',
  label: 'Temperature drift',
  unit: 'V/K',
  better: 'less',
  help: 'How far the output moves per kelvin of ambient, nominal parts, from the coldest to the hottest ambient.',
  matters: 'A reading taken cold and one taken warm differ by it, where the load measures against its supply.',
  resolution: 1e-5,
  compute(proof) {
    const { ambient } = proof.requirements
    const cold = nominalAt(proof, proof.conditions.coldest)
    const hot = nominalAt(proof, proof.conditions.hottest)
    if (!cold || !hot || ambient.max === ambient.min) return undefined
    return Math.abs(hot.output - cold.output) / (ambient.max - ambient.min)
  },
  headline: (value) => value,
})
