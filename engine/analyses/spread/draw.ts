/**
 * One board and its environment, drawn. Every tolerance is independent of every other. `uniform` is the pessimistic
 * default: nothing is known of a part but that it passed its limits (common practice, no source). `normal` has the limits at
 * 3 sigma and is cut off there, as for a maker whose process just fills its limits (common practice, no source). Half of the
 * boards lie on either side of nominal, whatever the limits: of a tolerance with one bad side, half stay nominal. Input, load
 * and ambient are uniform over their ranges under both: no product knows how it will be used.
 */
import { haltonOf } from '../../random/halton.ts'
import { newStream } from '../../random/index.ts'
import { normalQuantile } from '../../random/quantile.ts'
import type { Distribution, Draw, Range, SpreadProblem } from './problem.ts'

/** Standard deviations from nominal to either limit. */
const SIGMAS = 3
/** Share of an uncut normal distribution below -3 sigma: Φ(-3). */
const CUT = 0.0013498980316300946

/** Tolerances as a board, one entry each from -1 to +1; input in volts, load in amperes, ambient in degrees Celsius. */
export interface Drawn {
  readonly board: Float64Array
  input: number
  load: number
  ambient: number
}

/** From a number that is uniform from 0 to 1 to a tolerance's entry, -1 to +1. */
export function entryOf(u: number, distribution: Distribution): number {
  return distribution === 'uniform' ? 2 * u - 1 : normalQuantile(CUT + u * (1 - 2 * CUT)) / SIGMAS
}

const within = ({ min, max }: Range, u: number): number => min + (max - min) * u

/** A function that draws sample `k` into `drawn`; it depends on the draw's seed and `k` alone and allocates nothing. */
export function drawerOf(problem: SpreadProblem, draw: Draw): { drawn: Drawn; sample: (k: number) => void } {
  const tolerances = problem.tolerances.length
  // the environment first: a low-discrepancy sequence is best in its first dimensions, and these matter most
  const point = new Float64Array(3 + tolerances)
  const fill = fillerOf(draw, point)
  const drawn: Drawn = { board: new Float64Array(tolerances), input: 0, load: 0, ambient: 0 }
  const sample = (k: number): void => {
    fill(k)
    drawn.input = within(problem.input, point[0]!)
    drawn.load = within(problem.load, point[1]!)
    drawn.ambient = within(problem.ambient, point[2]!)
    for (let j = 0; j < tolerances; j++) drawn.board[j] = entryOf(point[3 + j]!, draw.distribution)
  }
  return { drawn, sample }
}

function fillerOf({ seed, method }: Draw, point: Float64Array): (k: number) => void {
  if (method === 'even') {
    const halton = haltonOf(seed, point.length)
    return (k) => halton(k, point)
  }
  const stream = newStream()
  return (k) => {
    stream.start(seed, k)
    for (let j = 0; j < point.length; j++) point[j] = stream.next()
  }
}
