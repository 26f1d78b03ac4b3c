/** What a study may pin is what the designs have: places, families and part numbers. */
import { describe, expect, test } from 'vitest'
import { compare, type Study } from '../../engine/index.ts'
import { CATALOGUE, findPart } from '../../engine/parts/find.ts'
import {
  checkStudy,
  PART_NUMBERS,
  pinnedFamily,
  pinnedIds,
  pinnedValues,
  plainNumber,
  studyFile,
  type PartFamily,
  type Requirements,
} from '../../engine/requirements/index.ts'
import { needOf } from '../../engine/sizing/size.ts'
import { chooserFor, isRefusal, TOPOLOGIES, type Topology, type Variant } from '../../engine/topologies/index.ts'
import { exampleStudies } from '../fixtures/studies/examples.ts'

describe('part numbers', () => {
  test.each(Object.keys(PART_NUMBERS) as PartFamily[])('those of the family %s are the catalogue’s', (family) => {
    const numbers = CATALOGUE.filter((found) => found.family === family).map(({ row }) => row.partNumber)
    expect(PART_NUMBERS[family]).toEqual(numbers)
    // however it is typed, a number names one part
    expect(new Set(numbers.map(plainNumber)).size).toBe(numbers.length)
  })
  test('every family of the catalogue is listed', () => {
    expect(Object.keys(PART_NUMBERS).toSorted()).toEqual([...new Set(CATALOGUE.map(({ family }) => family))].toSorted())
  })
})

/** Requirements under which every variant can be built by hand, whether it suits them or not. */
const REQUIREMENTS: readonly Requirements[] = [0.04, 1.5].flatMap((most) =>
  [true, false].map((survivesShort) => {
    const checked = checkStudy({
      format: 'wattfork-study',
      version: 1,
      requirements: {
        input: { min: 21, max: 27 },
        output: { voltage: most > 1 ? 9.1 : 5, tolerance: 0.12 },
        load: { min: 0, max: most },
        ambient: { min: 0, max: 40 },
        limits: { survivesShort },
      },
    })
    if (!checked.ok) throw new Error(checked.issues[0]?.message)
    return checked.study.requirements
  }),
)

/** Ids and part numbers of every design that a variant builds, unsolved. */
function partsOf(variant: Variant, requirements: Requirements): { id: string; partNumber?: string }[] {
  const need = needOf(requirements)
  const candidates = variant.candidates(need)
  if (isRefusal(candidates)) return []
  return candidates.flatMap((candidate) => {
    const design = candidate.build(variant.working.run(candidate.givens(), chooserFor(need)), {})
    return isRefusal(design)
      ? []
      : design.parts.map(({ id, partNumber }) => ({ id, ...(partNumber && { partNumber }) }))
  })
}

const everyPart = ({ variants }: Topology) =>
  variants.flatMap((variant) => REQUIREMENTS.flatMap((requirements) => partsOf(variant, requirements)))

describe.each([...TOPOLOGIES])('$name', (topology) => {
  const parts = everyPart(topology)

  test('the ids that may be pinned are those that some variant has', () => {
    expect([...new Set(parts.map(({ id }) => id))].toSorted()).toEqual([...pinnedIds(topology.name)].toSorted())
  })

  test('what belongs at an id is what the variants put there', () => {
    for (const { id, partNumber } of parts)
      expect(`${id} ${findPart(partNumber)?.family}`).toBe(`${id} ${pinnedFamily(topology.name, id)}`)
  })
})

test('a design whose every part is pinned to what it is, is the same design', { timeout: 120_000 }, () => {
  const [study] = exampleStudies() as [Study]
  const free = compare(study)
  const pins = Object.fromEntries(
    free.designs.map(({ topology, parts }) => [
      topology,
      Object.fromEntries(
        parts.map(({ id, value, partNumber }) => {
          const family = pinnedFamily(topology, id)!
          return [id, family === 'resistor' && pinnedValues(family) ? value! : partNumber!]
        }),
      ),
    ]),
  )
  const checked = checkStudy({ ...studyFile(study), pins })
  if (!checked.ok) throw new Error(checked.issues[0]?.message)
  const pinned = compare(checked.study)
  expect(pinned.pins).toEqual(pins)
  expect(free).not.toHaveProperty('pins')
  for (const [k, design] of pinned.designs.entries()) {
    expect(design.circuit).toEqual(free.designs[k]!.circuit)
    expect(design.figures).toEqual(free.designs[k]!.figures)
  }
})
