/** What the screens of heat and ratings say: places, corners, findings. */
import type { Design } from '../../../engine/compare/comparison.ts'
import type { Details } from '../../../engine/compare/details.ts'
import type { HeatNode, PartHeat, Runaway, Surface } from '../../../engine/analyses/heat/index.ts'
import { capital, formatQuantity } from '../../../engine/units/index.ts'
import { markOf } from '../../charts/marks.ts'

/** A design with what the engine found of its heat; without it where nothing could be built or it is still being worked out. */
export interface HeatedDesign {
  readonly design: Design
  readonly heat: Details['thermal'] | undefined
}

export const degrees = (celsius: number): string => formatQuantity(celsius, '°C', Math.abs(celsius) < 100 ? 2 : 3)
export const kelvin = (difference: number): string => formatQuantity(difference, 'K', Math.abs(difference) <= 1 ? 1 : 3)

/** Two values of one unit with as many figures as it takes to tell them apart, three at least. */
export function apart(one: number, other: number, unit: string): [string, string] {
  for (let digits = 3; digits < 7; digits++) {
    const texts: [string, string] = [formatQuantity(one, unit, digits), formatQuantity(other, unit, digits)]
    if (texts[0] !== texts[1]) return texts
  }
  return [formatQuantity(one, unit), formatQuantity(other, unit)]
}

/** The current, in amperes, from which on a load stands for a shorted output. */
const SHORTED = 1000

/** `30.0 V in, 80.0 mA, 50 °C`: the corner in words. */
export function cornerWords({ input, load, ambient }: PartHeat['condition']): string {
  const drawn = load >= SHORTED ? 'shorted output' : load === 0 ? 'no load' : formatQuantity(load, 'A')
  return `${formatQuantity(input, 'V')} in, ${drawn}, ${degrees(ambient)}`
}

const nameOf = ({ topology }: Design): string => markOf(topology).name.toLowerCase()

/** Kelvin between what is allowed of a junction and what it reaches; undefined for what has no junction. */
export const roomOf = ({ allowed, hottest }: PartHeat): number | undefined =>
  allowed === undefined ? undefined : allowed - hottest

/** The part whose junction has the least room; where there is no junction, the hottest part. */
export const tightest = (parts: readonly PartHeat[]): PartHeat | undefined =>
  parts.toSorted((a, b) => rankOf(a) - rankOf(b))[0]

/** The room of a junction; far behind all junctions, the coolness of a body. */
const rankOf = (part: PartHeat): number => roomOf(part) ?? 1e6 - part.hottest

interface Placed {
  design: Design
  part: PartHeat
}

const placed = (designs: readonly HeatedDesign[]): Placed[] =>
  designs.flatMap(({ design, heat }) => (heat?.parts ?? []).map((part) => ({ design, part })))

const ofDesign = ({ design, part }: Placed): string => `${part.part} of the ${nameOf(design)} design`

/** The screen's title: whether the junctions keep their limits, and where it is hottest to the touch. */
export function heatFinding(designs: readonly HeatedDesign[]): string {
  const parts = placed(designs)
  if (parts.length === 0) return 'Nothing could be built, so nothing gets hot.'
  const running = designs.filter(({ heat }) => heat?.runaway.some(({ shorted }) => !shorted))
  const first =
    running.length > 0
      ? `${capital(listOf(running.map(({ design }) => nameOf(design))))}: at some corners no temperature settles, thermal runaway.`
      : junctionFinding(parts)
  const hottest = parts.toSorted((a, b) => b.part.surface.temperature - a.part.surface.temperature)[0]!
  const surface = hottest.part.surface.atMost
    ? ''
    : `${surfaceName(hottest.part)} of the ${nameOf(hottest.design)} design`
  return surface === ''
    ? first
    : `${first} The hottest surface is ${surface}, ${degrees(hottest.part.surface.temperature)}.`
}

function junctionFinding(parts: readonly Placed[]): string {
  const judged = parts.filter(({ part }) => part.allowed !== undefined)
  const over = judged.filter(({ part }) => roomOf(part)! < 0)
  const nearest = judged.toSorted((a, b) => roomOf(a.part)! - roomOf(b.part)!)[0]
  if (!nearest) return 'No part has a junction to judge.'
  const { hottest, allowed } = nearest.part
  if (over.length === 0)
    return `Every junction keeps its derated limit; the nearest to it is ${ofDesign(nearest)}, ${degrees(hottest)} of ${degrees(allowed!)}.`
  const others = over.length > 1 ? `, the worst of ${over.length}` : '; every other junction keeps its limit'
  return `${ofDesign(nearest)} gets ${kelvin(hottest - allowed!)} hotter than its derating allows${others}.`
}

