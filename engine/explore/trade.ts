/**
 * What the width of the input range costs: every topology sized and proven anew at each of several highest (or lowest) input
 * voltages, all else as it is. Parts come in steps, so the curves do too.
 */
import { designOf } from '../compare/design.ts'
import type { Design, TopologyName } from '../compare/comparison.ts'
import { needFor } from '../compare/sizer.ts'
import { headlineOf } from '../figures/index.ts'
import type { Study } from '../requirements/study.ts'
import { size } from '../sizing/size.ts'
import { TOPOLOGIES } from '../topologies/index.ts'
import { altered } from './altered.ts'

/** `max`: the highest input moves; `min`: the lowest. */
export type InputEnd = 'min' | 'max'

/** One topology, sized for one input range. */
export interface TradeDesign {
  topology: TopologyName
  variant: string
  meets: boolean
  /** How many requirements and ratings it misses. */
  missed: number
  /** Watts at the worst corner, and the figure of efficiency; absent where nothing could be built. */
  heat?: number
  efficiency?: number
  /** Efficiency at full load and the highest input, nominal parts and ambient. */
  efficiencyAtHighest?: number
  /** Printed resistance of the largest heatsink, K/W, and its name; absent where the design has none. */
  heatsink?: { partNumber: string; thermalResistance: number }
  /** Part numbers by part; a resistor's or capacitor's type, whatever its value. */
  partNumbers: Record<string, string>
}

export interface TradePoint {
  /** The end that moves, volts. */
  input: number
  /** In the order in which designs are always listed. */
  designs: TradeDesign[]
}

/** What the next step of the range costs one topology, per volt; the difference of two whole comparisons. */
export interface MarginalCost {
  topology: TopologyName
  /** From the end as it is to the end one step further out (`outward`) or in. */
  direction: 'outward' | 'inward'
  from: number
  to: number
  /** Watts of worst heat for each volt of wider range. */
  heatPerVolt: number
  /** Efficiency at full load and the highest input, lost (negative) for each volt of wider range. */
  efficiencyPerVolt?: number
  /** The heatsink differs, the variant differs, or whether it meets does. */
  changesHeatsink: boolean
  changesVariant: boolean
  changesVerdict: boolean
  /** Parts of another type at the two ends of the step; heatsinks and, where the variant differs, all else are left out. */
  changedParts: string[]
}

export interface Trade {
  end: InputEnd
  /** The end as it is required, volts; one of the points. */
  present: number
  step: number
  /** By rising input. */
  points: TradePoint[]
  costs: MarginalCost[]
}

/** So many steps outwards, where a range usually grows, and inwards. */
const OUTWARDS = 7
const INWARDS = 5
/** A step is about this share of the voltage. */
const STEP_SHARE = 0.05

/** The nearest of 1, 2 and 5 in each decade, by ratio. */
function roundStep(wanted: number): number {
  const decade = 10 ** Math.floor(Math.log10(wanted))
  const lead = wanted / decade
  const round = lead < Math.SQRT2 ? 1 : lead < Math.sqrt(10) ? 2 : lead < Math.sqrt(50) ? 5 : 10
  return Number((decade * round).toPrecision(1))
}

/** The voltages tried, rising; those that would be no valid study are left out. */
export function tradeAxis(study: Study, end: InputEnd): { present: number; step: number; inputs: number[] } {
  const present = study.requirements.input[end]
  const step = roundStep(STEP_SHARE * present)
  const [below, above] = end === 'max' ? [INWARDS, OUTWARDS] : [OUTWARDS, INWARDS]
  const inputs = Array.from({ length: below + above + 1 }, (_, k) =>
    k === below ? present : Number((present + (k - below) * step).toPrecision(12)),
  )
  return { present, step, inputs: inputs.filter((volts) => altered(study, `input.${end}`, volts)) }
}

