/** Heat by part against the input voltage: one small plot a design, all on one scale. */
import { NAMED_SHARES } from '../columns.ts'
import { markOf } from '../marks.ts'
import { axisPrefix, extentOver } from '../plot.ts'
import type { Plot, PlotLine, PlotSource } from '../plot.ts'
import { roundAxis } from '../scale.ts'

/**
 * Running sums are drawn from the top one down, each filled to zero, so that every band shows one share. All plots have
 * the same number of lines whatever the parts are: then an edit changes numbers only.
 */
export function heatByPartPlots(source: PlotSource): Plot[] {
  const [, high] = extentOver(source, 'input', 'heat') ?? [0, 1]
  const { factor, unit } = axisPrefix(high, 'W')
  const { heat1, heat2, heat3, heatSoft } = source.theme
  const fills = [heat1, heat2, heat3, heatSoft]
  return source.designs.map(({ topology, shares }, design) => {
    const lines: PlotLine[] = []
    for (let k = NAMED_SHARES; k >= 0; k--) {
      const share = shares[k]
      lines.push({
        design,
        column: `stack${k}`,
        valueColumn: `part${k}`,
        topology,
        colour: fills[k]!,
        width: 0,
        dash: 'solid',
        filled: true,
        ...(share && { label: share.parts.length > 1 ? 'rest' : share.label }),
      })
    }
    const { name } = markOf(topology)
    return {
      id: `heatByPart.${topology}`,
      title: `Heat by part, ${name.toLowerCase()}`,
      unit,
      axis: 'input',
      height: 62,
      y: roundAxis(0, high, 3),
      factor,
      lines,
      limits: [],
      description: `${name}: heat by part against input voltage at full load, stacked`,
    }
  })
}
