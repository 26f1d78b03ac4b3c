/** Which tolerance, and which part of the environment, moves a figure how far: from the solver's own derivatives, at the nominal point. */
import type { Response, Workspace } from '../../solve/index.ts'
import { efficiencyOf } from '../efficiency.ts'
import type { Prepared } from '../prepare.ts'
import type { Proof } from '../prove.ts'
import { type LinearPoint, linearAt } from './linear.ts'
import { type Source, sourcesOf } from './sources.ts'

export interface Sensitivity {
  /** Id of the tolerance (`R1.resistance`), or `input`, `load`, `ambient`. */
  source: string
  /** `R1 resistance`. */
  words: string
  /**
   * What the figure would change by, in its own unit, if this went to its high or its low limit along the tangent at nominal;
   * of the environment, to the ends of its range.
   */
  toHigh: number
  toLow: number
  /** Share of the figure's variance, 0 to 1, were all of these independent and alike in their distribution. */
  share: number
}

export interface FigureSensitivities {
  unit: string
  /** Of the nominal board. */
  nominal: number
  /** The largest first. */
  sources: Sensitivity[]
  /** How many are not listed, their share of the variance being under 0.05 %. */
  leftOut: number
}

export type SensitiveFigure = 'output' | 'efficiency' | 'heat' | 'loadRegulation'

export interface Sensitivities {
  /** Volts, amperes, degrees Celsius: where the derivatives are taken, temperatures settled. */
  condition: { input: number; load: number; ambient: number }
  /**
   * A figure without derivatives is absent. `loadRegulation` is the output at the lightest load less that at full load, in
   * volts, signed, at this input and ambient.
   */
  figures: Partial<Record<SensitiveFigure, FigureSensitivities>>
}

const LEAST_SHARE = 5e-4

/** What one source does to one figure. */
interface Slope {
  readonly source: Source
  readonly toHigh: number
  readonly toLow: number
}

export function sensitivitiesOf({ observer, requirements, design }: Proof): Sensitivities {
  const { prepared } = observer
  const { input, load, ambient } = requirements
  const sources = sourcesOf(prepared.circuit, design, requirements)
  const at = (amperes: number): LinearPoint | undefined =>
    linearAt(prepared.circuit, thermalResistances(prepared), input.nominal, amperes, ambient.nominal)
  const figures: Sensitivities['figures'] = {}
  const nominal = at(load.nominal)
  if (nominal) {
    const responses = respondToAll(nominal, sources)
    const read = (unit: string, value: number, of: (response: Response) => number): FigureSensitivities =>
      ranked(
        unit,
        value,
        responses.map(({ source, high, low }) => ({ source, toHigh: of(high), toLow: of(low) })),
      )
    const heat = heatIn(prepared, nominal.at.power)
    const given = input.nominal * supplied(prepared, nominal.at.currents)
    figures.output = read('V', nominal.at.voltages[prepared.output]!, ({ voltages }) => voltages[prepared.output]!)
    figures.efficiency = read('1', efficiencyOf(given, heat), (response) =>
      efficiencyMoved(prepared, nominal.at, response, input.nominal),
    )
    figures.heat = read('W', heat, ({ power }) => heatIn(prepared, power))
  }
  const light = at(load.min)
  const full = at(load.max)
  if (light && full) {
    const volts = ({ voltages }: Response | Workspace): number => voltages[prepared.output]!
    const others = sources.filter(({ source }) => source !== 'load')
    const ofLight = respondToAll(light, others)
    const ofFull = respondToAll(full, others)
    figures.loadRegulation = ranked(
      'V',
      volts(light.at) - volts(full.at),
      others.map((source, k) => ({
        source,
        toHigh: volts(ofLight[k]!.high) - volts(ofFull[k]!.high),
        toLow: volts(ofLight[k]!.low) - volts(ofFull[k]!.low),
      })),
    )
  }
  return {
    condition: { input: input.nominal, load: load.nominal, ambient: ambient.nominal },
    figures: Object.fromEntries(Object.entries(figures).filter(([, figure]) => isWhole(figure))),
  }
}

function respondToAll({ respond }: LinearPoint, sources: readonly Source[]) {
  return sources.map((source) => ({
    source,
    high: respond(source.high.change, source.high.warmer),
    low: respond(source.low.change, source.low.warmer),
  }))
}

/** A point on the edge of thermal runaway, or one without power, has slopes that are no numbers. */
const isWhole = ({ nominal, sources }: FigureSensitivities): boolean =>
  [nominal, ...sources.flatMap(({ toHigh, toLow }) => [toHigh, toLow])].every(Number.isFinite) && sources.length > 0

/** By size of the slope across nominal, (to high - to low)/2, whose square is the share of the variance. */
function ranked(unit: string, nominal: number, slopes: readonly Slope[]): FigureSensitivities {
  const size = ({ toHigh, toLow }: Slope): number => Math.abs(toHigh - toLow) / 2
  const whole = slopes.reduce((sum, slope) => sum + size(slope) ** 2, 0)
  const listed = slopes
    .toSorted((a, b) => size(b) - size(a))
    .map((slope) => ({
      source: slope.source.source,
      words: slope.source.words,
      toHigh: slope.toHigh,
      toLow: slope.toLow,
      share: whole > 0 ? size(slope) ** 2 / whole : 0,
    }))
    .filter(({ share }) => share >= LEAST_SHARE)
  return { unit, nominal, sources: listed, leftOut: slopes.length - listed.length }
}

function thermalResistances({ circuit, design }: Prepared): Float64Array {
  const byPart = new Map(design.parts.map((part) => [part.id, part.thermalResistance ?? 0]))
  return Float64Array.from(circuit.parts, (id) => byPart.get(id) ?? 0)
}

const heatIn = ({ heatParts }: Prepared, power: Float64Array): number =>
  heatParts.reduce((sum, part) => sum + power[part]!, 0)

const supplied = ({ inputTerminal }: Prepared, currents: Float64Array): number => -currents[inputTerminal]!

/** Of 1 - heat/given. */
function efficiencyMoved(prepared: Prepared, at: Workspace, response: Response, volts: number): number {
  const { circuit } = prepared
  const [plus, minus] = circuit.netlist.elements[circuit.element('input')]!.nodes
  const voltsMoved = response.voltages[circuit.node(plus)]! - response.voltages[circuit.node(minus)]!
  const given = volts * supplied(prepared, at.currents)
  const givenMoved = voltsMoved * supplied(prepared, at.currents) + volts * supplied(prepared, response.currents)
  return ((heatIn(prepared, at.power) / given) * givenMoved - heatIn(prepared, response.power)) / given
}
