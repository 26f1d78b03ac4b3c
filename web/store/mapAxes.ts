/** Axes for a map: where each begins and ends for a study, and which two of the seven show where another design wins. */
import type { MapQuestion } from '../../engine/explore/map.ts'
import {
  MAPPED,
  type MapAxis,
  type MappedPath,
  RANGES,
  type Study,
  placeOn,
  usualSpacing,
} from '../../engine/requirements/index.ts'
import { isContradiction, marginAt, winnerOf } from '../../engine/explore/cells.ts'
import { readPath } from './check.ts'

/** An axis as a person sees it: how many cells it has is the map's matter. */
export type AxisRange = Omit<MapAxis, 'count'>

/** Where a study that does not limit load regulation is taken to be. */
const UNLIMITED_REGULATION = 0.01

/** The study's value at one of the mapped requirements; a limit that is left out has none. */
export const valueOn = (study: Study, path: MappedPath): number | undefined =>
  readPath(study, path) as number | undefined

/** The axis around the value in force, or as far as the other requirements and the field's own range let it. */
export function axisAround(study: Study, path: MappedPath): AxisRange {
  const { input, output, load, ambient } = study.requirements
  const value = valueOn(study, path) || UNLIMITED_REGULATION
  const [low, high] = {
    'input.max': [0.9 * input.min + 0.1 * input.max, 2 * input.max - input.min],
    'input.min': [Math.max(output.voltage + 0.5, 1.5 * input.min - 0.5 * input.max), input.max],
    'output.voltage': [0.6 * value, Math.min(1.2 * value, input.min - 0.5)],
    'load.max': [Math.max(load.min, value / 10), 5 * value],
    'ambient.max': [Math.max(ambient.min, value - 30), value + 40],
    'limits.loadRegulation': [value / 10, 10 * value],
    'output.tolerance': [0.25 * value, 2 * value],
  }[path] as [number, number]
  const { min, max } = RANGES[path]
  const from = rounded(Math.max(min, low), Math.ceil)
  const to = rounded(Math.min(max, high), Math.floor)
  // where the other requirements leave next to nothing, the axis shows that they do
  return {
    path,
    from,
    to: to > from ? to : rounded(Math.min(max, from + 0.5 * Math.abs(from)), Math.ceil),
    spacing: usualSpacing(path),
  }
}

/** To three digits, inwards: a bound is never left. */
function rounded(value: number, towards: (x: number) => number): number {
  if (value === 0) return 0
  const unit = 10 ** (Math.floor(Math.log10(Math.abs(value))) - 2)
  return Number((towards(Number((value / unit).toPrecision(12))) * unit).toPrecision(3))
}

/** Whether the requirements in force lie on the axis; true where nothing is in force. */
export function holdsPresent(study: Study, axis: AxisRange): boolean {
  const value = valueOn(study, axis.path)
  if (value === undefined) return true
  const place = placeOn(axis, value)
  return place >= -1e-9 && place <= 1 + 1e-9
}

/** Cells of a look along one requirement: enough to see that a boundary is there, few enough for seven of them to be quick. */
export const LOOK_CELLS = 9

/** A map one cell high along each of the requirements, all else as it is in force. */
export function looks(study: Study): MapQuestion[] {
  return MAPPED.map((path): MapQuestion => {
    // any other requirement, held where it is
    const held = path === 'output.voltage' ? 'ambient.max' : 'output.voltage'
    const value = valueOn(study, held)!
    return {
      study,
      x: { ...axisAround(study, path), count: LOOK_CELLS },
      y: { path: held, from: value, to: value, count: 1 },
    }
  })
}

/** Cells of one look: codes and scores as the engine's map has them. */
export interface Line {
  readonly axis: MapAxis
  readonly codes: Uint8Array
  readonly scores: Float64Array
}

/** What changes between two neighbouring cells of a look. */
export interface Crossing {
  /** The first of the two cells. */
  readonly cell: number
  /**
   * `winner`: from one design to another; `island`: the same, where one of the two wins in a single cell, as parts that come in
   * steps make it; `none`: to or from none that meets; `meets`: the same wins, another begins or stops to meet.
   */
  readonly kind: 'winner' | 'island' | 'none' | 'meets'
  /** From the value in force, in shares of the axis; 0 where the two cells enclose it. */
  readonly distance: number
}

const KINDS = ['winner', 'island', 'none', 'meets'] as const

export function crossingsOf(study: Study, { axis, codes }: Line): Crossing[] {
  const value = valueOn(study, axis.path)
  // a limit that is left out lies beyond the loosest
  const place = value === undefined ? 1 : placeOn(axis, value)
  const winners = Array.from(codes, (code) => (isContradiction(code) ? -2 : winnerOf(code)))
  const last = winners.length - 1
  const isAlone = (cell: number): boolean =>
    cell > 0 && cell < last && winners[cell - 1] !== winners[cell] && winners[cell + 1] !== winners[cell]
  const out: Crossing[] = []
  for (let cell = 0; cell < last; cell++) {
    const [before, after] = [winners[cell]!, winners[cell + 1]!]
    if (codes[cell] === codes[cell + 1] || before < -1 || after < -1) continue
    const [low, high] = [cell / last, (cell + 1) / last]
    const isOther = before !== after
    const isNone = isOther && (before < 0 || after < 0)
    const kind = !isOther ? 'meets' : isNone ? 'none' : isAlone(cell) || isAlone(cell + 1) ? 'island' : 'winner'
    out.push({ cell, kind, distance: Math.max(0, low - place, place - high) })
  }
  return out
}

/** The most telling crossing of a line: another winner before none, none before who else meets; of one kind the nearest. */
export function nearestCrossing(study: Study, line: Line): Crossing | undefined {
  return crossingsOf(study, line).toSorted(
    (a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind) || a.distance - b.distance,
  )[0]
}

/** How far the lead of the first over the second goes up and down along a line, points. */
function swing({ codes, scores }: Line): number {
  const leads = Array.from(codes, (_, cell) => marginAt(codes, scores, cell)).filter((lead) => !Number.isNaN(lead))
  return leads.length === 0 ? 0 : Math.max(...leads) - Math.min(...leads)
}

/**
 * The two requirements to which the choice of design is most sensitive: those whose most telling crossing lies nearest to the
 * requirements in force; without any, those that move the lead most. A boundary of one line lies in the map over both, since
 * the line is a row or column of it.
 */
export function tellingAxes(study: Study, lines: readonly Line[]): [AxisRange, AxisRange] {
  const ordered = lines
    .map((line) => ({ line, crossing: nearestCrossing(study, line), swing: swing(line) }))
    .toSorted((a, b) => {
      const rank = ({ crossing }: typeof a) => (crossing ? KINDS.indexOf(crossing.kind) : KINDS.length)
      return rank(a) - rank(b) || (a.crossing?.distance ?? 0) - (b.crossing?.distance ?? 0) || b.swing - a.swing
    })
  const [first, second] = ordered.map(
    ({
      line: {
        axis: { count: _, ...range },
      },
    }) => range,
  )
  return [first!, second!]
}
