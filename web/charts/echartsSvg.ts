/** A chart's option drawn off screen as SVG text; loaded when a picture is copied out. */
import { SVGRenderer } from 'echarts/renderers'
import { use } from 'echarts/core'
import type { EChartsCoreOption } from 'echarts/core'
import { init } from './echarts.ts'

use([SVGRenderer])

/** Sizes in pixels. */
export function renderSvg(option: EChartsCoreOption, width: number, height: number): string {
  const chart = init(null, undefined, { renderer: 'svg', ssr: true, width, height })
  try {
    chart.setOption({ ...option, animation: false })
    return chart.renderToSVGString()
  } finally {
    chart.dispose()
  }
}
