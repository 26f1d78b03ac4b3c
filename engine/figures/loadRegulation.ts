import { type Proof, type ThermalPair, worseOf } from '../analyses/prove.ts'
import { defineFigure } from './define.ts'

export interface Regulation {
  volts: number
  fraction: number
  frozen: number
  settled: number
}

/** The worse of frozen and settled, over the nominal output. */
export function regulation(proof: Proof, pair: ThermalPair): Regulation {
  const nominal = proof.requirements.output.voltage
  const volts = worseOf(pair).value
  return {
    volts,
    fraction: volts / nominal,
    frozen: pair.frozen.value / nominal,
    settled: pair.settled.value / nominal,
  }
}

export const loadRegulation = defineFigure<Regulation>({
  name: 'loadRegulation',
  label: 'Load regulation',
  unit: '%',
  better: 'less',
  help: 'How far the output of one same board moves from the lightest to the full load, over the nominal output: the worse of temperatures held and temperatures settled.',
  matters: 'It tells how far the load moves its own supply, and so what one part of the load does to another.',
  // A tenth of a per cent is within the accuracy of the bench; below it no design is the better one for it.
  resolution: 1e-3,
  compute: (proof) => regulation(proof, proof.loadRegulation),
  headline: (value) => value.fraction,
})