/** Yields after each topology of each point. */
export function* tradeOf(
  study: Study,
  end: InputEnd,
): Generator<{ done: number; total: number; point?: TradePoint }, Trade> {
  const { present, step, inputs } = tradeAxis(study, end)
  const total = inputs.length * TOPOLOGIES.length
  const points: TradePoint[] = []
  let done = 0
  // what matters most is known first: the range as it is, then its neighbours
  for (const input of inputs.toSorted((a, b) => Math.abs(a - present) - Math.abs(b - present))) {
    const changed = altered(study, `input.${end}`, input)!.study
    const designs: TradeDesign[] = []
    for (const topology of TOPOLOGIES) {
      const sized = size(topology, needFor(changed, topology))
      designs.push(tradeDesignOf(designOf(topology.name, sized, changed.assumptions), changed))
      const point = designs.length === TOPOLOGIES.length ? { input, designs } : undefined
      if (point) points.push(point)
      yield { done: ++done, total, ...(point ? { point } : {}) }
    }
  }
  points.sort((a, b) => a.input - b.input)
  return { end, present, step, points, costs: costsOf(points, present, end) }
}

export function tradeDesignOf(design: Design, { requirements }: Study): TradeDesign {
  const { topology, variant, verdict, shortfalls, figures, operatingPoints, parts } = design
  const { input, load } = requirements
  const highest = operatingPoints?.find(
    ({ condition }) => condition.input === input.max && condition.load === load.max,
  )?.efficiency
  const sinks = parts.flatMap(({ role, partNumber, value }) =>
    role.startsWith('heatsink') && partNumber !== undefined && value !== undefined
      ? [{ partNumber, thermalResistance: value }]
      : [],
  )
  const largest = sinks.toSorted((a, b) => a.thermalResistance - b.thermalResistance)[0]
  return {
    topology,
    variant,
    meets: verdict === 'meets',
    missed: shortfalls.length,
    ...(figures ? { heat: headlineOf('heat', figures)!, efficiency: headlineOf('efficiency', figures)! } : {}),
    ...(highest === undefined ? {} : { efficiencyAtHighest: highest }),
    ...(largest ? { heatsink: largest } : {}),
    partNumbers: Object.fromEntries(
      parts.flatMap(({ id, role, partNumber }) =>
        partNumber === undefined || role.startsWith('heatsink') ? [] : [[id, partNumber]],
      ),
    ),
  }
}

/** One cost a topology and direction where both ends of the step were built. */
function costsOf(points: readonly TradePoint[], present: number, end: InputEnd): MarginalCost[] {
  const at = points.findIndex(({ input }) => input === present)
  const costs: MarginalCost[] = []
  for (const direction of ['outward', 'inward'] as const) {
    const isUp = (direction === 'outward') === (end === 'max')
    const here = points[at]
    const there = points[isUp ? at + 1 : at - 1]
    if (!here || !there) continue
    here.designs.forEach((now, k) => {
      const then = there.designs[k]!
      if (now.heat === undefined || then.heat === undefined) return
      // how much wider the range becomes, negative where it narrows
      const wider = (direction === 'outward' ? 1 : -1) * Math.abs(there.input - here.input)
      costs.push({
        topology: now.topology,
        direction,
        from: here.input,
        to: there.input,
        heatPerVolt: (then.heat - now.heat) / wider,
        ...(now.efficiencyAtHighest !== undefined && then.efficiencyAtHighest !== undefined
          ? { efficiencyPerVolt: (then.efficiencyAtHighest - now.efficiencyAtHighest) / wider }
          : {}),
        changesHeatsink: now.heatsink?.partNumber !== then.heatsink?.partNumber,
        changesVariant: now.variant !== then.variant,
        changesVerdict: now.meets !== then.meets,
        changedParts:
          now.variant === then.variant
            ? Object.keys(now.partNumbers).filter((id) => now.partNumbers[id] !== then.partNumbers[id])
            : [],
      })
    })
  }
  return costs
}
