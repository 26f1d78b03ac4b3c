/** How far the output moves from its value at the least load, against the load current at nominal input. */
import { topologyLines } from '../lines.ts'
import { axisPrefix, extentOver } from '../plot.ts'
import type { Plot, PlotLimit, PlotSource } from '../plot.ts'
import { roundAxis } from '../scale.ts'

export function loadRegulationPlot(source: PlotSource): Plot {
  const { output, limits, load } = source.requirements
  const allowed = limits.loadRegulation === undefined ? undefined : limits.loadRegulation * output.voltage
  // by the required loads alone: an unloaded follower may rise by a volt, which is not the matter here
  const [low, high] = extentOver(source, 'load', 'change', load) ?? [0, 0]
  const bottom = Math.min(low, -(allowed ?? 0) * 1.1, 0)
  const top = Math.max(high, 0)
  const { factor, unit } = axisPrefix(Math.max(-bottom, top, 1e-6), 'V')
  const marks: PlotLimit[] = allowed === undefined ? [] : [{ value: -allowed, word: 'limit' }]
  return {
    id: 'loadRegulation',
    title: 'Output change under load',
    unit,
    axis: 'load',
    height: 84,
    y: roundAxis(bottom, top),
    factor,
    lines: topologyLines(source, 'change'),
    limits: marks,
    description: 'Change of the output voltage from its value at the least load, against load current at nominal input',
  }
}
