/** What a map says, in words and numbers. */
import { lower } from '../../../engine/units/index.ts'
import { IMPOSSIBLE, SCORES, UNKNOWN, isKnown, marginAt, meetsAt, winnerOf } from '../../../engine/explore/cells.ts'
import type { MapPicture } from '../../store/map.ts'
import { axisValues } from '../../../engine/requirements/index.ts'
import { MARKS, type TopologyMark } from '../../charts/marks.ts'
import { quantityField, shown } from '../../store/fields.ts'

/** Where a score would stand: a design that does not meet has none. */
export const FALLS_SHORT = 'falls short'

export interface CellReading {
  readonly x: string
  readonly y: string
  /** `unknown`: not worked out yet; `impossible`: its requirements contradict each other. */
  readonly state: 'known' | 'unknown' | 'impossible'
  readonly isFilled: boolean
  readonly winner?: TopologyMark
  readonly meets: readonly TopologyMark[]
  /** In the order of the marks; of those that meet. */
  readonly scores: readonly number[]
  /** Points between the two best of those that meet; absent where fewer than two do. */
  readonly margin?: number
}

export function readCell(picture: MapPicture, cell: number): CellReading {
  const { question, codes, filled, values } = picture
  const code = codes[cell]!
  const winner = MARKS[winnerOf(code)]
  const margin = marginAt(codes, values, cell)
  return {
    x: shown(quantityField(question.x.path), axisValues(question.x)[cell % question.x.count]!),
    y: shown(quantityField(question.y.path), axisValues(question.y)[Math.floor(cell / question.x.count)]!),
    state: code === UNKNOWN ? 'unknown' : code === IMPOSSIBLE ? 'impossible' : 'known',
    isFilled: filled[cell] === 1,
    ...(winner ? { winner } : {}),
    meets: MARKS.filter((_, k) => meetsAt(code, k)),
    scores: MARKS.map((_, k) => values[SCORES * cell + k]!),
    ...(Number.isNaN(margin) ? {} : { margin }),
  }
}

/** The cell as one sentence. */
export function sentenceOf(picture: MapPicture, cell: number): string {
  const { question } = picture
  const reading = readCell(picture, cell)
  const at = `${quantityField(question.x.path).name} ${reading.x}, ${lower(quantityField(question.y.path).name)} ${reading.y}`
  if (reading.state === 'unknown') return `${at}: not worked out yet.`
  if (reading.state === 'impossible') return `${at}: the requirements contradict each other.`
  const how = reading.isFilled ? ' Filled in from its neighbours.' : ' Worked out.'
  if (!reading.winner) return `${at}: none meets.${how}`
  const others = reading.meets.filter((mark) => mark !== reading.winner).map(({ name }) => lower(name))
  const lead =
    reading.margin === undefined
      ? ', the only one that meets'
      : `, ${reading.margin.toPrecision(reading.margin < 10 ? 2 : 3)} points ahead of ${others.length > 1 ? 'the next of ' : ''}${others.join(' and ')}`
  return `${at}: ${lower(reading.winner.name)} wins${lead}.${how}`
}

/** Share of the cells, by winner in the order of the marks, with the share where none meets last; impossible ones do not count. */
export function sharesOf({ codes }: Pick<MapPicture, 'codes'>): number[] {
  const counts = [0, 0, 0, 0]
  let all = 0
  for (const code of codes) {
    if (code >= IMPOSSIBLE) continue
    all++
    const winner = winnerOf(code)
    counts[winner < 0 ? 3 : winner]!++
  }
  return counts.map((count) => (all > 0 ? count / all : 0))
}

const percent = (share: number): string => `${share > 0 && share < 0.01 ? '<\u20091' : Math.round(100 * share)}\u2009%`

/** How many cells were worked out, of how many. */
export function workedOf({ codes, filled }: Pick<MapPicture, 'codes' | 'filled'>): { worked: number; all: number } {
  let worked = 0
  for (let cell = 0; cell < codes.length; cell++) if (isKnown(codes[cell]!) && filled[cell] === 0) worked++
  return { worked, all: codes.length }
}

/** The finding. */
export function findingOf(picture: MapPicture): string {
  const shares = sharesOf(picture)
  const none = shares[3]!
  const winners = MARKS.map(({ name }, k) => ({ name, share: shares[k]! }))
    .filter(({ share }) => share > 0)
    .toSorted((a, b) => b.share - a.share)
  if (winners.length === 0) return 'Nothing meets anywhere on this map'
  const [first, ...rest] = winners
  const tail = [
    ...rest.map(({ name, share }) => `${lower(name)} ${percent(share)}`),
    ...(none > 0 ? [`on ${percent(none)} none meets`] : []),
  ]
  return `${first!.name} wins ${percent(first!.share)} of this map${tail.length > 0 ? `; ${tail.join(', ')}` : ''}`
}
