/** The three topology lines that most plots draw. */
import { markOf } from './marks.ts'
import type { PlotLine, PlotSource } from './plot.ts'

/** One line a design, each with its colour and dash; designs without a circuit keep their place and draw nothing. */
export function topologyLines(source: PlotSource, column: string): PlotLine[] {
  return source.designs.map(({ topology }, design) => {
    const mark = markOf(topology)
    return { design, column, topology, colour: source.theme[mark.token], width: mark.width, dash: mark.dash }
  })
}
