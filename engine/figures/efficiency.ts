import { defineFigure, nominalAt } from './define.ts'

export interface Efficiency {
  fullLoad: number
  nominal: number
  worst: number
}

/** Output power over input power. `worst` is over every corner, the lightest load included, where it says little. */
export const efficiency = defineFigure<Efficiency>({
  name: 'efficiency',
  label: 'Efficiency, full load',
  unit: '%',
  better: 'more',
  help: 'Power to the load over power from the input, at nominal input and full load. What is missing becomes heat.',
  matters:
    'A battery or an adapter pays for every watt that is missing, and the missing watts have to be carried away.',
  compute(proof) {
    const full = nominalAt(proof, proof.conditions.fullLoad)
    const nominal = nominalAt(proof, proof.conditions.nominal)
    return full && nominal && { fullLoad: full.efficiency, nominal: nominal.efficiency, worst: proof.efficiency.value }
  },
  headline: (value) => value.fullLoad,
})
