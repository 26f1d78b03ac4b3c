import { FROZEN } from '../solve/index.ts'
import { defineFigure } from './define.ts'

/** Share of the full load by which the load is moved either side of nominal. */
const STEP = 0.01

/** -dVout/dIout at nominal input and load, temperatures frozen, nominal parts. */
export const outputResistance = defineFigure<number>({
  name: 'outputResistance',
  label: 'Output resistance',
  unit: 'Ω',
  better: 'less',
  help: 'How many volts the output gives way per ampere of load, for changes too quick to warm the parts.',
  matters: 'With it, any quick step of load current turns into a step of voltage: ohms times amperes.',
  resolution: 1e-3,
  compute({ observer, requirements, design }) {
    const { input, load, ambient } = requirements
    const step = STEP * load.max
    const board = new Int8Array(design.tolerances.length)
    const at = (amperes: number) =>
      observer.observe(board, observer.condition(input.nominal, amperes, ambient.nominal), FROZEN)
    const low = Math.max(load.nominal - step, 0)
    const high = load.nominal + step
    const a = at(low)
    const b = at(high)
    return a.outcome === 0 && b.outcome === 0 ? Math.max(0, (a.output - b.output) / (high - low)) : undefined
  },
  headline: (value) => value,
})
