/**
 * What else could be bought for each part: catalogue rows that meet their derated ratings in this place under the stresses of
 * the present design. None of them is proven: another part moves the operating points and with them the stresses. A study
 * that pins one proves it.
 */
import { findPart, kindOf } from '../../parts/index.ts'
import { DERATING } from '../../parts/derating/index.ts'
import type { Study } from '../../requirements/study.ts'
import type { DesignPart, Need } from '../../topologies/define.ts'
import { areaOf, priceOf } from '../bill/index.ts'
import type { Proof } from '../prove.ts'
import { type FittedRow, type Shed, rowsFor } from './rows.ts'
import { type PlacedStress, stressesOn, useUnder } from './stresses.ts'
import { type PartTolerance, toleranceOf } from './tolerance.ts'

export type { PartTolerance } from './tolerance.ts'

export interface Alternative {
  partNumber: string
  package: string
  /** 1 - the largest share used of any of its derated ratings at the present stresses. */
  margin: number
  /** The rating behind the margin; absent where it has none. */
  quantity?: string
  /** Euro and square metres, assumed; absent where the lists have no figure. */
  price?: number
  area?: number
  tolerance?: PartTolerance
  /** The heatsink that it would need here. */
  heatsink?: string
}

export interface PartAlternatives {
  part: string
  tolerance?: PartTolerance
  /** How they were chosen: never proven. */
  basis: 'ratings at the present stresses'
  /** The smallest first, by board area, then price; at most `MOST`. */
  rows: Alternative[]
  /** How many serve in all. */
  of: number
}

/** More than these would hide the choice. */
const MOST = 8

/** One entry a part, in the order of the parts list. */
export function* alternativesOf(proof: Proof, study: Study): Generator<void, PartAlternatives[]> {
  const need: Need = { requirements: proof.requirements, policy: DERATING[proof.requirements.derating], pins: {} }
  const all: PartAlternatives[] = []
  for (const part of proof.design.parts) {
    all.push(alternativesFor(proof, need, part, study))
    yield
  }
  return all
}

function alternativesFor(proof: Proof, need: Need, part: DesignPart, study: Study): PartAlternatives {
  const found = findPart(part.partNumber)
  const tolerance = found && toleranceOf(found)
  const cooled = part.cools === undefined ? undefined : proof.design.parts.find(({ id }) => id === part.cools)
  const stresses = stressesOn(proof, (cooled ?? part).id)
  const others = rowsFor(need, part, shedOf(stresses), cooled).filter(
    (row) => row.found.row.partNumber !== part.partNumber,
  )
  const serving = others
    .map((row) => alternative(row, stresses, study))
    .filter(({ margin }) => margin >= 0)
    .toSorted(
      (a, b) =>
        (a.area ?? Infinity) - (b.area ?? Infinity) ||
        (a.price ?? Infinity) - (b.price ?? Infinity) ||
        b.margin - a.margin,
    )
  return {
    part: part.id,
    ...(tolerance ? { tolerance } : {}),
    basis: 'ratings at the present stresses',
    rows: serving.slice(0, MOST),
    of: serving.length,
  }
}

function shedOf(stresses: readonly PlacedStress[]): Shed {
  const most = (fault: boolean): number =>
    Math.max(0, ...stresses.filter((stress) => stress.fault === fault).map(({ at }) => at.power))
  const shorted = most(true)
  return { power: most(false), ...(shorted > 0 ? { faultPower: shorted } : {}) }
}

function alternative(
  { found, part, cooling }: FittedRow,
  stresses: readonly PlacedStress[],
  study: Study,
): Alternative {
  const kind = kindOf(found)
  const { prices, areas } = study.assumptions
  const price = kind && priceOf(kind.price, prices)?.value
  const area = kind && areaOf(found, kind.area, areas).value
  const tolerance = toleranceOf(found)
  return {
    partNumber: found.row.partNumber,
    package: found.row.package,
    ...useUnder(stresses, part),
    ...(price === undefined ? {} : { price }),
    ...(area === undefined ? {} : { area }),
    ...(tolerance ? { tolerance } : {}),
    ...(cooling?.heatsink ? { heatsink: cooling.heatsink.partNumber } : {}),
  }
}
