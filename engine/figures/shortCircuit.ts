import { defineFigure } from './define.ts'

export interface ShortCircuit {
  current: number
  heat: number
  survives: boolean
}

/** Output shorted at the highest input; every part held against its maker's rating, not the derated one. */
export const shortCircuit = defineFigure<ShortCircuit>({
  name: 'shortCircuit',
  label: 'Current into a shorted output',
  unit: 'A',
  better: 'less',
  help: 'What flows into a shorted output at the highest input, and whether every part bears it for good.',
  matters: 'Sooner or later a clip, a wire or a failed load shorts the output; what flows then decides what burns.',
  compute({ shortCircuit: { current, heat, use, settles } }) {
    if (Number.isNaN(current.value) || Number.isNaN(heat)) return undefined
    return { current: current.value, heat, survives: settles && use.every((found) => found.value <= 1) }
  },
  headline: (value) => value.current,
})
