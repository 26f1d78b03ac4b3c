import { defineFigure, nominalAt } from './define.ts'

export const standbyPower = defineFigure<number>({
  name: 'standbyPower',
  label: 'Standby power',
  unit: 'W',
  better: 'less',
  help: 'What the rail takes from the input with no load at all, at nominal input.',
  matters: 'A rail that is always on takes this day and night, and standby rules of many markets limit it.',
  resolution: 1e-4,
  compute(proof) {
    const seen = nominalAt(proof, proof.conditions.noLoad)
    return seen && seen.inputCurrent * proof.requirements.input.nominal
  },
  headline: (value) => value,
})
