/** Why a design has its verdict: its shortfalls with numbers, or where it is tightest. */
import { capital } from '../../../engine/units/index.ts'
import type { Design, Shortfall } from '../../../engine/compare/comparison.ts'
import type { Requirements } from '../../../engine/requirements/study.ts'
import { typeset } from '../../look/typeset.ts'
import { checkKey, margins } from './checks.ts'

export interface Reason {
  readonly key: string
  /** What, how much, against which limit. */
  readonly text: string
}

/** How far beyond its limit a shortfall is, as a share of the limit. */
function severity({ required, achieved }: Shortfall): number {
  const size = Math.abs(required)
  return size > 0 ? Math.abs(achieved - required) / size : Math.abs(achieved)
}

function shortfallReasons(design: Design): Reason[] {
  const worst = new Map<string, Shortfall>()
  for (const shortfall of design.shortfalls) {
    const key = checkKey(shortfall.requirement)
    const known = worst.get(key)
    if (!known || severity(shortfall) > severity(known)) worst.set(key, shortfall)
  }
  return [...worst]
    .toSorted(([, a], [, b]) => severity(b) - severity(a))
    .map(([key, { because }]) => ({ key, text: capital(typeset(because)) }))
}

/** Margins shown where all is met. */
const SHOWN_MARGINS = 2

export function reasons(design: Design, requirements: Requirements): Reason[] {
  if (design.verdict !== 'meets') return shortfallReasons(design)
  return margins(design, requirements)
    .slice(0, SHOWN_MARGINS)
    .map(({ text }, i) => ({ key: text, text: i === 0 ? `Tightest: ${text}.` : `Next: ${text}.` }))
}
