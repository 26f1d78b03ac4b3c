/** Temperature of the hottest part against the input voltage, at full load and nominal ambient. */
import { topologyLines } from '../lines.ts'
import { extentOver, tickText } from '../plot.ts'
import type { Plot, PlotSource } from '../plot.ts'
import { roundAxis } from '../scale.ts'

export function hottestPlot(source: PlotSource): Plot {
  const ambient = source.requirements.ambient.nominal
  const [low, high] = extentOver(source, 'input', 'hottest') ?? [ambient, ambient + 50]
  return {
    id: 'hottest',
    title: 'Hottest part',
    unit: `°C at ${tickText(ambient, 1)} °C ambient`,
    axis: 'input',
    height: 74,
    y: roundAxis(Math.min(low, ambient), high),
    factor: 1,
    lines: topologyLines(source, 'hottest'),
    limits: [],
    description: 'Temperature of the hottest part against input voltage at full load',
  }
}
