/** Faults in words: the finding, what the load sees, which parts go over their ratings, what protection changes. */
import type { Crowbar, Fault, Faults, OverRating } from '../../../engine/analyses/faults/index.ts'
import type { Design } from '../../../engine/compare/comparison.ts'
import { entryText, formatQuantity } from '../../../engine/units/index.ts'
import { markOf } from '../../charts/marks.ts'
import { cautionsOf } from '../headline/notes.ts'
import { listed } from '../lane/checks.ts'

/** One design with its faults; without, where nothing could be built or they are still worked out. */
export interface FaultyDesign {
  readonly design: Design
  readonly faults: Faults | undefined
}

const NUMBERS = ['none', 'one', 'two', 'three']

/** A rated current as fuses are marked, without digits that say nothing: `32 mA`, `1.25 A`. */
const rated = (amperes: number): string => entryText(amperes, 'A').replace(' ', '\u202F')

const faultOf = ({ faults }: FaultyDesign, name: Fault['fault']): Fault | undefined =>
  faults?.list.find(({ fault }) => fault === name)

/** Where a load is there to see it and sees more than is allowed. */
export const isOverVoltage = (fault: Fault, faults: Faults): boolean =>
  fault.part !== undefined && fault.output !== undefined && fault.output.highest > faults.band.high * (1 + 1e-9)

/** The screen's title: the highest voltage that a failed part puts on the load, then the shorted output. */
export function faultFinding(designs: readonly FaultyDesign[]): string {
  return `${overVoltageWords(designs)}; ${shortWords(designs)}.`
}

function overVoltageWords(designs: readonly FaultyDesign[]): string {
  const over = designs.flatMap(({ faults }) => {
    const list = (faults?.list ?? []).filter((fault) => isOverVoltage(fault, faults!))
    return list.map((fault) => ({ name: fault.fault, title: fault.title, volts: fault.output!.highest }))
  })
  const passes = over.filter(({ name }) => name === 'pass-shorted')
  const worst = (passes.length > 0 ? passes : over).toSorted((a, b) => b.volts - a.volts)[0]
  if (!worst) return 'No failed part lifts the output above its band'
  const count = over.filter(({ name }) => name === worst.name).length
  return `A ${subject(worst.title)} puts up to ${formatQuantity(worst.volts, 'V')} on the load in ${NUMBERS[count]} of the ${NUMBERS[designs.length] ?? designs.length}`
}

/** `Pass transistor shorted` as `shorted pass transistor`. */
function subject(title: string): string {
  const words = title.toLowerCase().split(' ')
  return [words.at(-1), ...words.slice(0, -1)].join(' ')
}

function shortWords(designs: readonly FaultyDesign[]): string {
  const shorts = designs.flatMap((one) => {
    const fault = faultOf(one, 'output-shorted')
    return fault?.survives === undefined ? [] : [{ name: markOf(one.design.topology).name.toLowerCase(), fault }]
  })
  const lost = shorts.filter(({ fault }) => !fault.survives)
  if (lost.length === 0) return 'a shorted output harms none'
  if (lost.length === shorts.length) return 'a shorted output breaks every design'
  return `a shorted output breaks ${listed(lost.map(({ name }) => name))}`
}

/** Zero as such: what is less than a millivolt is nothing to a load. */
const volts = (value: number): string => (Math.abs(value) < 1e-3 ? '0\u202FV' : formatQuantity(value, 'V'))

/** `16.5 to 27.0 V`; one number where both ends read the same. */
export function outputWords({ output, loadCurrent, fault }: Fault): string {
  if (!output) return 'not solved'
  if (fault === 'output-shorted')
    return loadCurrent ? `${formatQuantity(loadCurrent.value, 'A')} into the short` : 'not solved'
  const [low, high] = [volts(output.lowest), volts(output.highest)]
  if (low === high) return high
  const unit = high.split('\u202F')[1]!
  return low.endsWith(`\u202F${unit}`) ? `${low.split('\u202F')[0]} to ${high}` : `${low} to ${high}`
}

