/** The plots that decide, as paths and places on paper. */
import type { Answer } from '../../../engine/compare/comparison.ts'
import { entryText } from '../../../engine/units/index.ts'
import { allPlots, plotSource } from '../../charts/column.ts'
import { type DesignColumns } from '../../charts/columns.ts'
import { type PlotFrameParts, frameOf } from '../../charts/frame.ts'
import { layoutOf } from '../../charts/layout.ts'
import { type TopologyMark, markOf } from '../../charts/marks.ts'
import type { Plot, PlotSource } from '../../charts/plot.ts'
import { printedLines } from '../../charts/printedLines.ts'
import { type Readout, acrossOf, readoutsOf } from '../../charts/readout.ts'
import type { Theme } from '../../look/theme.ts'
import { inputScale } from '../../store/scales.ts'

export interface PlotPicture {
  readonly id: string
  readonly title: string
  readonly unit: string
  readonly description: string
  /** Drawing height, in the units that `frame` and `readouts` are in. */
  readonly height: number
  readonly frame: PlotFrameParts
  readonly lines: readonly { readonly mark: TopologyMark; /** In a box of 1000 by 1000. */ readonly path: string }[]
  /** Where the values beside the plot are read: 0 to 1 across, and in words. */
  readonly at: { readonly across: number; readonly text: string }
  readonly readouts: readonly Readout[]
}

/** The plot that shows a figure. */
const SHOWS: Readonly<Record<string, string>> = {
  heat: 'heat',
  efficiency: 'efficiency',
  output: 'output',
  lineRegulation: 'output',
  minimumInput: 'output',
  headroom: 'output',
  temperatureDrift: 'hottest',
  loadRegulation: 'loadRegulation',
  outputResistance: 'loadRegulation',
  standbyPower: 'loadEfficiency',
}
/** In this order where the figures that decide have no plot. */
const OTHERWISE = ['output', 'heat', 'efficiency', 'hottest', 'loadRegulation']

const HEIGHT = 76

/** Only the three colours are read, and drawn as the sheet has them: dark on white. */
const INKS = { shunt: 'var(--shunt)', series: 'var(--series)', feedback: 'var(--feedback)' } as Theme

const plain = (value: number, unit: string): string => entryText(value, unit).replace(' ', '\u202F')

function picture(plot: Plot, source: PlotSource): PlotPicture {
  const drawn = { ...plot, height: HEIGHT }
  const { input, load } = source.requirements
  const at = plot.axis === 'input' ? input.nominal : load.max
  return {
    id: plot.id,
    title: plot.title,
    unit: plot.unit,
    description: plot.description,
    height: HEIGHT,
    frame: frameOf([drawn], layoutOf([drawn], []), source)[0]!,
    lines: printedLines(drawn, source).map(({ line, path }) => ({ mark: markOf(line.topology), path })),
    at: { across: acrossOf(source, plot.axis, at), text: plot.axis === 'input' ? plain(at, 'V') : plain(at, 'A') },
    readouts: readoutsOf(drawn, source, at),
  }
}

/** As many plots as asked for, those of the figures in `decisive` first. */
export function decidingPlots(
  answer: Answer,
  columns: readonly DesignColumns[],
  decisive: readonly string[],
  count: number,
): PlotPicture[] {
  const { min, max } = answer.comparison.requirements.input
  const source = plotSource(answer, columns, inputScale(min, max), INKS)
  const plots = allPlots(source)
  const ids = new Set([...decisive.flatMap((name) => SHOWS[name] ?? []), ...OTHERWISE])
  return [...ids]
    .flatMap((id) => plots.find((plot) => plot.id === id) ?? [])
    .slice(0, count)
    .map((plot) => picture(plot, source))
}
