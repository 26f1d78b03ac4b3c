/** Everything that moves a board or its environment, as changes that a solved point can be asked about. */
import type { Tolerance } from '../../parts/define.ts'
import type { Requirements } from '../../requirements/study.ts'
import type { Change, Circuit } from '../../solve/index.ts'
import type { SizedDesign } from '../../topologies/define.ts'

/** One unit of it is the whole way from nominal to a limit. */
export interface Move {
  readonly change: Change
  /** Kelvin that the ambient rises by. */
  readonly warmer: number
}

export interface Source {
  /** Id of the tolerance (`R1.resistance`), or `input`, `load`, `ambient`. */
  readonly source: string
  /** `R1 resistance`. */
  readonly words: string
  readonly high: Move
  readonly low: Move
}

const NOTHING: Change = () => {}

/** The environment first, then the tolerances in the design's order. */
export function sourcesOf(
  circuit: Circuit,
  { tolerances }: Pick<SizedDesign, 'tolerances'>,
  { input, load, ambient }: Requirements,
): Source[] {
  const toward = (limit: 'max' | 'min') => ({
    input: ((point, t) => {
      point.input = input.nominal + t * (input[limit] - input.nominal)
    }) satisfies Change,
    warmer: ambient[limit] - ambient.nominal,
  })
  const high = toward('max')
  const low = toward('min')
  return [
    {
      source: 'input',
      words: 'input voltage',
      high: { change: high.input, warmer: 0 },
      low: { change: low.input, warmer: 0 },
    },
    {
      source: 'load',
      words: 'load current',
      high: loadMove(load.nominal, load.max),
      low: loadMove(load.nominal, load.min),
    },
    {
      source: 'ambient',
      words: 'ambient temperature',
      high: { change: NOTHING, warmer: high.warmer },
      low: { change: NOTHING, warmer: low.warmer },
    },
    ...tolerances.map((tolerance) => ({
      source: tolerance.id,
      words: `${tolerance.part} ${tolerance.label}`,
      high: toleranceMove(circuit, tolerance, 'high'),
      low: toleranceMove(circuit, tolerance, 'low'),
    })),
  ]
}

const loadMove = (from: number, to: number): Move => ({
  change: (point, t) => {
    point.load = from + t * (to - from)
  },
  warmer: 0,
})

/**
 * A tolerance may bend at nominal: its low side is not its high side turned round. Each side is therefore carried on through
 * nominal by its own law, and the slope is taken there.
 */
function toleranceMove(circuit: Circuit, { effects }: Tolerance, side: 'high' | 'low'): Move {
  const moved = effects.map(({ element, parameter, how, ...ends }) => ({
    slot: circuit.slot(element, parameter),
    how,
    end: ends[side],
  }))
  return {
    change: (point, t) => {
      for (const { slot } of moved) point.parameters[slot] = circuit.parameters[slot]!
      for (const { slot, how, end } of moved) if (how === 'scale') point.parameters[slot]! *= end ** t
      for (const { slot, how, end } of moved) if (how === 'add') point.parameters[slot]! += end * t
      point.stale = true
    },
    warmer: 0,
  }
}
