/**
 * Preferred numbers of IEC 60063 for resistors and capacitors. Up to E24 the values have two figures and several depart from the
 * rounded powers of ten (2.7, 3.0 … 4.7, 8.2); from E48 they have three and one departs (9.20 in E192, not 9.19).
 * Source: IEC 60063:2015 as listed by secondary sources; the tests hold an independently written list.
 */
export type PreferredSeries = 'E3' | 'E6' | 'E12' | 'E24' | 'E48' | 'E96' | 'E192'

// prettier-ignore
const E24 = [
  10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91,
]

// prettier-ignore
const E192 = [
  100, 101, 102, 104, 105, 106, 107, 109, 110, 111, 113, 114, 115, 117, 118, 120, 121, 123, 124, 126, 127, 129, 130, 132,
  133, 135, 137, 138, 140, 142, 143, 145, 147, 149, 150, 152, 154, 156, 158, 160, 162, 164, 165, 167, 169, 172, 174, 176,
  178, 180, 182, 184, 187, 189, 191, 193, 196, 198, 200, 203, 205, 208, 210, 213, 215, 218, 221, 223, 226, 229, 232, 234,
  237, 240, 243, 246, 249, 252, 255, 258, 261, 264, 267, 271, 274, 277, 280, 284, 287, 291, 294, 298, 301, 305, 309, 312,
  316, 320, 324, 328, 332, 336, 340, 344, 348, 352, 357, 361, 365, 370, 374, 379, 383, 388, 392, 397, 402, 407, 412, 417,
  422, 427, 432, 437, 442, 448, 453, 459, 464, 470, 475, 481, 487, 493, 499, 505, 511, 517, 523, 530, 536, 542, 549, 556,
  562, 569, 576, 583, 590, 597, 604, 612, 619, 626, 634, 642, 649, 657, 665, 673, 681, 690, 698, 706, 715, 723, 732, 741,
  750, 759, 768, 777, 787, 796, 806, 816, 825, 835, 845, 856, 866, 876, 887, 898, 909, 920, 931, 942, 953, 965, 976, 988,
]

const every = (table: readonly number[], step: number) => table.filter((_, index) => index % step === 0)

interface Steps {
  /** Ascending, one decade, as whole numbers. */
  readonly steps: readonly number[]
  /** Figures of each step: 2 or 3. */
  readonly figures: number
  /** Values read so far, by rank: reading text takes longer than finding it again. */
  readonly read: Map<number, number>
}

const table = (steps: readonly number[], figures: number): Steps => ({ steps, figures, read: new Map() })

const TABLES: Readonly<Record<PreferredSeries, Steps>> = {
  E3: table(every(E24, 8), 2),
  E6: table(every(E24, 4), 2),
  E12: table(every(E24, 2), 2),
  E24: table(E24, 2),
  E48: table(every(E192, 4), 3),
  E96: table(every(E192, 2), 3),
  E192: table(E192, 3),
}

/** One decade of each series from 1 up to, and without, 10. */
export const PREFERRED: Readonly<Record<PreferredSeries, readonly number[]>> = {
  E3: decade('E3'),
  E6: decade('E6'),
  E12: decade('E12'),
  E24: decade('E24'),
  E48: decade('E48'),
  E96: decade('E96'),
  E192: decade('E192'),
}

function decade(series: PreferredSeries): number[] {
  return TABLES[series].steps.map((_, index) => valueAt(series, index))
}

/**
 * Two values nearer to each other than this fraction are the same value: far above what a chain of floating operations leaves
 * behind, far below the finest step (0.5 %).
 */
const SAME = 1e-9

/** The preferred value of rank `rank`, rank 0 being 1: a whole number of any sign. Read from decimal text, hence exactly the printed value. */
function valueAt(series: PreferredSeries, rank: number): number {
  const { steps, figures, read } = TABLES[series]
  const known = read.get(rank)
  if (known !== undefined) return known
  const decades = Math.floor(rank / steps.length)
  const value = Number(`${steps[rank - decades * steps.length]}e${decades - figures + 1}`)
  read.set(rank, value)
  return value
}

/** Rank of the largest preferred value that is not above `value`, within `SAME`. */
function rankBelow(value: number, series: PreferredSeries): number {
  const { steps } = TABLES[series]
  const reach = value * (1 + SAME)
  let below = Math.floor(Math.log10(reach)) * steps.length
  // the logarithm may be rounded over the end of a decade
  if (valueAt(series, below) > reach) below -= steps.length
  else if (valueAt(series, below + steps.length) <= reach) below += steps.length
  // the first value of the decade is not above reach, that of the next one is: bisect between them
  let above = below + steps.length
  while (above - below > 1) {
    const middle = (below + above) >> 1
    if (valueAt(series, middle) > reach) above = middle
    else below = middle
  }
  return below
}

const isUsable = (value: number) => Number.isFinite(value) && value > 0

/** Largest preferred value not above `value`; a value that differs from it by floating error alone counts as it. NaN where `value` is not a positive number. */
export function preferredBelow(value: number, series: PreferredSeries): number {
  return isUsable(value) ? valueAt(series, rankBelow(value, series)) : NaN
}

/** Smallest preferred value not below `value`, within floating error. NaN where `value` is not a positive number. */
export function preferredAbove(value: number, series: PreferredSeries): number {
  if (!isUsable(value)) return NaN
  const rank = rankBelow(value, series)
  const below = valueAt(series, rank)
  return below >= value * (1 - SAME) ? below : valueAt(series, rank + 1)
}

/** Preferred value with the smallest ratio to `value`: tolerances are ratios. NaN where `value` is not a positive number. */
export function preferredNearest(value: number, series: PreferredSeries): number {
  const below = preferredBelow(value, series)
  const above = preferredAbove(value, series)
  return value / below <= above / value ? below : above
}

/** All preferred values from `min` to `max`, ends included within floating error, ascending. Empty where the range is empty or not positive. */
export function preferredValues(series: PreferredSeries, min: number, max: number): number[] {
  if (!isUsable(min) || !isUsable(max)) return []
  const last = rankBelow(max, series)
  const values: number[] = []
  let rank = rankBelow(min, series)
  if (valueAt(series, rank) < min * (1 - SAME)) rank++
  for (; rank <= last; rank++) values.push(valueAt(series, rank))
  return values
}
