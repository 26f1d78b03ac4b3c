/** Heat in all parts against the input voltage, at full load. */
import { topologyLines } from '../lines.ts'
import { axisPrefix, extentOver } from '../plot.ts'
import type { Plot, PlotSource } from '../plot.ts'
import { roundAxis } from '../scale.ts'

export function heatPlot(source: PlotSource): Plot {
  const [, high] = extentOver(source, 'input', 'heat') ?? [0, 1]
  const { factor, unit } = axisPrefix(high, 'W')
  return {
    id: 'heat',
    title: 'Heat in all parts',
    unit,
    axis: 'input',
    height: 88,
    y: roundAxis(0, high),
    factor,
    lines: topologyLines(source, 'heat'),
    limits: [],
    description: 'Heat in all parts against input voltage at full load',
  }
}
