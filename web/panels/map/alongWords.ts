/** What a look along one requirement shows, in words. */
import { capital, lower } from '../../../engine/units/index.ts'
import { axisValues } from '../../../engine/requirements/index.ts'
import { MARKS } from '../../charts/marks.ts'
import { quantityField, shown } from '../../store/fields.ts'
import { isContradiction, meetsAt, winnerOf } from '../../../engine/explore/cells.ts'
import type { Line } from '../../store/mapAxes.ts'

/** Between cells this far apart more would say nothing. */
const FIGURES = 3

/** "Shunt up to 20.0 mA, series-pass from 28.3 mA": each winner in turn, with the last and first cells beside the change. */
export function lineSentence({ axis, codes }: Line): string {
  const { sign: _, ...field } = quantityField(axis.path)
  const texts = axisValues(axis).map((value) => shown(field, Number(value.toPrecision(FIGURES))))
  const stateAt = (cell: number): string =>
    isContradiction(codes[cell]!) ? 'a contradiction' : (MARKS[winnerOf(codes[cell]!)]?.name ?? 'none meets')
  const starts = Array.from(codes, (__, cell) => cell).filter(
    (cell) => cell === 0 || stateAt(cell) !== stateAt(cell - 1),
  )
  const parts = starts.map((start, k) => {
    const end = (starts[k + 1] ?? codes.length) - 1
    const name = lower(stateAt(start))
    if (starts.length === 1) return `${name} throughout`
    if (k === 0) return end === 0 ? `${name} at ${texts[0]}` : `${name} up to ${texts[end]}`
    if (k === starts.length - 1) return `${name} from ${texts[start]}`
    return start === end ? `${name} at ${texts[start]}` : `${name} from ${texts[start]} to ${texts[end]}`
  })
  return capital(parts.join(', ')) + (starts.length === 1 ? alsoMeeting(codes, texts) : '')
}

/** Which designs begin or stop to meet although the winner stays. */
function alsoMeeting(codes: Uint8Array, texts: readonly string[]): string {
  const changes = MARKS.flatMap(({ name }, k) => {
    const cell = Array.from(codes, (_, at) => at).find(
      (at) => at > 0 && meetsAt(codes[at]!, k) !== meetsAt(codes[at - 1]!, k),
    )
    if (cell === undefined) return []
    return [
      `${lower(name)} ${meetsAt(codes[cell]!, k) ? 'meets too from' : 'meets only up to'} ${meetsAt(codes[cell]!, k) ? texts[cell]! : texts[cell - 1]!}`,
    ]
  })
  return changes.map((change) => `; ${change}`).join('')
}
