/** Which plots stand in the column, in what order, and what they share. One line a chart. */
import type { Answer } from '../../engine/compare/comparison.ts'
import type { Theme } from '../look/theme.ts'
import type { DesignColumns } from './columns.ts'
import { efficiencyPlot } from './efficiency/option.ts'
import { heatPlot } from './heat/option.ts'
import { heatByPartPlots } from './heatByPart/option.ts'
import { hottestPlot } from './hottest/option.ts'
import { loadEfficiencyPlot } from './loadEfficiency/option.ts'
import { loadRegulationPlot } from './loadRegulation/option.ts'
import { outputPlot } from './output/option.ts'
import type { Plot, PlotSource } from './plot.ts'
import type { Domain } from './scale.ts'
import { roundAxis } from './scale.ts'

/** Tick labels stand under these plots too, so that no plot is far from its scale. */
export const TICKS_AFTER: readonly string[] = ['hottest']

/** What all plots read; `designs` are the answer's columns, `inputDomain` is in volts. */
export function plotSource(
  answer: Answer,
  designs: readonly DesignColumns[],
  inputDomain: Domain,
  theme: Theme,
): PlotSource {
  const { requirements } = answer.comparison
  const sweptTo = Math.max(requirements.load.max, ...designs.map(({ load }) => load['x']!.at(-1) ?? 0))
  return { designs, requirements, inputDomain, loadDomain: { min: 0, max: roundAxis(0, sweptTo, 10).max }, theme }
}

export function allPlots(source: PlotSource): Plot[] {
  return [
    heatPlot(source),
    efficiencyPlot(source),
    outputPlot(source),
    hottestPlot(source),
    ...heatByPartPlots(source),
    loadRegulationPlot(source),
    loadEfficiencyPlot(source),
  ]
}
