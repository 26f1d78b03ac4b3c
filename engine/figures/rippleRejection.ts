import { FROZEN } from '../solve/index.ts'
import { decibels } from '../units/index.ts'
import { defineFigure } from './define.ts'

/** Share of the nominal input by which it is moved either side. */
const STEP = 0.005

/** dVin/dVout in decibels at nominal input and load, temperatures frozen, capacitors open. */
export const rippleRejection = defineFigure<number>({
  name: 'rippleRejectionDb',
  label: 'Ripple rejection',
  unit: 'dB',
  better: 'more',
  help: 'How much smaller a slow ripple of the input is at the output. Capacitors are left out, so a fast ripple fares better or worse.',
  matters: 'It tells how good a rectified or shared source has to be.',
  compute({ observer, requirements, design }) {
    const { input, load, ambient } = requirements
    const step = STEP * input.nominal
    const board = new Int8Array(design.tolerances.length)
    const at = (volts: number) =>
      observer.observe(board, observer.condition(volts, load.nominal, ambient.nominal), FROZEN)
    const a = at(input.nominal - step)
    const b = at(input.nominal + step)
    if (a.outcome !== 0 || b.outcome !== 0 || a.output === b.output) return undefined
    return decibels((2 * step) / Math.abs(b.output - a.output))
  },
  headline: (value) => value,
})
