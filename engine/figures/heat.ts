import { defineFigure, nominalAt } from './define.ts'

export interface Heat {
  worst: number
  nominal: number
}

/** Heat in all parts together. */
export const heat = defineFigure<Heat>({
  name: 'heat',
  label: 'Heat, worst corner',
  unit: 'W',
  better: 'less',
  help: 'All the power that the parts turn into heat, at the corner of input, load, ambient and tolerances that makes it largest.',
  matters: 'It sets the size of parts and heatsink, the temperature inside the box, and how long the parts last.',
  resolution: 1e-3,
  compute(proof) {
    const nominal = nominalAt(proof, proof.conditions.nominal)
    return nominal && { worst: proof.heat.value, nominal: nominal.heat }
  },
  headline: (value) => value.worst,
})
