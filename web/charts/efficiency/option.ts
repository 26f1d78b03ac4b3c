/** Efficiency against the input voltage, at full load. */
import { topologyLines } from '../lines.ts'
import type { Plot, PlotSource } from '../plot.ts'

export function efficiencyPlot(source: PlotSource): Plot {
  return {
    id: 'efficiency',
    title: 'Efficiency',
    unit: '%',
    axis: 'input',
    height: 74,
    // always the whole scale: half the watts wasted must look like half
    y: { min: 0, max: 1, step: 0.5 },
    factor: 100,
    lines: topologyLines(source, 'efficiency'),
    limits: [],
    description: 'Efficiency against input voltage at full load',
  }
}
