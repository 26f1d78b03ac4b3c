/** Efficiency against the load current, at nominal input. */
import { topologyLines } from '../lines.ts'
import type { Plot, PlotSource } from '../plot.ts'

export function loadEfficiencyPlot(source: PlotSource): Plot {
  return {
    id: 'loadEfficiency',
    title: 'Efficiency',
    unit: '%, against load',
    axis: 'load',
    height: 74,
    y: { min: 0, max: 1, step: 0.5 },
    factor: 100,
    lines: topologyLines(source, 'efficiency'),
    limits: [],
    description: 'Efficiency against load current at nominal input',
  }
}
