/** Pins as they are typed: a value as `4k7` or `22 µF`, or a part number. */
import { listedNumber, pinnedFamily, pinnedValues, pinText } from '../../engine/requirements/index.ts'
import type { PinsByTopology, Study } from '../../engine/requirements/index.ts'
import { parseQuantity } from '../../engine/units/index.ts'

export type PinnedTopology = keyof PinsByTopology

export interface Pin {
  readonly topology: PinnedTopology
  readonly part: string
  readonly pin: string | number
}

export const pinPath = (topology: PinnedTopology, part: string): string => `pins.${topology}.${part}`

/** Topology and part of a path such as `pins.shunt.R1`; undefined for any other. */
export function pinPlace(path: string): { topology: PinnedTopology; part: string } | undefined {
  const [root, topology, part, ...more] = path.split('.')
  if (root !== 'pins' || topology === undefined || part === undefined || more.length > 0) return undefined
  return { topology: topology as PinnedTopology, part }
}

/** What a typed text asks for; the text itself where it can be read neither way, for the check to say why. */
export function meantPin(path: string, text: string): string | number {
  const place = pinPlace(path)
  const family = place && pinnedFamily(place.topology, place.part)
  if (!family) return text
  const number = listedNumber(family, text)
  if (number !== undefined) return number
  const range = pinnedValues(family)
  const parsed = range && parseQuantity(text, range.unit)
  return parsed?.ok ? parsed.value : text
}

/** All pins of a study, or of one topology, in the study's order. */
export const pinsOf = ({ pins = {} }: Pick<Study, 'pins'>, only?: PinnedTopology): Pin[] =>
  (Object.keys(pins) as PinnedTopology[])
    .filter((topology) => only === undefined || topology === only)
    .flatMap((topology) => Object.entries(pins[topology]!).map(([part, pin]) => ({ topology, part, pin })))

/** The study without empty lists of pins: nothing pinned leaves no trace in the file. */
export function withoutEmptyPins(study: Study): Study {
  const { pins, ...rest } = study
  const kept = Object.entries(pins ?? {}).filter(([, each]) => Object.keys(each).length > 0)
  return kept.length > 0 ? { ...rest, pins: Object.fromEntries(kept) } : rest
}

export { pinText }
