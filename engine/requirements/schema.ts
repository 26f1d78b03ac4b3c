/** The shape of a study file. Unknown keys and rules between fields are checked beside it, on the same raw value. */
import * as v from 'valibot'
import { PLACED, PRICED, assumedRange } from './assumed.ts'
import { isPin, pinnedFamily, pinnedIds, PINNED_TOPOLOGIES } from './pins.ts'
import {
  CHOICES,
  DEFAULTS,
  LONGEST_NOTES,
  LONGEST_TITLE,
  RANGES,
  WEIGHT_RANGE,
  type FieldRange,
  type NumberPath,
} from './fields.ts'
import { MOST_ROWS, ROW_FIELDS } from './profile.ts'

export const FORMAT = 'wattfork-study'
/** The version that is written; older ones are migrated, newer ones refused. */
export const VERSION = 1

function within(range: FieldRange) {
  return v.pipe(v.number(), v.finite(), v.minValue(range.min), v.maxValue(range.max))
}

function quantity(path: NumberPath) {
  return within(RANGES[path])
}

const input = v.object({
  min: quantity('input.min'),
  nominal: v.optional(quantity('input.nominal')),
  max: quantity('input.max'),
  ripple: v.optional(quantity('input.ripple'), DEFAULTS.ripple),
  rippleFrequency: v.optional(quantity('input.rippleFrequency'), DEFAULTS.rippleFrequency),
})

const output = v.object({ voltage: quantity('output.voltage'), tolerance: quantity('output.tolerance') })

const load = v.object({
  min: quantity('load.min'),
  nominal: v.optional(quantity('load.nominal')),
  max: quantity('load.max'),
  permanent: v.optional(v.boolean(), DEFAULTS.permanent),
})

const ambient = v.object({
  min: quantity('ambient.min'),
  nominal: v.optional(quantity('ambient.nominal')),
  max: quantity('ambient.max'),
})

const limits = v.object({
  loadRegulation: v.optional(quantity('limits.loadRegulation')),
  lineRegulation: v.optional(quantity('limits.lineRegulation')),
  outputRipple: v.optional(quantity('limits.outputRipple')),
  survivesShort: v.optional(v.boolean(), DEFAULTS.survivesShort),
})

const parts = v.object({
  resistorSeries: v.optional(v.picklist(CHOICES['parts.resistorSeries'].values), DEFAULTS.resistorSeries),
  resistorTolerance: v.optional(quantity('parts.resistorTolerance'), DEFAULTS.resistorTolerance),
  mounting: v.optional(v.picklist(CHOICES['parts.mounting'].values), DEFAULTS.mounting),
})

const requirements = v.object({
  input,
  output,
  load,
  ambient,
  limits: v.optional(limits, {}),
  parts: v.optional(parts, {}),
  derating: v.optional(v.picklist(CHOICES.derating.values), DEFAULTS.derating),
})

/** One optional number for each name under `assumptions.prices` or `assumptions.areas`. */
function assumedNumbers<Name extends string>(kind: 'prices' | 'areas', names: Readonly<Record<Name, string>>) {
  const number = v.optional(within(assumedRange(`assumptions.${kind}.${Object.keys(names)[0]}`)!))
  return v.optional(v.object(Object.fromEntries(Object.keys(names).map((name) => [name, number]))), {})
}

const assumptions = v.object({
  environment: v.optional(v.picklist(CHOICES['assumptions.environment'].values), DEFAULTS.environment),
  quality: v.optional(v.picklist(CHOICES['assumptions.quality'].values), DEFAULTS.quality),
  prices: assumedNumbers('prices', PRICED),
  areas: assumedNumbers('areas', PLACED),
})

const pins = v.object(
  Object.fromEntries(
    PINNED_TOPOLOGIES.map((topology) => {
      const places = pinnedIds(topology).map((id) => {
        const family = pinnedFamily(topology, id)!
        return [id, v.optional(v.custom<string | number>((pin) => isPin(family, pin)))] as const
      })
      return [topology, v.optional(v.object(Object.fromEntries(places)))] as const
    }),
  ),
)

const profile = v.pipe(
  v.array(
    v.object({
      load: within(ROW_FIELDS.load),
      share: within(ROW_FIELDS.share),
      ambient: v.optional(within(ROW_FIELDS.ambient)),
    }),
  ),
  v.minLength(1),
  v.maxLength(MOST_ROWS),
)

/** Schema of a study file of the current version, in which the figures `figureNames` may be weighed. */
export function studySchema(figureNames: readonly string[]) {
  const weight = v.optional(within(WEIGHT_RANGE))
  return v.object({
    format: v.literal(FORMAT),
    version: v.literal(VERSION),
    title: v.optional(v.pipe(v.string(), v.maxLength(LONGEST_TITLE)), DEFAULTS.title),
    notes: v.optional(v.pipe(v.string(), v.maxLength(LONGEST_NOTES))),
    requirements,
    assumptions: v.optional(assumptions, {}),
    pins: v.optional(pins),
    weights: v.optional(v.object(Object.fromEntries(figureNames.map((name) => [name, weight])))),
    profile: v.optional(profile),
  })
}

export type CheckedFile = v.InferOutput<ReturnType<typeof studySchema>>

/** The schema of each entry where a list is due; `undefined` where none is. */
export function itemOf(schema: v.GenericSchema): v.GenericSchema | undefined {
  if ('wrapped' in schema) return itemOf(schema.wrapped as v.GenericSchema)
  return 'item' in schema ? (schema.item as v.GenericSchema) : undefined
}

/** The keys that an object at this place of the schema may have, with the schema of each; `undefined` where no object is due. */
export function entriesOf(schema: v.GenericSchema): Readonly<Record<string, v.GenericSchema>> | undefined {
  if ('wrapped' in schema) return entriesOf(schema.wrapped as v.GenericSchema)
  return 'entries' in schema ? (schema.entries as Record<string, v.GenericSchema>) : undefined
}
