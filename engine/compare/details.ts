/**
 * What can be asked about the designs beyond the comparison: each detail is an analysis of one proven design, in a folder or
 * file of its own under `engine/analyses/`, listed here once. The headless run prints all, the page asks for those it shows.
 */
import { type HandValue, handValuesOf } from '../analyses/handValues/index.ts'
import { type PartAlternatives, alternativesOf } from '../analyses/alternatives/index.ts'
import { type Bill, billOf } from '../analyses/bill/index.ts'
import { type Heat, heatOf } from '../analyses/heat/index.ts'
import { type HeatMap, heatMapOf } from '../analyses/heatMap.ts'
import { type PolicyUse, policyOf } from '../analyses/policy.ts'
import { type Faults, faultsOf } from '../analyses/faults/index.ts'
import type { Proof } from '../analyses/prove.ts'
import { type RatingUse, ratingsOf } from '../analyses/ratings.ts'
import { type DayProfile, profileOf } from '../analyses/profile/index.ts'
import { type Reliability, reliabilityOf } from '../analyses/reliability/index.ts'
import { type Sensitivities, sensitivitiesOf } from '../analyses/spread/sensitivities.ts'
import { type Spread, spreadOf } from '../analyses/spread/spread.ts'
import { type WorstCase, worstCaseOf } from '../analyses/spread/worstCase.ts'
import type { Study } from '../requirements/study.ts'
import { isUnbuilt } from '../sizing/size.ts'
import { TOPOLOGIES } from '../topologies/index.ts'
import { type PinCost, pinCostsOf } from './pinCost.ts'
import type { Sizer } from './sizer.ts'
import { telling } from './telling.ts'

/** Every detail by its name, as plain data without NaN or Infinity. */
export interface Details {
  faults: Faults
  ratings: RatingUse[]
  handValues: HandValue[]
  bill: Bill
  reliability: Reliability
  sensitivities: Sensitivities
  spread: Spread
  worstCase: WorstCase
  thermal: Heat
  heatMap: HeatMap
  derating: PolicyUse
  alternatives: PartAlternatives[]
  /** Empty where the study pins nothing here; the one detail that a design that could not be built has too. */
  pinCost: PinCost[]
  /** Undefined where the study has no load profile. */
  profile: DayProfile | undefined
}

export type DetailName = keyof Details

/** A detail yields wherever it can be interrupted. */
type DetailJobs = {
  readonly [N in Exclude<DetailName, 'pinCost'>]: (proof: Proof, study: Study) => Generator<void, Details[N]>
}

/** A detail that is worked out in one go. */
const atOnce = <T>(of: (proof: Proof, study: Study) => T) =>
  // oxlint-disable-next-line require-yield -- nothing to interrupt
  function* whole(proof: Proof, study: Study): Generator<void, T> {
    return of(proof, study)
  }

const JOBS: DetailJobs = {
  faults: faultsOf,
  ratings: atOnce(ratingsOf),
  handValues: handValuesOf,
  bill: atOnce(({ design }, { assumptions }) => billOf(design, assumptions)),
  reliability: atOnce((proof, { assumptions }) => reliabilityOf(proof, assumptions)),
  sensitivities: atOnce(sensitivitiesOf),
  spread: spreadOf,
  worstCase: worstCaseOf,
  thermal: heatOf,
  heatMap: heatMapOf,
  derating: atOnce(policyOf),
  alternatives: alternativesOf,
  profile: profileOf,
}

export const DETAIL_NAMES: readonly DetailName[] = [...(Object.keys(JOBS) as (keyof DetailJobs)[]), 'pinCost']

/** One entry a design, in the order of the comparison's; without details where nothing could be built. */
export type Inspection = Partial<Details>[]

/** The details asked for, of every design, as a job that can be interrupted; `done` counts details of designs. */
export function* inspect(
  study: Study,
  names: readonly DetailName[],
  sizer: Sizer,
): Generator<{ done: number; total: number }, Inspection> {
  const total = TOPOLOGIES.length * names.length
  let done = 0
  const inspection: Inspection = []
  for (const sized of yield* telling(sizer.proven(study), () => ({ done, total }))) {
    const details: Partial<Details> = {}
    for (const name of names) {
      if (name === 'pinCost')
        details.pinCost = yield* telling(pinCostsOf(TOPOLOGIES[inspection.length]!, sized, study), () => ({
          done,
          total,
        }))
      else if (!isUnbuilt(sized)) yield* fill(details, name, sized.proof, study, () => ({ done, total }))
      done++
    }
    inspection.push(details)
  }
  return inspection
}

function* fill<N extends keyof DetailJobs, P>(
  details: Partial<Details>,
  name: N,
  proof: Proof,
  study: Study,
  progress: () => P,
): Generator<P, void> {
  details[name] = yield* telling(JOBS[name](proof, study), progress)
}
