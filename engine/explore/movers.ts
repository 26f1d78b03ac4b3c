/** The requirements that may be asked to give way, one at a time: where each stands, which way it may go, and in what measure. */
import type { Study } from '../requirements/study.ts'
import { type RequirementValue, valueAt } from './altered.ts'

/** What a change is for: that the design meets every requirement, or that it comes first in the ranking and meets. */
export type Goal = 'meet' | 'win'

/** A requirement that is a number, in one direction. */
export interface Mover {
  path: string
  direction: 1 | -1
  from: number
  /** What a change is measured by: half of it is a change of size one half. */
  scale: number
  /** Changes are whole multiples of this: one in the third figure of the scale. */
  grain: number
  /** The largest size that is looked at. */
  reach: number
}

/** A requirement that is given up or taken on. */
export interface Toggle {
  path: string
  from: boolean
  to: boolean
}

/** Temperatures have no ratio: a change of so many kelvins counts as one of size one. */
const KELVINS = 100

/** `easing`: the way in which less is asked of a design. */
const NUMBERS: readonly { path: string; easing: 1 | -1; scale?: (study: Study) => number; isLimit?: true }[] = [
  { path: 'input.min', easing: 1 },
  { path: 'input.max', easing: -1 },
  { path: 'input.ripple', easing: -1 },
  { path: 'output.tolerance', easing: 1, isLimit: true },
  // the least load may be nothing
  { path: 'load.min', easing: 1, scale: ({ requirements }) => requirements.load.max },
  { path: 'load.max', easing: -1 },
  { path: 'ambient.min', easing: 1, scale: () => KELVINS },
  { path: 'ambient.max', easing: -1, scale: () => KELVINS },
  { path: 'limits.loadRegulation', easing: 1, isLimit: true },
  { path: 'limits.lineRegulation', easing: 1, isLimit: true },
  { path: 'limits.outputRipple', easing: 1, isLimit: true },
]

const TOGGLES: readonly { path: string; eased: boolean }[] = [
  { path: 'limits.survivesShort', eased: false },
  { path: 'load.permanent', eased: true },
]

/** How far numbers are moved: by most of what they are; what is allowed of a design may become many times as much. */
const REACH = 0.8
const LIMIT_REACH = 15

const grainOf = (scale: number): number => Number(`1e${Math.floor(Math.log10(scale)) - 2}`)

/** To meet, less may be asked; to win, more as well: what the others cannot do decides too. */
export function moversOf(study: Study, goal: Goal): Mover[] {
  return NUMBERS.flatMap(({ path, easing, scale: scaleOf, isLimit }) => {
    const from: RequirementValue | undefined = valueAt(study, path)
    if (typeof from !== 'number') return []
    const scale = scaleOf ? scaleOf(study) : from
    // what is zero and measured by itself cannot give way any more
    if (!(scale > 0)) return []
    const directions = goal === 'meet' ? [easing] : [easing, -easing as 1 | -1]
    const grain = grainOf(scale)
    return directions.map((direction) => {
      const reach = isLimit && direction === easing ? LIMIT_REACH : REACH
      return { path, direction, from, scale, grain, reach }
    })
  })
}

export function togglesOf(study: Study, goal: Goal): Toggle[] {
  return TOGGLES.flatMap(({ path, eased }) => {
    const from = valueAt(study, path) === true
    return goal === 'win' || from !== eased ? [{ path, from, to: !from }] : []
  })
}

/** The value so many grains along, written with the grain's decimals. */
export function valueAlong({ from, direction, grain }: Mover, grains: number): number {
  return Number((from + direction * grains * grain).toPrecision(12))
}
