/** Derating policies. */
export {
  allowedJunction,
  deratedJunction,
  type DeratingFactors,
  type DeratingPolicy,
  type FactorName,
  type FactorOrigin,
  type JunctionKind,
  type JunctionRule,
} from './policy.ts'
export { DERATING } from './policies.ts'
