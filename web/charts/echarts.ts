/** The parts of ECharts that the plots use; loaded after the page, by the chart panel alone. */
import { init, use } from 'echarts/core'
import { LineChart } from 'echarts/charts'
import { DatasetComponent, GridComponent } from 'echarts/components'
import { CanvasRenderer } from 'echarts/renderers'

use([LineChart, GridComponent, DatasetComponent, CanvasRenderer])

export { init }