function listOf(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

export const PLACE_WORDS: Readonly<Record<HeatNode, string>> = {
  junction: 'junction',
  body: 'body',
  case: 'case',
  lead: 'lead',
  sink: 'heatsink',
  ambient: 'ambient',
}

/** `heatsink of Q1`, `R1`: what a finger would touch. */
export function surfaceName({ part, surface }: PartHeat): string {
  return surface.at === 'sink' || surface.at === 'case' ? `the ${PLACE_WORDS[surface.at]} of ${part}` : part
}

/** What a surface that passes a published limit is said to do; undefined for one that passes none. */
export function touchWords(part: PartHeat): string | undefined {
  const { surface } = part
  const { limit } = surface
  if (!limit) return undefined
  const most = surface.atMost ? 'at most ' : ''
  return `${capital(surfaceName(part))}, ${materialWords(surface)}, reaches ${most}${degrees(surface.temperature)} at ${cornerWords(part.condition)}. From ${degrees(limit.temperature)}: ${limit.meaning} (${limit.source}${limit.confidence === 'memory' ? ', from memory' : ''}).`
}

function materialWords({ material, at }: Surface): string {
  if (material === 'metal') return at === 'sink' ? 'metal' : 'metal tab'
  return material === 'glass' ? 'glass or ceramic' : 'plastic'
}

/** One sentence a design about whether temperatures settle. */
export function runawayWords({ design, heat }: HeatedDesign): string {
  if (!heat) return ''
  const service = heat.runaway.filter(({ shorted }) => !shorted)
  const shorted = heat.runaway.filter((one) => one.shorted)
  if (service.length > 0)
    return `${which(service)} no temperature settles: ${who(service)}. The design cannot be built like this.`
  const gains = heat.parts.filter(({ loopGain }) => loopGain !== undefined)
  const most = gains.toSorted((a, b) => b.loopGain! - a.loopGain!)[0]
  const settled = most
    ? `Temperatures settle at every corner. ${most.part} comes nearest to running away: of a warming by ${kelvin(1)} its heat gives back ${givenBack(most.loopGain!)}; at ${kelvin(1)} it would.`
    : 'Temperatures settle at every corner.'
  if (shorted.length === 0) return settled
  const judged = design.shortfalls.some(({ requirement }) => requirement === 'limits.survivesShort')
  return `${settled} ${which(shorted)} none does: ${who(shorted)} and burns${judged ? '' : '; surviving a short is not required'}.`
}

const givenBack = (gain: number): string => (gain < 0.01 ? `less than ${kelvin(0.01)}` : kelvin(gain))

const which = ([first]: readonly Runaway[]): string =>
  first!.shorted ? 'With the output shorted' : `At ${cornerWords(first!.condition)}`

const who = (list: readonly Runaway[]): string => {
  const parts = [...new Set(list.flatMap(({ part }) => (part === undefined ? [] : [part])))]
  return parts.length > 0 ? `${listOf(parts)} runs away thermally` : 'a part runs away thermally'
}

/** What must carry a transistor's heat away, in a few words: what is needed, what the list has. */
export function sinkWords({ sink, fitted, sinkForShort, copper }: PartHeat): { main: string; more: string } {
  if (copper) {
    const most = formatQuantity(copper.allowed, 'K/W')
    if (!copper.least) return { main: 'board copper', more: `${most} allowed; nothing published is that good` }
    const area = copper.least.area === undefined ? 'the footprint' : formatQuantity(copper.least.area, 'm²')
    return {
      main: `${area} of copper`,
      more: `${formatQuantity(copper.least.thermalResistance, 'K/W')}; ${most} allowed`,
    }
  }
  if (!sink) return { main: '', more: '' }
  const short = sinkForShort?.needed === undefined ? '' : `; shorted ${formatQuantity(sinkForShort.needed, 'K/W')}`
  if (sink.bare) return { main: 'none', more: fitted ? `fitted for the short${short}` : '' }
  if (sink.needed === undefined) return { main: 'none fits', more: sink.because ?? '' }
  if (sink.needed <= 0) return { main: 'none is enough', more: sink.because ?? '' }
  const smallest = sink.smallest ? `smallest that serves: ${sink.smallest.partNumber}` : (sink.because ?? '')
  return { main: `≤ ${formatQuantity(sink.needed, 'K/W')}`, more: `${smallest}${short}` }
}
