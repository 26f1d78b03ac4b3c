/** The derating policy of a study as plain data: every number with where it comes from. */
import { DERATING, type FactorName, type FactorOrigin } from '../parts/derating/index.ts'
import type { DeratingName } from '../requirements/study.ts'
import type { Proof } from './prove.ts'

export interface PolicyNumber extends FactorOrigin {
  factor: FactorName
  /** Share of the maker's rating; for the heatsink a factor above 1. Absent for a junction temperature. */
  value?: number
  /** For a junction: share of its maximum in °C, kelvin below it, and a ceiling in °C, the lowest of which holds; each absent where it bounds nothing. */
  junction?: { share?: number; margin?: number; ceiling?: number }
}

export interface PolicyUse {
  name: DeratingName
  label: string
  source: string
  numbers: PolicyNumber[]
}

export function policyOf({ requirements }: Proof): PolicyUse {
  const policy = DERATING[requirements.derating]
  const { name, label, source, origins } = policy
  return {
    name,
    label,
    source,
    numbers: (Object.keys(origins) as FactorName[]).map((factor): PolicyNumber => {
      const value = policy[factor]
      if (typeof value === 'number') return { factor, value, ...origins[factor] }
      const { share, margin, ceiling } = value
      const junction = {
        ...(share === 1 ? {} : { share }),
        ...(margin === 0 ? {} : { margin }),
        ...(Number.isFinite(ceiling) ? { ceiling } : {}),
      }
      return { factor, junction, ...origins[factor] }
    }),
  }
}
