/**
 * The energy of one proven design over a day that divides over load currents: what the input gives, what the load gets, and
 * what each part turns to heat. Every stretch is solved with nominal parts at its settled temperatures; warming up, charging
 * and the way from one current to the next are left out.
 */
import { type Stretch, stretchesOf } from '../../requirements/profile.ts'
import type { ProfileRow, Study } from '../../requirements/study.ts'
import { OUTCOMES, SETTLED } from '../../solve/index.ts'
import { type Observer, createObserver } from '../observe.ts'
import { type Point, solvedPoint } from '../point.ts'
import type { Proof } from '../prove.ts'

export const SECONDS_A_DAY = 86_400

/** Joules a day. `input` is `output` and `heat` together, each summed by itself. */
export interface DayEnergy {
  input: number
  output: number
  heat: number
  heatByPart: Record<string, number>
  /** Output over input; absent where the input gives nothing. */
  efficiency?: number
}

/** Mean powers while a stretch lasts, in watts, and the output in volts. */
export interface StretchPower {
  /** Its place in `DayProfile.stretches`. */
  stretch: number
  output: number
  inputPower: number
  outputPower: number
  heat: number
}

/** A day at one input voltage. */
export interface Day {
  input: number
  /** The solved stretches. */
  powers: StretchPower[]
  /** Of the whole day: absent where a stretch has no solution. */
  energy?: DayEnergy
}

export interface DayProfile {
  stretches: Stretch[]
  nominal: Day
  /** At both ends of the input's range: with `nominal` they show how far the day's heat moves with the input. */
  lowestInput: Day
  highestInput: Day
  unsolved: { stretch: number; input: number; outcome: string }[]
}

/** Undefined where the study has no profile. Yields after each input voltage. */
export function* profileOf(proof: Proof, { profile }: Study): Generator<void, DayProfile | undefined> {
  if (!profile) return undefined
  return yield* daysOf(proof, profile)
}

function* daysOf(proof: Proof, rows: readonly ProfileRow[]): Generator<void, DayProfile> {
  const { requirements } = proof
  const { input, load } = requirements
  const stretches = stretchesOf(rows, requirements)
  // its own observer: the proof's remembers every condition it has ever seen, and has room for few
  const observer = createObserver(proof.observer.prepared, input.nominal, load.nominal)
  const unsolved: DayProfile['unsolved'] = []
  const at = (volts: number): Day => dayAt(observer, stretches, volts, unsolved)
  const nominal = at(input.nominal)
  yield
  const lowestInput = at(input.min)
  yield
  const highestInput = at(input.max)
  return { stretches, nominal, lowestInput, highestInput, unsolved: unsolved.filter(isFirst) }
}

/** Equal ends of the input's range are solved once each and named once. */
const isFirst = (one: DayProfile['unsolved'][number], k: number, all: DayProfile['unsolved']): boolean =>
  all.findIndex(({ stretch, input }) => stretch === one.stretch && input === one.input) === k

function dayAt(
  observer: Observer,
  stretches: readonly Stretch[],
  input: number,
  unsolved: DayProfile['unsolved'],
): Day {
  const board = new Int8Array(observer.prepared.design.tolerances.length)
  const powers: StretchPower[] = []
  const energy = { input: 0, output: 0, heat: 0, heatByPart: {} as Record<string, number> }
  stretches.forEach(({ load, ambient, share }, stretch) => {
    const index = observer.condition(input, load, ambient)
    const point = solvedPoint(observer, board, index, SETTLED)
    if (!point) {
      const { outcome } = observer.observe(board, index, SETTLED)
      unsolved.push({ stretch, input, outcome: OUTCOMES[outcome]! })
      return
    }
    const power = powerOf(point)
    powers.push({ stretch, ...power })
    const seconds = share * SECONDS_A_DAY
    energy.input += power.inputPower * seconds
    energy.output += power.outputPower * seconds
    energy.heat += power.heat * seconds
    for (const [part, watts] of Object.entries(point.heat))
      energy.heatByPart[part] = (energy.heatByPart[part] ?? 0) + watts * seconds
  })
  if (powers.length < stretches.length) return { input, powers }
  const efficiency = energy.input > 0 ? { efficiency: energy.output / energy.input } : {}
  return { input, powers, energy: { ...energy, ...efficiency } }
}

/** Each power by itself, so that their balance says something: voltage times current at the input and at the load. */
function powerOf({ condition, inputCurrent, output, currents, heat }: Point): Omit<StretchPower, 'stretch'> {
  return {
    output,
    inputPower: condition.input * inputCurrent,
    outputPower: output * currents['load']![0]!,
    heat: Object.values(heat).reduce((sum, watts) => sum + watts, 0),
  }
}
