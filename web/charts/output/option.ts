/** Output voltage against the input voltage, at full load, with the allowed band. */
import { topologyLines } from '../lines.ts'
import { figureText } from '../plot.ts'
import type { Plot, PlotSource } from '../plot.ts'
import { roundAxis } from '../scale.ts'

/** Share of the allowed band's width that is shown below and above it. */
const ROOM = 0.2

export function outputPlot(source: PlotSource): Plot {
  const { voltage, tolerance } = source.requirements.output
  const low = voltage * (1 - tolerance)
  const high = voltage * (1 + tolerance)
  const room = (high - low) * ROOM
  return {
    id: 'output',
    title: 'Output',
    unit: `V, allowed ${figureText(low)} to ${figureText(high)}`,
    axis: 'input',
    height: 78,
    y: roundAxis(low - room, high + room),
    factor: 1,
    lines: topologyLines(source, 'output'),
    limits: [{ value: low }, { value: high }],
    description: `Output voltage against input voltage at full load; allowed ${figureText(low)} to ${figureText(high)} V`,
  }
}
