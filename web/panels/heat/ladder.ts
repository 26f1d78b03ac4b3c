/** The picture of a part's way to the air: one step a place, on a temperature axis that all lanes share. */
import type { PartHeat } from '../../../engine/analyses/heat/index.ts'
import { type ValueAxis, fractionOf, roundAxis } from '../../charts/scale.ts'
import { PLACE_WORDS, degrees, kelvin } from './words.ts'
import { formatQuantity } from '../../../engine/units/index.ts'

/** From the coldest ambient to the hottest place or the highest allowed junction, whichever part is shown. */
export function ladderAxis(parts: readonly PartHeat[]): ValueAxis {
  const low = Math.min(...parts.map(({ condition }) => condition.ambient))
  const high = Math.max(...parts.flatMap(({ hottest, allowed = hottest }) => [hottest, allowed]))
  return roundAxis(low, high, 6)
}

export interface Step {
  readonly place: string
  readonly temperature: string
  /** Share of the axis at which the step's top lies, and at which the ambient does. */
  readonly top: number
  readonly foot: number
  /** What follows it: kelvin per watt, and the kelvin that they take. */
  readonly stretch?: { readonly resistance: string; readonly fall: string; readonly note: string }
}

export function ladderSteps(part: PartHeat, axis: ValueAxis): Step[] {
  const foot = fractionOf(part.condition.ambient, axis)
  return part.nodes.map(({ at, temperature }, k) => {
    const stretch = part.path[k]
    const next = part.nodes[k + 1]
    return {
      place: PLACE_WORDS[at],
      temperature: degrees(temperature),
      top: fractionOf(temperature, axis),
      foot,
      ...(stretch && next
        ? {
            stretch: {
              resistance: formatQuantity(stretch.kelvinPerWatt, 'K/W'),
              fall: kelvin(temperature - next.temperature),
              note: [stretch.note, stretch.source, stretch.confidence === 'read' ? '' : stretch.confidence]
                .filter(Boolean)
                .join('; '),
            },
          }
        : {}),
    }
  })
}
