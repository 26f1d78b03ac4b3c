/** The curves as paths for a sheet of paper, where a canvas would be a scaled picture of dots. */
import { domainOf } from './plot.ts'
import type { Plot, PlotLine, PlotSource } from './plot.ts'
import { fractionOf } from './scale.ts'

export interface PrintedLine {
  readonly line: PlotLine
  /** An SVG path in a box of 1000 by 1000, its origin at the top left. */
  readonly path: string
}

const BOX = 1000

/** Runs of points with numbers; a failed point breaks the line, as it does on the canvas. */
function runsOf(plot: Plot, source: PlotSource, line: PlotLine): string[][] {
  const columns = source.designs[line.design]![plot.axis]
  const domain = domainOf(source, plot.axis)
  const [axis, values] = [columns['x']!, columns[line.column]!]
  const runs: string[][] = [[]]
  for (let i = 0; i < values.length; i++) {
    const [x, y] = [fractionOf(axis[i]!, domain) * BOX, (1 - fractionOf(values[i]!, plot.y)) * BOX]
    if (Number.isFinite(y)) runs.at(-1)!.push(`${x.toFixed(1)} ${y.toFixed(1)}`)
    else if (runs.at(-1)!.length > 0) runs.push([])
  }
  return runs.filter((run) => run.length > 1)
}

/** A filled line's area reaches down to zero. */
function closed(run: readonly string[], base: string): string {
  const [first, last] = [run[0]!, run.at(-1)!].map((point) => point.split(' ')[0])
  return `M${run.join('L')}L${last} ${base}L${first} ${base}Z`
}

/** One entry a line, in the order in which they are drawn. */
export function printedLines(plot: Plot, source: PlotSource): PrintedLine[] {
  const base = ((1 - fractionOf(0, plot.y)) * BOX).toFixed(1)
  return plot.lines.map((line) => ({
    line,
    path: runsOf(plot, source, line)
      .map((run) => (line.filled ? closed(run, base) : `M${run.join('L')}`))
      .join(''),
  }))
}
