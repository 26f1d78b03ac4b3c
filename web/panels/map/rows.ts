/** The map as rows of a table, the head first: every cell that is known, worked out or filled in. */
import { axisValues } from '../../../engine/requirements/index.ts'
import { MARKS } from '../../charts/marks.ts'
import type { Cell } from '../../handOut/csv.ts'
import { quantityField } from '../../store/fields.ts'
import type { MapPicture } from '../../store/map.ts'
import { FALLS_SHORT, readCell } from './words.ts'

const heading = (path: string): string => {
  const { name, unit } = quantityField(path)
  return `${name}, ${unit}`
}

export function mapRows(picture: MapPicture): Cell[][] {
  const { x, y } = picture.question
  const across = axisValues(x)
  const up = axisValues(y)
  const head = [
    heading(y.path),
    heading(x.path),
    'Wins',
    'Ahead by, points',
    ...MARKS.map(({ name }) => `${name}, score`),
    'Filled in from neighbours',
  ]
  const rows = Array.from(picture.codes, (_, cell): Cell[] | undefined => {
    const { state, winner, margin, scores, meets, isFilled } = readCell(picture, cell)
    if (state === 'unknown') return undefined
    return [
      up[Math.floor(cell / x.count)],
      across[cell % x.count],
      state === 'impossible' ? 'contradiction' : (winner?.name ?? 'none meets'),
      margin,
      ...MARKS.map((mark, k) => (state === 'impossible' ? undefined : meets.includes(mark) ? scores[k] : FALLS_SHORT)),
      isFilled ? 'yes' : 'no',
    ]
  })
  return [head, ...rows.filter((row) => row !== undefined)]
}
