/** Derating policies. */
export { deratedJunction, DERATING, type DeratingPolicy } from './policy.ts'
