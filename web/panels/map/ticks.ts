/** Where an axis of the map is labelled: round values, at the middle of the cells that they lie in. */
import { type MapAxis, placeOn } from '../../../engine/requirements/index.ts'
import { roundStep } from '../../charts/scale.ts'
import { quantityField, shown } from '../../store/fields.ts'

export interface Tick {
  readonly value: number
  /** Share of the picture's width or height. */
  readonly place: number
  readonly text: string
}

/** Leading digits of a decade, from many to few. */
const LEADS: readonly (readonly number[])[] = [[1, 2, 3, 5, 7], [1, 2, 5], [1, 3], [1]]
/** Fewer would not show that steps are by ratio. */
const LEAST = 3

/** Where a value lies on the picture, as a share: cells are as wide as each other, and a value lies in the middle of its own. */
export const pictureShare = (axis: MapAxis, value: number): number =>
  (placeOn(axis, value) * (axis.count - 1) + 0.5) / axis.count

export function ticksOf(axis: MapAxis, most: number): Tick[] {
  const { sign: _, ...plain } = quantityField(axis.path)
  return roundValues(axis, most).map((value) => ({
    value,
    place: pictureShare(axis, value),
    text: shown({ ...plain, isPlain: true }, value),
  }))
}

/** Dust of binary fractions must not take an end away. */
const DUST = 1e-9

function roundValues(axis: MapAxis, most: number): number[] {
  const { from, to } = axis
  if (axis.spacing === 'ratio') {
    const isInside = (value: number): boolean => value >= from * (1 - DUST) && value <= to * (1 + DUST)
    const decades = Array.from(
      { length: Math.floor(Math.log10(to)) - Math.floor(Math.log10(from)) + 1 },
      (__, k) => Math.floor(Math.log10(from)) + k,
    )
    for (const leads of LEADS) {
      const values = decades.flatMap((decade) => leads.map((lead) => Number(`${lead}e${decade}`))).filter(isInside)
      if (values.length <= most && values.length >= Math.min(LEAST, most)) return values
    }
  }
  const step = roundStep(from, to, most)
  const first = Math.ceil(from / step - DUST)
  const last = Math.floor(to / step + DUST)
  return Array.from({ length: last - first + 1 }, (__, k) => Number(((first + k) * step).toPrecision(12)))
}
