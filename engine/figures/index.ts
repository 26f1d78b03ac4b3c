/** Every figure, in the order in which tables list them. */
import type { Proof } from '../analyses/prove.ts'
import type { Assumptions } from '../requirements/study.ts'
import { boardArea } from './boardArea.ts'
import { cost } from './cost.ts'
import { type FigureDefinition, type FigureDescriptor, nominalAt } from './define.ts'
import { type Efficiency, efficiency } from './efficiency.ts'
import { failureRate } from './failureRate.ts'
import { headroom } from './headroom.ts'
import { type Heat, heat } from './heat.ts'
import { lineRegulation } from './lineRegulation.ts'
import { type Regulation, loadRegulation } from './loadRegulation.ts'
import { minimumInput } from './minimumInput.ts'
import { noLoadInputCurrent } from './noLoadInputCurrent.ts'
import { type Output, output } from './output.ts'
import { outputResistance } from './outputResistance.ts'
import { outputRipple } from './outputRipple.ts'
import { partCount } from './partCount.ts'
import { rippleRejection } from './rippleRejection.ts'
import { type ShortCircuit, shortCircuit } from './shortCircuit.ts'
import { standbyPower } from './standbyPower.ts'
import { temperatureDrift } from './temperatureDrift.ts'

/** The figures of one design, by name; one that does not apply is absent. */
export interface Figures {
  efficiency: Efficiency
  heat: Heat
  output: Output
  loadRegulation: Regulation
  lineRegulation: Regulation
  minimumInput: number
  headroom: number
  standbyPower?: number
  noLoadInputCurrent?: number
  outputResistance?: number
  rippleRejectionDb?: number
  outputRipple?: number
  temperatureDrift?: number
  shortCircuit?: ShortCircuit
  partCount: number
  /** Euro, assumed prices; absent where one is missing. */
  cost?: number
  /** Square metres; absent where one is missing. */
  boardArea?: number
  /** Failures in 10⁹ hours. */
  failureRateFit?: number
}

const DEFINITIONS = [
  efficiency,
  heat,
  output,
  loadRegulation,
  lineRegulation,
  outputRipple,
  outputResistance,
  rippleRejection,
  temperatureDrift,
  minimumInput,
  headroom,
  standbyPower,
  noLoadInputCurrent,
  shortCircuit,
  partCount,
  cost,
  boardArea,
  failureRate,
] as unknown as readonly FigureDefinition[]

export const FIGURES: readonly FigureDescriptor[] = DEFINITIONS.map(
  ({ compute: _, headline: __, headlineOf: ___, ...descriptor }) => descriptor,
)

/** Everything a proof says, by figure name. Undefined where the nominal point itself has no solution. */
export function figuresOf(proof: Proof, assumptions: Assumptions): Figures | undefined {
  const figures: Record<string, unknown> = {}
  for (const { name, compute } of DEFINITIONS) {
    const value = compute(proof, assumptions)
    if (value !== undefined) figures[name] = value
  }
  return 'efficiency' in figures && 'heat' in figures && 'output' in figures
    ? (figures as unknown as Figures)
    : undefined
}

/** The one number of a figure that is ranked and compared; undefined where the design has no such figure. */
export function headlineOf(name: string, figures: Figures): number | undefined {
  const definition = DEFINITIONS.find((d) => d.name === name)
  const value = (figures as unknown as Record<string, unknown>)[name]
  return definition && value !== undefined ? definition.headline(value) : undefined
}

/**
 * The same numbers straight from a proof, of the figures named alone. None where the nominal point or the full load has no
 * solution, as `figuresOf` has none.
 */
export function headlinesOf(proof: Proof, assumptions: Assumptions, names: readonly string[]): Record<string, number> {
  const headlines: Record<string, number> = {}
  const { nominal, fullLoad } = proof.conditions
  if (!nominalAt(proof, nominal) || !nominalAt(proof, fullLoad)) return headlines
  for (const { name, compute, headline, headlineOf: direct } of DEFINITIONS) {
    if (!names.includes(name)) continue
    const value = direct ? direct(proof, assumptions) : compute(proof, assumptions)
    const number = direct || value === undefined ? (value as number | undefined) : headline(value)
    if (number !== undefined) headlines[name] = number
  }
  return headlines
}

export type { FigureDescriptor } from './define.ts'
export type { Efficiency } from './efficiency.ts'
export type { Heat } from './heat.ts'
export type { Regulation } from './loadRegulation.ts'
export type { Output } from './output.ts'
export type { ShortCircuit } from './shortCircuit.ts'