const OVER_WORDS: Readonly<Record<string, string>> = {
  heat: 'takes',
  power: 'takes',
  junction: 'reaches',
  current: 'carries',
  voltage: 'bears',
  supply: 'is supplied with',
  safeArea: 'carries',
}

const ALLOWED_WORDS: Readonly<Record<string, string>> = {
  heat: 'cooled for',
  safeArea: 'its safe area allows',
}

/** `Q1 takes 35.2 W; cooled for 2.41 W`. */
export function overWords({ part, quantity, unit, stress, allowed }: Omit<OverRating, 'corner'>): string {
  const verb = OVER_WORDS[quantity] ?? 'takes'
  return `${part} ${verb} ${formatQuantity(stress, unit)}; ${ALLOWED_WORDS[quantity] ?? 'rated'} ${formatQuantity(allowed, unit)}`
}

/** The worst rating of each part, the furthest over first. */
export function worstOfEachPart(over: readonly OverRating[]): OverRating[] {
  return over.filter(({ part }, k) => over.findIndex((other) => other.part === part) === k)
}

export type Fate = 'bears' | 'over' | 'burns' | 'unsolved'

export function fateOf({ survives, settles }: Fault): Fate {
  if (survives === undefined) return 'unsolved'
  if (!settles) return 'burns'
  return survives ? 'bears' : 'over'
}

export const FATE_WORDS: Readonly<Record<Fate, string>> = {
  bears: 'Parts bear it',
  over: 'Over its rating',
  burns: 'Burns',
  unsolved: 'No solution found',
}

/** What a fuse, a crowbar and a limiter change; only what applies. */
export function protectionWords(fault: Fault, { fuse }: Faults): { what: string; text: string }[] {
  const { crowbar, limiter } = fault.protection
  return [
    ...(fuse && fault.protection.fuse ? [{ what: 'Fuse', text: fuseWords(fault.protection.fuse, fuse.rating) }] : []),
    ...(crowbar ? [{ what: 'Crowbar', text: crowbarWords(crowbar) }] : []),
    ...(limiter ? [{ what: 'Limiter', text: limiterWords(limiter) }] : []),
  ]
}

function fuseWords(outcome: NonNullable<Fault['protection']['fuse']>, rating: number): string {
  const which = `${rated(rating)} in the input`
  if (outcome === 'blows') return `${which} opens`
  return outcome === 'holds' ? `${which} notices nothing` : `${which} may open`
}

function crowbarWords({ trip, current, fuse, over }: Crowbar): string {
  const held = `below ${formatQuantity(trip, 'V')}`
  if (current === undefined)
    return `${held}; shorts the supply, ${fuse === 'blows' ? 'the fuse opens' : 'needs a fuse'}`
  const then = fuse === 'blows' ? 'the fuse opens' : 'no fuse opens'
  const [worst] = over
  return `${held}, carries ${formatQuantity(current, 'A')}; ${then}${worst && fuse !== 'blows' ? `, ${worst.part} over its rating` : ''}`
}

function limiterWords({ isFitted, added }: NonNullable<Fault['protection']['limiter']>): string {
  if (isFitted) return 'fitted: this is its current'
  if (!added) return 'none fits'
  const held = `${formatQuantity(added.sense, 'Ω')} would hold ${formatQuantity(added.current, 'A')}`
  if (added.survives) return `${held}: every part bears it`
  return added.coolingNeeded < added.cooling
    ? `${held}; the pass transistor would need ${formatQuantity(added.coolingNeeded, 'K/W')}, it has ${formatQuantity(added.cooling, 'K/W')}`
    : `${held}; ${overWords(added.over[0]!)}`
}

/** Each caution once, with the designs that it concerns; no names where it concerns all. */
export const faultCautions = (designs: readonly FaultyDesign[]): { text: string; names: string[] }[] =>
  cautionsOf({
    designs: designs.map(({ design, faults }) => ({ topology: design.topology, cautions: faults?.cautions ?? [] })),
  })
