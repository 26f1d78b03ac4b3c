/** The component of every screen; each but the first is loaded when it is first opened. */
import { type Component, defineAsyncComponent } from 'vue'
import CompareScreen from './compare/CompareScreen.vue'
import type { ScreenName } from './names.ts'

export const SCREEN_COMPONENTS: Record<ScreenName, Component> = {
  compare: CompareScreen,
  reliability: defineAsyncComponent(() => import('./reliability/ReliabilityScreen.vue')),
  cost: defineAsyncComponent(() => import('./cost/CostScreen.vue')),
  spread: defineAsyncComponent(() => import('./spread/SpreadScreen.vue')),
  heat: defineAsyncComponent(() => import('./heat/HeatScreen.vue')),
  ratings: defineAsyncComponent(() => import('./ratings/RatingsScreen.vue')),
  map: defineAsyncComponent(() => import('./map/MapScreen.vue')),
  faults: defineAsyncComponent(() => import('./faults/FaultsScreen.vue')),
}
