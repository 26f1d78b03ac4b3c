import { defineFigure, nominalAt } from './define.ts'

export interface Output {
  lowest: number
  nominal: number
  highest: number
}

/** The output over every corner, cold start included. */
export const output = defineFigure<Output>({
  name: 'output',
  label: 'Output, spread over all corners',
  unit: 'V',
  better: 'less',
  help: 'Lowest, nominal and highest output over every corner of tolerance, input, load and ambient, settled and at a cold start.',
  matters: 'The load must work at both ends of it; a data sheet of the load gives the limits to compare with.',
  compute(proof) {
    const nominal = nominalAt(proof, proof.conditions.nominal)
    return (
      nominal && { lowest: proof.output.lowest.value, nominal: nominal.output, highest: proof.output.highest.value }
    )
  },
  headline: (value) => value.highest - value.lowest,
})
