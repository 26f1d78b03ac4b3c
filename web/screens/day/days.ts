/** The day's energies as the screen shows them: bars on one scale, tables, and the finding. */
import type { Design, TopologyName } from '../../../engine/compare/comparison.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import type { Day, DayProfile } from '../../../engine/analyses/profile/index.ts'
import { capital, formatQuantity } from '../../../engine/units/index.ts'
import { markOf } from '../../charts/marks.ts'
import { roundAxis } from '../../charts/scale.ts'
import type { ValueAxis } from '../../charts/scale.ts'

const JOULES_A_WATT_HOUR = 3600
const HOURS_A_DAY = 24

export interface DesignDay {
  readonly topology: TopologyName
  /** Lower case, for the middle of a sentence. */
  readonly name: string
  readonly isBuilt: boolean
  /** Absent where nothing was built, or the study has no profile. */
  readonly profile?: DayProfile
}

export function designDays(designs: readonly Design[], inspection: Inspection | undefined): DesignDay[] {
  return designs.map(({ topology, circuit }, k) => {
    const profile = inspection?.[k]?.profile
    return {
      topology,
      name: markOf(topology).name.toLowerCase(),
      isBuilt: circuit !== undefined,
      ...(profile && { profile }),
    }
  })
}

/** Joules as the trade bills them. */
export const wattHours = (joules: number): string => formatQuantity(joules / JOULES_A_WATT_HOUR, 'Wh')
export const joulesText = (joules: number): string => formatQuantity(joules, 'J')
export const hoursText = (share: number): string => `${(share * HOURS_A_DAY).toPrecision(3)}\u202Fh`

export interface EnergySegment {
  readonly label: string
  readonly joules: number
  /** Shares of the axis. */
  readonly from: number
  readonly width: number
  /** The load's, or heat: of the hottest part, the next, the others. */
  readonly kind: 'load' | 'heat-1' | 'heat-2' | 'heat-3'
  readonly isNamed: boolean
}

export interface EnergyBar {
  readonly topology: TopologyName
  readonly segments: readonly EnergySegment[]
  readonly day: Day
  readonly profile: DayProfile
}

export interface EnergyPlot {
  readonly bars: readonly EnergyBar[]
  /** Watt-hours. */
  readonly axis: ValueAxis
  readonly ticks: readonly number[]
}

/** Share of the axis below which a segment goes without a name. */
const LEAST_NAMED = 0.07
const HEATS = ['heat-1', 'heat-2', 'heat-3'] as const

/** The parts that turn energy to heat, the one with the most first. */
export const heatsOf = (day: Day): { part: string; joules: number }[] =>
  Object.entries(day.energy?.heatByPart ?? {})
    .map(([part, joules]) => ({ part, joules }))
    .toSorted((a, b) => b.joules - a.joules)

export function energyPlot(days: readonly DesignDay[]): EnergyPlot {
  const drawn = days.flatMap(({ topology, profile }) =>
    profile?.nominal.energy ? [{ topology, profile, day: profile.nominal }] : [],
  )
  const most = Math.max(0, ...drawn.map(({ day }) => day.energy!.input / JOULES_A_WATT_HOUR))
  const axis = roundAxis(0, most, 6)
  const bars = drawn.map(({ topology, profile, day }): EnergyBar => {
    const load = { label: 'load', joules: day.energy!.output, kind: 'load' as const }
    const heats = heatsOf(day)
      .filter(({ joules }) => joules > 0)
      .map(({ part, joules }, k) => ({ label: part, joules, kind: HEATS[Math.min(k, 2)]! }))
    let from = 0
    const segments = [load, ...heats].map((segment) => {
      const width = segment.joules / JOULES_A_WATT_HOUR / axis.max
      const placed = { ...segment, from, width, isNamed: width >= LEAST_NAMED }
      from += width
      return placed
    })
    return { topology, segments, day, profile }
  })
  const steps = Math.round(axis.max / axis.step)
  const ticks = Array.from({ length: steps + 1 }, (_, k) => Number((k * axis.step).toPrecision(12)))
  return { bars, axis, ticks }
}

/** The day's heat at the lowest, nominal and highest input; undefined where a stretch has no solution there. */
export const heatsByInput = ({ lowestInput, nominal, highestInput }: DayProfile): (number | undefined)[] =>
  [lowestInput, nominal, highestInput].map(({ energy }) => energy?.heat)

const volts = (value: number) => formatQuantity(value, 'V')

/** "2.10 Wh at 10.8 V to 5.30 Wh at 14.6 V" */
export function heatSpan(profile: DayProfile): string {
  const known = [profile.lowestInput, profile.highestInput].flatMap(({ input, energy }) =>
    energy ? [`${wattHours(energy.heat)} at ${volts(input)}`] : [],
  )
  return [...new Set(known)].join(' to ')
}

function times(ratio: number): string {
  if (ratio >= 1.95) return `${ratio >= 9.5 ? Math.round(ratio) : Number(ratio.toPrecision(2))} times as much`
  return `${Math.round((ratio - 1) * 100)}\u202F% more`
}

/** The title: which design wastes the least over the day, and how the others stand to it. */
export function finding(days: readonly DesignDay[], hasProfile: boolean): string {
  if (!hasProfile) return 'No load profile yet: how does the day divide over load currents?'
  const known = days
    .flatMap(({ name, profile }) => (profile?.nominal.energy ? [{ name, energy: profile.nominal.energy }] : []))
    .toSorted((a, b) => a.energy.heat - b.energy.heat)
  const [least, ...others] = known
  if (!least) return 'No design has an energy for the whole day.'
  const rest = others.map(({ name, energy }) => {
    const ratio = energy.heat / least.energy.heat
    const much = ratio < 1.005 ? 'as much' : times(ratio)
    return `${name} ${wattHours(energy.heat)}, ${much}`
  })
  const tail = rest.length > 0 ? `; ${rest.join('; ')}` : ''
  return `Over this day ${least.name} turns ${wattHours(least.energy.heat)} to heat${tail}.`
}

/** What has no solution, one sentence a design. */
export function unsolvedWords(days: readonly DesignDay[]): string[] {
  return days.flatMap(({ name, profile, isBuilt }) => {
    if (!isBuilt) return [`${capital(name)} has no circuit.`]
    if (!profile || profile.unsolved.length === 0) return []
    const where = profile.unsolved.map(({ stretch, input }) => `row ${stretch + 1} at ${volts(input)}`)
    return [`${capital(name)} has no solution in ${where.join(', ')}: no energy is shown for such a day.`]
  })
}
