/** What a current limiter changes about a shorted output. */
import type { Requirements } from '../../requirements/study.ts'
import type { SizedDesign } from '../../topologies/define.ts'

export interface AddedLimiter {
  current: number
}

export function tryLimiter(design: SizedDesign, _requirements: Requirements): { isFitted: boolean } | undefined {
  return { isFitted: design.parts.some(({ role }) => role === 'current limiter') }
}
